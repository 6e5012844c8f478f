"""Densities and heat capacities that only equations of state have, by way of `thermo`: siloxanes, propellants. Skipped where it is not installed."""

import pytest

from tests.materials.ours import compared, substances
from tests.sources import source

thermo = pytest.importorskip("thermo")
pytest.importorskip("chemicals")

from tests.materials import outside  # noqa: E402

TABLE = "HEOS_FIT"                      # fitted to the reference equations of state
OFF = {"density": 0.015, "heat capacity": 0.10}     # as in test_data_sets.py


def reference(cas: str, name: str, at: float) -> float | None:
    """kg/m³ or J/(kg K) of the liquid, or None."""
    known = outside.substance(cas)
    if known is None:
        return None
    made = thermo.VolumeLiquid(CASRN=cas) if name == "density" else thermo.HeatCapacityLiquid(CASRN=cas, MW=known.MW)
    low, high = made.T_limits.get(TABLE, (1.0, 0.0))
    if not low <= at <= high:
        return None
    value = made.calculate(at, TABLE)
    return known.MW / 1000 / value if name == "density" else value / known.MW * 1000


@source("independent", "thermo 0.6: reference equations of state")
@pytest.mark.parametrize("name", OFF)
def test_liquids_agree_with_their_equation_of_state(name):
    """The figures of liquids lie within the tolerance of the reference equations."""
    told = {(one.material.name, figure.written): (figure.value.low, theirs) for one in substances() if one.material.text("form") in outside.LIQUID
            for figure in compared(one.material, name) if (theirs := reference(one.cas, name, figure.at or 293.15))}
    assert {key: pair for key, pair in told.items() if abs(pair[0] / pair[1] - 1) > OFF[name]} == {}
    assert len(told) >= 8
