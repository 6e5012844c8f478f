"""The unit table row by row against pint, and against the published factors."""

import csv
from fractions import Fraction
from pathlib import Path

import pint
import pytest

from procsheet import units
from procsheet.source import source as text_of
from procsheet.syntax import tree
from procsheet.syntax.parse import parse_method
from tests.sources import source

DATA = Path(__file__).parent / "published" / "data"
PINT = pint.UnitRegistry()

# our spelling -> how pint is asked for the same unit
ASKED = {
    "°C/min": "delta_degC/minute", "°F/min": "delta_degF/minute", "°C/h": "delta_degC/hour", "°F/h": "delta_degF/hour", "K": "kelvin",
    "kg": "kilogram", "g": "gram", "mg": "milligram", "t": "tonne", "lb": "pound", "oz": "ounce", "L": "liter", "mL": "milliliter",
    "µL": "microliter", "m3": "meter**3",
    "gal": "gallon", "qt": "quart", "pt": "US_pint", "fl oz": "fluid_ounce", "%": "percent", "ppm": "ppm", "% v/v": "percent",
    "% w/v": "gram/deciliter",
    "s": "second", "min": "minute", "h": "hour", "days": "day", "weeks": "week", "months": "month", "years": "year", "rpm": "turn/minute",
    "m/s": "meter/second",
    "ft/min": "foot/minute", "ft/s": "foot/second", "m": "meter", "cm": "centimeter", "mm": "millimeter", "µm": "micrometer",
    "nm": "nanometer", "in": "inch", "ft": "foot",
    "m2": "meter**2", "ft2": "foot**2", "bar": "bar", "mbar": "millibar", "kPa": "kilopascal", "psi": "psi", "inHg": "inHg",
    "bar abs": "bar", "mbar abs": "millibar",
    "kPa abs": "kilopascal", "psi abs": "psi", "Pa": "pascal", "mmHg": "mmHg", "torr": "torr", "atm": "atm", "kg/min": "kilogram/minute",
    "g/min": "gram/minute",
    "kg/h": "kilogram/hour", "g/s": "gram/second", "lb/min": "pound/minute", "lb/h": "pound/hour", "L/min": "liter/minute",
    "mL/min": "milliliter/minute",
    "m3/h": "meter**3/hour", "L/h": "liter/hour", "gal/min": "gallon/minute", "Pa.s": "pascal*second", "mPa.s": "millipascal*second",
    "mm2/s": "millimeter**2/second",
    "g/mL": "gram/milliliter", "kg/m3": "kilogram/meter**3", "lb/gal": "pound/gallon", "lb/ft3": "pound/foot**3",
    "kJ/kg/K": "kilojoule/kilogram/kelvin",
    "J/kg/K": "joule/kilogram/kelvin", "W/m2/K": "watt/meter**2/kelvin", "Btu/h/ft2/F": "Btu_it/hour/foot**2/delta_degF",
    "kJ/kg": "kilojoule/kilogram", "kW": "kilowatt",
    "hp": "horsepower", "W": "watt", "kW/m3": "kilowatt/meter**3", "W/m3": "watt/meter**3", "N": "newton",
}
OFFSET = {"°C": "degC", "°F": "degF"}
COUNTED = {"parts", "drops", "g force", "NTU", "IU/g", "portions", "passes", "times", "freeze-thaw cycles", "units", "CFU/g", "CFU/mL"}
SI = {"temperature": "kelvin", "temperature rate": "kelvin/second", "mass": "kilogram", "volume": "meter**3", "share": "",
      "volume share": "", "density": "kilogram/meter**3",
      "time": "second", "rotation": "turn/second", "speed": "meter/second", "length": "meter", "area": "meter**2",
      "gauge pressure": "pascal", "pressure": "pascal",
      "mass rate": "kilogram/second", "volume rate": "meter**3/second", "viscosity": "pascal*second",
      "kinematic viscosity": "meter**2/second", "heat capacity": "joule/kilogram/kelvin",
      "heat transfer": "watt/meter**2/kelvin", "latent heat": "joule/kilogram", "power": "watt", "power density": "watt/meter**3",
      "force": "newton"}
FIRST = [row[0].split("|")[0] for row in units.ROWS]


def rows(name: str) -> list[dict]:
    with open(DATA / name, encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


@source("independent", "pint, asked for the same unit")
@pytest.mark.parametrize("spelling", FIRST)
def test_the_table_agrees_with_pint(spelling):
    """Each factor of the table is the one pint works out, in the SI unit of its dimension."""
    unit = units.TABLE[spelling]
    if spelling in COUNTED:
        assert (unit.factor, unit.offset) == (1, 0)
    elif spelling in OFFSET:
        for degrees in (-40, 0, 75, 212):
            assert float(units.to_si(str(degrees),
                                     spelling)) == pytest.approx(PINT.Quantity(degrees, OFFSET[spelling]).to("kelvin").magnitude, rel=1e-12)
    else:
        assert float(unit.factor) == pytest.approx(PINT.Quantity(1, ASKED[spelling]).to(SI[unit.dimension] or "dimensionless").magnitude,
                                                   rel=1e-12)
        assert unit.offset == 0


@source("by hand", "one row, one unit")
@pytest.mark.parametrize("row", units.ROWS, ids=FIRST)
def test_every_spelling_of_a_row_is_the_same_unit(row):
    """Spellings of one row share factor, offset and dimension, and no spelling stands in two rows."""
    assert len({units.TABLE[spelling] for spelling in row[0].split("|")}) == 1
    for spelling in row[0].split("|"):
        assert sum(spelling in other[0].split("|") for other in units.ROWS) == 1


NIST = {"pound (av)": "lb", "ounce (av)": "oz", "gallon (US)": "gal", "fluid ounce (US)": "fl oz", "pint (US liquid)": "pt",
        "quart (US liquid)": "qt", "inch": "in", "foot": "ft",
        "psi": "psi abs", "bar": "bar abs", "atmosphere": "atm", "torr": "torr", "mmHg conventional": "mmHg", "inHg conventional": "inHg",
        "horsepower (550 ft lbf/s)": "hp",
        "centipoise": "cP", "stokes": "cSt", "minute": "min", "hour": "h"}


@source("published", "NIST SP 811, appendix B, as kept in unit_factors.csv with its source column")
@pytest.mark.parametrize("row", [row for row in rows("unit_factors.csv") if row["unit"] in NIST], ids=lambda row: row["unit"])
def test_the_table_agrees_with_the_published_factors(row):
    """Each factor agrees with the published one within its printed digits."""
    factor = float(units.TABLE[NIST[row["unit"]]].factor) * (100 if row["unit"] == "stokes" else 1)
    assert factor == pytest.approx(float(row["nist_value"]), rel=5e-7)


@source("published", "NIST SP 811: t/degC = (t/degF - 32)/1.8, with the worked pairs of unit_factors.csv")
@pytest.mark.parametrize("celsius, fahrenheit", [("75", "167"), ("70", "158"), ("100", "212"), ("0", "32")])
def test_fahrenheit(celsius, fahrenheit):
    """A temperature in Fahrenheit is exactly that in Celsius."""
    assert units.to_si(celsius, "°C") == units.to_si(fahrenheit, "°F")


# what an unguarded library makes of a chemist's unit, and what it is here: a figure, its dimension, its SI value
TRAPS = {
    "ureg('75 C')": ("75 C", "temperature", Fraction("348.15")), "ureg('75 F')": ("167 F", "temperature", Fraction("348.15")),
    "ureg('75 degC')": ("75 degC", "temperature", Fraction("348.15")),
    "ureg.Quantity(300,'rpm').to('Hz')": ("300 rpm", "rotation", Fraction(5)),
    "ureg('5 mL/100 mL')": ("5 % v/v", "volume share", Fraction(1, 20)),
    "ureg('1 fl_oz')": ("1 fl oz", "volume", Fraction("0.0000295735295625")),
    "ureg('1 gal').to('L')": ("1 gal", "volume", Fraction("0.003785411784")),
    "ureg('1 pint').to('mL')": ("1 pint", "volume", Fraction("0.000473176473")),
    "ureg('1 oz').to('g')": ("1 oz", "mass", Fraction("0.028349523125")),
    "ureg('1 m')": ("1 min", "time", Fraction(60)), "ureg('1 cps')": ("1 cps", "viscosity", Fraction("0.001")),
    "ureg('1 drop')": ("1 drop", "drops", Fraction(1)),
    "ureg('3 %')": ("3 %", "share", Fraction("0.03")), "ureg('1 h')": ("1 h", "time", Fraction(3600)),
    "ureg('1 cP').to('Pa*s')": ("1 cP", "viscosity", Fraction("0.001")),
}


@source("published", "pint_traps.csv: what the library makes of each, computed with pint 0.25.3")
@pytest.mark.parametrize("row", [row for row in rows("pint_traps.csv") if row["expression"] in TRAPS], ids=lambda row: row["expression"])
def test_no_trap_of_the_library_is_ours(row):
    """A unit that an unguarded library reads as something else is what the chemist means by it."""
    written, dimension, value = TRAPS[row["expression"]]
    number, _, unit = written.partition(" ")
    assert units.dimension(unit) == dimension
    assert units.to_si(number, unit) == value


@source("by hand", "101325 Pa less 50000; 101325 - 20 * 3386.38864034; absolute as written")
@pytest.mark.parametrize("number, unit, pascal", [("-0.5", "bar", "51325"), ("0.5", "bar abs", "50000"), ("400", "mbar abs", "40000"),
                                                  ("-60", "kPa", "41325"), ("-20", "inHg", "33597.2271932"),
                                                  ("0", "bar", "101325"), ("1", "atm", "101325"), ("760", "torr", "101325")])
def test_a_gauge_reads_from_the_outside_pressure(number, unit, pascal):
    """`bar` is what the gauge reads, `bar abs` absolute."""
    assert units.to_si(number, unit) == Fraction(pascal)


@source("by hand", "what is typed is what comes back")
@pytest.mark.parametrize("spelling", sorted(units.TABLE))
def test_every_spelling_can_be_typed(spelling):
    """The reader takes every spelling of the table behind a figure, as that unit."""
    text = f"product X\ntype gel\nbasis 1 {spelling}\nphase A\n    1 %  x\nvessel main\nmethod\n    charge A into main\n"
    basis = next(entry for entry in parse_method(text_of("x", text)).tree.header if entry.key == "basis")
    figure = next(word for word in basis.words if isinstance(word, tree.Quantity))
    assert figure.unit == spelling and len(basis.words) == 1


@source("by hand", "there and back")
@pytest.mark.parametrize("spelling", FIRST)
def test_there_and_back(spelling):
    """A figure put into SI and back is the same figure."""
    assert units.from_si(float(units.to_si("12.5", spelling)), spelling) == pytest.approx(12.5, rel=1e-9)
