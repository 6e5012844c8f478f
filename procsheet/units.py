"""Units at the boundary: what a person writes to SI, and back.

The table was made by pint and is compared with it row by row in tests/test_units.py; `check` needs nothing else.
"""

from fractions import Fraction
from typing import NamedTuple


class Unit(NamedTuple):
    """SI value = number * factor + offset. Dimensions carry the plain name a message uses."""

    factor: Fraction
    offset: Fraction
    dimension: str


def _unit(factor: str, dimension: str, offset: str = "0") -> Unit:
    return Unit(Fraction(factor), Fraction(offset), dimension)


ROWS = [
    # spelling(s), factor to SI, dimension, offset
    ("°C|C|deg C|degC|° C|degrees C|degrees Celsius|Celsius|℃", "1", "temperature", "273.15"),
    ("°F|F|deg F|degF|° F|degrees F|degrees Fahrenheit|Fahrenheit|℉", "5/9", "temperature", "45967/180"),
    ("K", "1", "temperature", "0"),
    ("°C/min|C/min|K/min", "1/60", "temperature rate", "0"), ("°F/min|F/min", "1/108", "temperature rate", "0"),
    ("°C/h|C/h|K/h", "1/3600", "temperature rate", "0"), ("°F/h|F/h", "1/6480", "temperature rate", "0"),
    ("kg|KG|Kg|kgs|kilograms|kilogram", "1", "mass", "0"), ("g|grams|gram|gm", "1/1000", "mass", "0"), ("mg", "1/1000000", "mass", "0"),
    ("t|tonnes|tonne", "1000", "mass", "0"), ("lb|lbs|lb.|pounds|pound", "0.45359237", "mass", "0"),
    ("oz|oz.|ounces|ounce", "0.028349523125", "mass", "0"),
    ("L|l|litres|liters|litre|liter", "1/1000", "volume", "0"), ("mL|ml|cc|ML|millilitres|milliliters|cm3|cm³", "1/1000000", "volume", "0"),
    ("µL|uL", "1/1000000000", "volume", "0"), ("m3|m³", "1", "volume", "0"),
    ("gal|gallons|gallon", "0.003785411784", "volume", "0"), ("qt|quarts|quart", "0.000946352946", "volume", "0"),
    ("pt|pints|pint", "0.000473176473", "volume", "0"),
    ("fl oz|fl. oz|fl. oz.|fluid ounces|fluid ounce", "0.0000295735295625", "volume", "0"),
    ("%|per cent|percent|% w/w|% m/m|%w/w|% (w/w)|% (m/m)|wt%|wt %|% by weight", "1/100", "share", "0"), ("ppm", "1/1000000", "share", "0"),
    ("% v/v|%v/v|% (v/v)|% by volume", "1/100", "volume share", "0"), ("% w/v|%w/v|% (w/v)|% m/v", "10", "density", "0"),
    ("parts|part", "1", "parts", "0"), ("drops|drop", "1", "drops", "0"),
    ("s|sec|secs|seconds|second", "1", "time", "0"), ("min|minutes|minute|mins|Min", "60", "time", "0"),
    ("h|hours|hour|hr|hrs", "3600", "time", "0"), ("days|day|d", "86400", "time", "0"), ("weeks|week|wk|wks", "604800", "time", "0"),
    ("months|month", "2629800", "time", "0"), ("years|year", "31557600", "time", "0"),
    ("rpm|RPM|r/min|1/min", "1/60", "rotation", "0"), ("m/s", "1", "speed", "0"), ("ft/min", "0.00508", "speed", "0"), ("ft/s", "0.3048", "speed", "0"),
    ("m", "1", "length", "0"), ("cm", "1/100", "length", "0"), ("mm", "1/1000", "length", "0"),
    ("µm|um|micron|microns|micrometres|micrometers", "1/1000000", "length", "0"), ("nm", "1/1000000000", "length", "0"),
    ("in|inch|inches", "0.0254", "length", "0"), ("ft|feet|foot", "0.3048", "length", "0"),
    ("m2|m²", "1", "area", "0"), ("ft2|ft²|sq ft", "0.09290304", "area", "0"),
    ("bar|bar g|barg", "100000", "gauge pressure", "0"), ("mbar|mbar g", "100", "gauge pressure", "0"),
    ("kPa|kPa g", "1000", "gauge pressure", "0"), ("psi|psi g|psig", "6894.7572931683613", "gauge pressure", "0"),
    ("bar abs|bara", "100000", "pressure", "0"), ("mbar abs", "100", "pressure", "0"), ("kPa abs", "1000", "pressure", "0"),
    ("psi abs|psia", "6894.7572931683613", "pressure", "0"), ("Pa", "1", "pressure", "0"), ("mmHg|mm Hg", "133.322387415", "pressure", "0"),
    ("torr", "101325/760", "pressure", "0"), ("atm", "101325", "pressure", "0"), ("inHg|in Hg|inches Hg", "3386.38864034", "gauge pressure", "0"),
    ("kg/min", "1/60", "mass rate", "0"), ("g/min", "1/60000", "mass rate", "0"), ("kg/h", "1/3600", "mass rate", "0"),
    ("g/s", "1/1000", "mass rate", "0"), ("lb/min", "0.45359237/60", "mass rate", "0"),
    ("lb/h", "0.45359237/3600", "mass rate", "0"),
    ("L/min", "1/60000", "volume rate", "0"), ("mL/min", "1/60000000", "volume rate", "0"), ("m3/h|m³/h", "1/3600", "volume rate", "0"),
    ("L/h", "1/3600000", "volume rate", "0"), ("gal/min|gpm", "0.003785411784/60", "volume rate", "0"),
    ("Pa.s|Pa·s|Pas|Pa s", "1", "viscosity", "0"), ("mPa.s|mPa·s|mPas|mPa s|cP|cp|cps|cPs|CPS", "1/1000", "viscosity", "0"),
    ("mm2/s|mm²/s|cSt", "1/1000000", "kinematic viscosity", "0"),
    ("g/mL|g/ml|g/cm3|g/cm³|kg/L|kg/l", "1000", "density", "0"), ("kg/m3|kg/m³|g/L|g/l", "1", "density", "0"),
    ("lb/gal", "0.45359237/0.003785411784", "density", "0"), ("lb/ft3|lb/ft³", "0.45359237/0.028316846592", "density", "0"),
    ("kJ/kg/K|kJ/(kg K)|kJ/(kg·K)|kJ/kgK|kJ/kg K|kJ/kg/°C|J/g/K|J/(g K)|J/gK|J/g K", "1000", "heat capacity", "0"), ("J/kg/K", "1", "heat capacity", "0"),
    ("W/m2/K|W/m²/K|W/(m2 K)", "1", "heat transfer", "0"), ("Btu/h/ft2/F|Btu/h/ft²/°F", "5.678263341113488", "heat transfer", "0"),
    ("kJ/kg", "1000", "latent heat", "0"),
    ("kW", "1000", "power", "0"), ("hp", "745.6998715822702", "power", "0"),
    ("W", "1", "power", "0"), ("kW/m3|W/L", "1000", "power density", "0"), ("W/m3", "1", "power density", "0"),
    ("N", "1", "force", "0"), ("g force|x g|g-force", "1", "relative acceleration", "0"),
    ("NTU", "1", "turbidity", "0"), ("IU/g", "1", "activity", "0"),
    ("portions|portion", "1", "portions", "0"), ("passes|pass", "1", "passes", "0"), ("times|time", "1", "times", "0"),
    ("freeze-thaw cycles|freeze-thaw cycle|cycles|cycle", "1", "cycles", "0"), ("units|unit", "1", "units", "0"),
    ("CFU/g|cfu/g", "1", "count per mass", "0"), ("CFU/mL|cfu/mL", "1", "count per volume", "0"),
]


def _fraction(text: str) -> str:
    top, _, bottom = text.partition("/")
    return str(Fraction(top) / Fraction(bottom or 1))


TABLE: dict[str, Unit] = {
    spelling: _unit(_fraction(factor), dimension, _fraction(offset))
    for spellings, factor, dimension, offset in ROWS for spelling in spellings.split("|")
}

SPELLINGS = tuple(sorted(TABLE, key=len, reverse=True))     # longest first, as a reader of text must try them
ATMOSPHERE = 101325                                          # Pa, the standard atmosphere: gauge 0 (ISO 2533)

# written beside a figure with no unit: pH, HLB, SPF, refractive index, counts
NO_UNIT = Unit(Fraction(1), Fraction(0), "number")


NOT_UNITS = {"ratio", "fraction", "date", "room"}           # what the tree calls figures that have no unit of measure


def lookup(spelling: str) -> Unit | None:
    """The unit of a spelling, or None. A spelling outside the table is asked of pint, which then loads."""
    if not spelling:
        return NO_UNIT
    if spelling in NOT_UNITS:
        return None
    return TABLE.get(spelling) or _from_pint(spelling)


def to_si(number: str | Fraction, spelling: str) -> Fraction:
    """The exact SI value of a written number. Gauge pressure becomes absolute [Pa]; temperature becomes kelvin [K]."""
    unit = lookup(spelling)
    if unit is None:
        raise ValueError(f"{spelling} is no unit")
    value = Fraction(number) * unit.factor + unit.offset
    return value + ATMOSPHERE if unit.dimension == "gauge pressure" else value


def dimension(spelling: str) -> str:
    """The plain name of what a unit measures, '' for a spelling that is no unit."""
    unit = lookup(spelling)
    return unit.dimension if unit else ""


def from_si(value: float | Fraction, spelling: str) -> float:
    """The number to print beside `spelling` for an SI value."""
    unit = TABLE[spelling]
    base = value - ATMOSPHERE if unit.dimension == "gauge pressure" else value
    return float((base - unit.offset) / unit.factor) if isinstance(base, Fraction) else (base - float(unit.offset)) / float(unit.factor)


def _from_pint(spelling: str) -> Unit | None:
    import pint                                             # slow to load: only for units outside the table

    try:
        quantity = pint.UnitRegistry(autoconvert_offset_to_baseunit=True).Quantity(1, spelling).to_base_units()
    except Exception:                                       # pint raises many kinds for a word it does not know
        return None
    return Unit(Fraction(quantity.magnitude), Fraction(0), str(quantity.units))
