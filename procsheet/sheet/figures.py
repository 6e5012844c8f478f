"""Figures as they are printed: the digits that were typed, a no-break blank, the unit. Nothing is worked out here but digits."""

import re
from fractions import Fraction
from math import ceil, floor, log10

from procsheet import units
from procsheet.intervals import INFINITY, Interval
from procsheet.model import quantities
from procsheet.plan.plant import Plant
from procsheet.syntax import tree

BLANK, THIN = "\u00a0", "\u2009"
SIGNS = {"": "", "below": "<\u00a0", "at most": "≤\u00a0", "above": ">\u00a0", "at least": "≥\u00a0"}
AFTERWARDS = {"at most": " or less", "at least": " or more"}
WARM = {"at most": " or below", "at least": " or above"}
UNITS = {**dict.fromkeys(("C", "deg C", "degC"), "°C"), **dict.fromkeys(("F", "deg F", "degF"), "°F"),
         "um": "µm", "mPa.s": "mPa·s", "Pa.s": "Pa·s", "l": "L", "ml": "mL", "m2": "m²", "m3/h": "m³/h",
         "cfu/g": "CFU/g"}
SINGULAR = ("times", "passes", "cycles", "portions", "days", "weeks", "months", "hours", "years", "freeze-thaw cycles")


# ---- as written

def unit(quantity: tree.Quantity) -> str:
    """The unit as it is printed, '' for a bare number."""
    return UNITS.get(quantity.unit, quantity.unit)


def digits(quantity: tree.Quantity, dash: str = "–") -> str:
    """`75–80`, `−0.5`, `−0.6 to −0.4`: as typed."""
    low, high = (grouped(end.replace("-", "−")) for end in (quantity.low, quantity.high))
    if low == high:
        return low
    return f"{low} to {high}" if low.startswith("−") else f"{low}{dash}{high}"


def written(quantity: tree.Quantity) -> str:
    """In a sentence: `75–80 °C`, `15 µm or less`, `room temperature`."""
    if quantity.unit == "room":
        return "room temperature"
    if quantity.relative:
        return f"{spaced(digits(quantity), unit(quantity))} {quantity.relative}" + (f" of {quantity.of}" if quantity.of else "")
    after = AFTERWARDS.get(quantity.bound, "")
    if after and units.dimension(quantity.unit) == "temperature":
        after = WARM[quantity.bound]
    before = f"{quantity.bound} " if quantity.bound in ("below", "above") else ""
    about = "about " if quantity.about else ""
    return before + about + spaced(digits(quantity), unit(quantity)) + after


def plain(quantity: tree.Quantity) -> str:
    """In a sentence behind a word that says the bound: `40 °C` of `below 40 °C`."""
    return written(quantity._replace(bound=""))


def limit(quantity: tree.Quantity, plant: Plant, degree: str = "°C") -> str:
    """In a box, whose caption has the unit: `75–80`, `< 40`. A plain temperature carries the plant's tolerance; a range stands as written."""
    if quantity.is_open or quantity.relative:
        return ""
    if quantity.unit == "room":
        return kelvins(plant.room, degree)
    if quantity.low == quantity.high and not quantity.bound and units.dimension(quantity.unit) == "temperature":
        value = quantities.interval(quantity)
        slack = 0 if quantity.about else plant.temperature_tolerance
        return kelvins(Interval(value.low - slack, value.high + slack), quantity.unit)
    return SIGNS[quantity.bound] + digits(quantity)


def bounded(quantity: tree.Quantity) -> str:
    """On the page of limits: `5000–10 000 mPa·s`, `≤ 5 µm`, '' for an open one."""
    return "" if quantity.is_open else SIGNS[quantity.bound] + spaced(digits(quantity), unit(quantity))


def spaced(number: str, of: str) -> str:
    if of in SINGULAR and number == "1":
        of = of.removesuffix("es") if of == "passes" else of.removesuffix("s")
    return f"{number}{BLANK}{of}" if of else number


# ---- worked out before

def kelvins(value: Interval, spelling: str = "°C") -> str:
    """`73–77` from K."""
    if value.low == -INFINITY:
        return f"≤ {degrees(value.high, spelling)}"
    if value.high == INFINITY:
        return f"≥ {degrees(value.low, spelling)}"
    low, high = degrees(value.low, spelling), degrees(value.high, spelling)
    return low if low == high else f"{low} to {high}" if low.startswith("−") else f"{low}–{high}"


def degrees(kelvin: float, spelling: str = "°C") -> str:
    value = round(units.from_si(kelvin, spelling), 0 if "F" in spelling else 1)
    return (f"{value:.0f}" if value == int(value) else f"{value:.1f}").replace("-", "−")


def warmth_in(degree: str, text: str) -> str:
    """The temperatures of a text, which come in °C; not for differences."""
    if degree == "°C":
        return text
    return re.sub(r"(\d+(?:\.\d+)?)(?=(?:–\d+(?:\.\d+)?)?\s°C)", lambda match: degrees(float(match[1]) + 273.15, degree), text).replace("°C", degree)


def reading(value: Fraction, of: str, decimals: int) -> str:
    """A weight [kg] or volume [m³] as the balance shows it in a unit: `1.0800`."""
    return grouped(f"{float(value / units.lookup(of).factor):.{decimals}f}")


def four(value: Fraction, of: str) -> str:
    """Four digits of a weight or volume: `150.0`, `1000`, `2.500`."""
    number = float(value / units.lookup(of).factor)
    behind = max(0, 3 - floor(log10(number))) if number > 0 else 0
    return grouped(f"{number:.{behind}f}")


def rough(value: Fraction, of: str) -> str:
    """Two digits of what is only expected: `1.8`, `150`; '' for nothing."""
    number = float(value / units.lookup(of).factor) if value else 0
    digits = 1 - floor(log10(number)) if number > 0 else 0
    return grouped(f"{round(number, digits):.{max(0, digits)}f}") if number > 0 else ""


def mass_unit(mass) -> str:
    """The unit of a batch on paper, the one its weighing lines have; mass in kg."""
    return "kg" if mass >= 10 else "g"


def volume_unit(volume) -> str:
    """The same of a batch that is made up to a mark; volume in m³."""
    return "L" if volume * 1000 >= 10 else "mL"


def litres(volume: float) -> str:
    """Three digits, never too few: `152 L`."""
    value, of = (volume * 1000, "L") if volume >= 0.001 else (volume * 1e6, "mL")
    if value <= 0:
        return ""
    step = 10.0 ** (floor(log10(value)) - 2)
    return spaced(f"{ceil(round(value / step, 6)) * step:.3g}", of)


def turns(speed: Interval) -> str:
    """Revolutions a minute from 1/s, as a drive is set: `1910`, `25–40`."""
    low, high = (_set(end * 60) for end in speed[:2])
    return low if low == high else f"{low}–{high}"


def _set(rpm: float) -> str:
    return f"{round(rpm, -1):.0f}" if rpm >= 200 else f"{rpm:.0f}"


def speed(value: Interval) -> str:
    """m/s, three digits."""
    low, high = (f"{end:.3g}" for end in value[:2])
    return low if low == high else f"{low}–{high}"


def duration(value: Interval) -> tuple[str, str]:
    """A time that nobody sets [s], as number and unit: ('35', 'min'), ('30–55', 'min'), ('2 h 20', 'min')."""
    low, high = (max(round(end / 60), 1) for end in value[:2])
    if high <= low * 1.35:
        return clock(round((low + high) / 2)), "min"
    return (f"{clock(low)} – {clock(high)}" if high >= 120 else f"{low}–{high}"), "min"


def clock(minutes: int) -> str:
    if minutes < 120:
        return str(minutes)
    rounded = round(minutes, -1)
    return f"{rounded // 60}{BLANK}h{BLANK}{rounded % 60:02}"


def grouped(number: str) -> str:
    """No mark below 10 000, a thin space above."""
    whole, point, rest = number.partition(".")
    if not whole.isdigit() or len(whole) < 5:
        return number
    return f"{int(whole):,}".replace(",", THIN) + point + rest


def count(number: float) -> str:
    """How many packs, cautiously: rounded down to two digits, from 10 000 on to three."""
    step = 10 ** max(floor(log10(max(number, 1))) - (1 if number < 10000 else 2), 0)
    return grouped(str(int(number // step * step)))
