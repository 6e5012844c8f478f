"""Each formula: its own example, published figures, and its units."""

import csv
import doctest
import importlib
from pathlib import Path

import pint
import pytest

from procsheet.formulas.ethanol_flash import TABLE, ethanol_flash
from procsheet.formulas.jacket_time import jacket_time
from procsheet.formulas.minimum_weight import minimum_weight
from procsheet.formulas.tip_speed import tip_speed, turns_for_tip_speed
from tests.sources import source

ROOT = Path(__file__).parents[2] / "procsheet" / "formulas"
DATA = Path(__file__).parents[1] / "published" / "data"
MODULES = sorted(path.stem for path in ROOT.glob("*.py") if path.stem != "__init__")
UNITS = pint.UnitRegistry(autoconvert_offset_to_baseunit=True)


@source("by hand", "the example in each docstring, with its source")
@pytest.mark.parametrize("name", MODULES)
def test_examples(name):
    """Every formula's docstring holds an example, and it comes out."""
    found = doctest.testmod(importlib.import_module(f"procsheet.formulas.{name}"))
    assert found.attempted and not found.failed


@source("by hand", "the five parts of a formula's docstring")
@pytest.mark.parametrize("name", MODULES)
def test_docstrings_have_their_parts(name):
    """Every formula says its units, validity, an example and a source; its private helpers need not."""
    module = importlib.import_module(f"procsheet.formulas.{name}")
    for function in vars(module).values():
        if callable(function) and getattr(function, "__module__", "") == module.__name__ and not function.__name__.startswith("_"):
            for part in ("Return", "[", "Valid", "Example:", "Source:"):
                assert part in function.__doc__


def vessels():
    with (DATA / "jacket_heating.csv").open(encoding="utf-8", newline="") as file:
        return [row for row in csv.DictReader(file) if row["case"] == "cosmetic vessel"]


@source("independent", "closed form and solve_ivp to the end temperature (jacket_heating.csv, computed with scipy 1.17.1)")
@pytest.mark.parametrize("row", vessels(), ids=lambda row: row["expression"])
def test_jacket_times(row):
    """Heating and cooling times of five vessels agree with the handbook's integration."""
    words = dict(part.split("=") for part in row["expression"].replace(" kg", "").replace(" degC", "").split() if "=" in part)
    start, target = (float(one) + 273.15 for one in row["expression"].split()[-2].split("->"))
    found = jacket_time(mass=float(words["M"]), heat_capacity=float(words["cp"]), coefficient=float(words["U"]), area=float(words["A"]),
                        start=start, target=target, jacket=float(words["Tj"]) + 273.15)
    assert found == pytest.approx(float(row["value"]), abs=0.01)


@source("published", "scale-up examples: 0.05 m at 10 000 rpm is 26.1799 m/s, 0.15 m at 3000 rpm 23.5619 m/s")
@pytest.mark.parametrize("diameter, rpm, speed", [(0.05, 10000, 26.17993877991494), (0.15, 3000, 23.561944901923447)])
def test_tip_speeds(diameter, rpm, speed):
    """The speed at the tip is pi times diameter times turns, and back."""
    assert tip_speed(diameter=diameter, speed=rpm / 60) == pytest.approx(speed)
    assert turns_for_tip_speed(diameter=diameter, tip=speed) * 60 == pytest.approx(rpm)


@source("published", "list of ethanol-water flash points by strength, as its page prints it (flash_mixtures.csv, rows read)")
@pytest.mark.parametrize("share, celsius", TABLE)
def test_ethanol_flash_points(share, celsius):
    """At the strengths of the published list the flash point is the list's, and it never rises with strength."""
    assert ethanol_flash(mass_fraction=share) - 273.15 == pytest.approx(celsius)
    assert ethanol_flash(mass_fraction=min(share + 0.01, 1)) <= ethanol_flash(mass_fraction=share) + 1e-9


@source("independent", "pint: the formula called with quantities gives the promised unit")
def test_units():
    """Called with quantities in the bracketed units, each formula gives the promised one."""
    kg, m, s, kelvin, joule, watt = (getattr(UNITS, one) for one in ("kg", "m", "s", "kelvin", "joule", "watt"))
    time = jacket_time(mass=500 * kg, heat_capacity=3500 * joule / kg / kelvin, coefficient=350 * watt / m**2 / kelvin, area=2.5 * m**2,
                       start=UNITS.Quantity(293.15, kelvin), target=UNITS.Quantity(348.15, kelvin), jacket=UNITS.Quantity(368.15, kelvin))
    assert time.to(s).magnitude == pytest.approx(2643.51, abs=0.01)
    assert (UNITS.Quantity(3.14159265, "") * 0.05 * m * (100 / s)).check("[speed]")


@source("by hand", "outside its range a formula raises")
@pytest.mark.parametrize("call", [
    lambda: jacket_time(mass=1, heat_capacity=1, coefficient=1, area=1, start=300, target=320, jacket=310),
    lambda: tip_speed(diameter=0, speed=1), lambda: turns_for_tip_speed(diameter=1, tip=-1), lambda: minimum_weight(reads=0, tolerance=0.1),
    lambda: ethanol_flash(mass_fraction=0.01)])
def test_outside_its_range_a_formula_raises(call):
    """A formula raises ValueError where it does not hold."""
    with pytest.raises(ValueError):
        call()
