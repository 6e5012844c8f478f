"""Figures as a finding prints them."""

from procsheet.intervals import INFINITY, Interval


def celsius(value: "Interval | float") -> str:
    """`80 °C` or `75–80 °C`, from K."""
    if isinstance(value, Interval):
        if value.low == -INFINITY:
            return f"below {celsius(value.high)}"
        if value.high == INFINITY:
            return f"above {celsius(value.low)}"
        if value.is_point or _digits(value.low) == _digits(value.high):
            return celsius(value.high)
        return f"{_digits(value.low)}–{_digits(value.high)}\u00a0°C"
    return f"{_digits(value)}\u00a0°C"


def _digits(kelvin: float) -> str:
    value = round(kelvin - 273.15, 1)
    return f"{value:.0f}" if value == int(value) or abs(value) >= 10 and abs(value - round(value)) < 0.05 else f"{value:.1f}"


def kelvin(value: float) -> str:
    """A difference: `5 °C`."""
    return f"{value:.3g}\u00a0°C"


def share(value: float) -> str:
    """`0.5 %` from 0.005."""
    return f"{value * 100:.3g}\u00a0%"


def minutes(seconds: float) -> str:
    """`15 min`, `2 h`, `3 days`."""
    if seconds >= 172800:
        return f"{seconds / 86400:.3g}\u00a0days"
    if seconds >= 7200:
        return f"{seconds / 3600:.3g}\u00a0h"
    return f"{seconds / 60:.3g}\u00a0min"
