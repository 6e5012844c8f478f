"""The shipped figures against a table of read and computed ones, which needs no library: monographs, standards, textbooks, reference tables.

The tolerances are those of test_data_sets.py; melting ranges of mixtures have to overlap. A share by molar masses may be off by 0.1 %.
"""

import pytest

from tests.materials.listed import listed, rows
from tests.materials.ours import MATERIALS, compared
from tests.sources import source

ROWS = rows("data/handbook.csv")
NAMED = {one.name: one for one in MATERIALS}
KELVIN = 273.15
SCALE = {"g/mL": 1000, "kJ/kg/K": 1000, "%": 0.01}
OFF = {"density": 0.015, "heat capacity": 0.10, "reckon as": 0.001, "assay": 0.001}
ABOVE, BELOW, APART, NEAR = 2.0, 3.0, 3.0, 6.0     # K


def ends(row) -> tuple[float, float]:
    """The row's range in SI."""
    if row["unit"] == "°C":
        return float(row["low"]) + KELVIN, float(row["high"]) + KELVIN
    return float(row["low"]) * SCALE[row["unit"]], float(row["high"]) * SCALE[row["unit"]]


def held(row) -> list:
    """Our figures that the row speaks of: those of the same temperature, where both name one."""
    figures = compared(NAMED[row["material"]], row["property"])
    return [figure for figure in figures if not row["at"] or figure.at is None or abs(figure.at - KELVIN - float(row["at"])) <= NEAR]


def agrees(row, figure) -> bool:
    low, high = ends(row)
    if row["property"] == "flash point":
        return low - BELOW <= figure.value.low and figure.value.high <= high + ABOVE
    if row["property"] in OFF:
        off = OFF[row["property"]]
        return figure.value.low <= high * (1 + off) and figure.value.high >= low * (1 - off)
    apart = 0 if row["how"] == "read" else APART
    return figure.value.low <= high + apart and figure.value.high >= low - apart


@source("published", "the column `source` of data/handbook.csv; rows marked computed come from the library and version named there")
@pytest.mark.parametrize("row", ROWS, ids=[f"{row['material']}, {row['property']}" for row in ROWS])
def test_figures_agree_with_the_handbook(row):
    """One of our figures is that of the row, or the disagreement is listed; our cautious flash point is no higher than the row's."""
    figures = held(row)
    assert figures
    if not any(agrees(row, figure) for figure in figures):
        assert (row["material"], row["property"]) in {(each.material, each.property) for each in listed(row["property"])}
    if row["property"] == "flash point":
        assert min(figure.value.low for figure in figures) <= ends(row)[1] + ABOVE


@source("by hand", "a rule of the house: a figure from memory is no check")
def test_no_row_is_from_memory():
    """Every row is read or computed, and names its source."""
    assert {row["how"] for row in ROWS} == {"read", "computed"}
    assert all(row["source"] for row in ROWS)
