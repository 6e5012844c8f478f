"""Written figures to SI, at the boundary and only here."""

from fractions import Fraction

from procsheet import units
from procsheet.intervals import INFINITY, Interval
from procsheet.syntax import tree

# what `about` widens a figure by, each side (common practice, no source): 2 °C, and a tenth of anything else
ABOUT_KELVIN = 2.0
ABOUT_SHARE = 0.1
ROOM = Interval(293.15, 298.15)         # 20-25 °C, where no plant says otherwise


def exact(quantity: tree.Quantity) -> tuple[Fraction, Fraction] | None:
    """Both ends of a figure in SI, exactly; None for an open one. A sum with a point (`3 °C above set point`) gives the difference alone."""
    if quantity.is_open or quantity.unit in ("room", "ratio", "date"):
        return None
    if quantity.unit == "fraction":
        return Fraction(quantity.low), Fraction(quantity.low)
    if quantity.relative:
        factor = units.lookup(quantity.unit).factor
        return Fraction(quantity.low) * factor, Fraction(quantity.high) * factor
    low, high = units.to_si(quantity.low, quantity.unit), units.to_si(quantity.high, quantity.unit)
    return (low, high) if low <= high else (high, low)


def middle(quantity: tree.Quantity) -> Fraction | None:
    ends = exact(quantity)
    return None if ends is None else (ends[0] + ends[1]) / 2


def interval(quantity: tree.Quantity | None, room: Interval = ROOM) -> Interval | None:
    """A figure as an interval in SI, its bound and `about` taken into account. None where it is open or relative."""
    if quantity is None or quantity.relative:
        return None
    if quantity.unit == "room":
        return room
    ends = exact(quantity)
    if ends is None:
        return None
    low, high = float(ends[0]), float(ends[1])
    if quantity.bound in ("below", "at most"):
        low = -INFINITY
    elif quantity.bound in ("above", "at least"):
        high = INFINITY
    if quantity.about:
        slack = ABOUT_KELVIN if units.dimension(quantity.unit) == "temperature" else ABOUT_SHARE * abs(high if high < INFINITY else low)
        low, high = low - slack, high + slack
    return Interval(low, high)


def difference(quantity: tree.Quantity) -> float | None:
    """A difference of temperatures [K], where `5 °C` is 5 K."""
    if quantity is None or quantity.is_open:
        return None
    return float(Fraction(quantity.high) * units.lookup(quantity.unit).factor)


def shown(quantity: tree.Quantity) -> str:
    """A figure as it is printed: the digits that were typed, a no-break blank, the unit."""
    if quantity.unit in ("room", "ratio", "fraction", "date"):
        return quantity.low
    digits = quantity.low if quantity.low == quantity.high else f"{quantity.low}–{quantity.high}"
    if quantity.low.startswith("-") and quantity.low != quantity.high:
        digits = f"{quantity.low} to {quantity.high}"
    digits = digits.replace("-", "−") if quantity.low.startswith("-") else digits
    unit = {"C": "°C", "F": "°F", "um": "µm", "mPa.s": "mPa·s", "l": "L", "ml": "mL"}.get(quantity.unit, quantity.unit)
    words = f"{digits}\u00a0{unit}" if unit else digits
    before = {"below": "below ", "above": "above ", "at most": "at most ", "at least": "at least "}.get(quantity.bound, "")
    after = f" {quantity.relative}" + (f" of {quantity.of}" if quantity.of else "") if quantity.relative else ""
    return f"{before}{'about ' if quantity.about else ''}{words}{after}"


def dimension(quantity) -> str:
    """What a figure measures, in plain words; '' for anything else."""
    if not isinstance(quantity, tree.Quantity):
        return ""
    return "temperature" if quantity.unit == "room" else units.dimension(quantity.unit)
