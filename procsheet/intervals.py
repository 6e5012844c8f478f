"""An interval: what is known of a figure, from the least to the most it can be, and what is missing where it is wide."""

from typing import Iterable, NamedTuple

INFINITY = float("inf")
SMALL = 1e-6                            # below this two figures in SI are the same


class Interval(NamedTuple):
    """low <= high, in SI. `missing` names the words that would narrow it; '' where its width was written or measured."""

    low: float
    high: float
    missing: str = ""

    @property
    def width(self) -> float:
        return self.high - self.low

    @property
    def is_point(self) -> bool:
        return self.width < SMALL

    def within(self, other: "Interval", slack: float = 0.0) -> bool:
        return other.low - slack - SMALL <= self.low and self.high <= other.high + slack + SMALL

    def touches(self, other: "Interval", slack: float = 0.0) -> bool:
        return self.low <= other.high + slack + SMALL and other.low <= self.high + slack + SMALL


NOTHING_KNOWN = Interval(-INFINITY, INFINITY)


def point(value: float) -> Interval:
    return Interval(float(value), float(value))


def hull(parts: Iterable[Interval]) -> Interval:
    """The least interval that holds all of them."""
    parts = list(parts)
    missing = ", ".join(dict.fromkeys(part.missing for part in parts if part.missing))
    return Interval(min(part.low for part in parts), max(part.high for part in parts), missing)


def meet(one: Interval, other: Interval) -> Interval:
    """What both allow; where they do not touch, the edge of the first that is nearest to the second."""
    low, high = max(one.low, other.low), min(one.high, other.high)
    if low <= high:
        return Interval(low, high, one.missing if (low, high) == (one.low, one.high) else "")
    edge = one.high if one.high < other.low else one.low
    return Interval(edge, edge, one.missing)


def plus(one: Interval, other: Interval) -> Interval:
    return Interval(one.low + other.low, one.high + other.high, one.missing or other.missing)


def weighted_mean(parts: list[tuple[float, Interval]]) -> Interval:
    """The mean of intervals by weight. Bounded by its corners: it never leaves the range of what was mixed."""
    total = sum(weight for weight, _ in parts)
    if total <= 0:
        return hull(part for _, part in parts)
    low = sum(weight * part.low for weight, part in parts) / total
    high = sum(weight * part.high for weight, part in parts) / total
    missing = ", ".join(dict.fromkeys(part.missing for weight, part in parts if part.missing and weight / total > 0.02))
    return Interval(low, high, missing)


# ---- against a limit

WITHIN, STRADDLES, BEYOND, UNDECIDED = "within", "straddles", "beyond", "undecided"


def above(value: Interval, limit: float) -> str:
    """How a figure lies to a limit it must not pass upwards: within, straddles (a written range), beyond, or undecided (something is missing)."""
    if value.high <= limit + SMALL:
        return WITHIN
    if value.low > limit + SMALL:
        return BEYOND
    return UNDECIDED if value.missing else STRADDLES


def below(value: Interval, limit: float) -> str:
    """The same for a limit it must not pass downwards."""
    return above(Interval(-value.high, -value.low, value.missing), -limit)
