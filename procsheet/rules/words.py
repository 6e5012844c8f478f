"""Figures as a finding prints them."""

from procsheet.intervals import INFINITY, Interval

APART = "\u202f"                        # between figure and unit of a difference


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
    """A difference: `5 °C`, with the space that tells it from a temperature."""
    return f"{value:.3g}{APART}°C"


def share(value: float) -> str:
    """`0.5 %` from 0.005."""
    return f"{value * 100:.3g}\u00a0%"


def minutes(seconds: float) -> str:
    """`15 min`, `2 h`, `3 days`."""
    if seconds >= 172800:
        return f"{seconds / 86400:.3g}\u00a0days"
    if seconds >= 7200:
        return f"{seconds / 3600:.2g}\u00a0h"
    return f"{seconds / 60:.3g}\u00a0min"


def weight(kilograms: float) -> str:
    """`3.5 g`, `1.2 kg`."""
    return f"{kilograms * 1000:.3g}\u00a0g" if kilograms < 1 else f"{kilograms:.4g}\u00a0kg"


def listed(names) -> str:
    """`a`, `a and b`, `a, b and c`, `a, b and 3 more`."""
    names = list(dict.fromkeys(names))
    if len(names) > 3:
        names = [*names[:2], f"{len(names) - 2} more"]
    return " and ".join(filter(None, (", ".join(names[:-1]), names[-1]))) if names else ""
