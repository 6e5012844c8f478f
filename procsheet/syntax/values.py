"""What kind of thing stands somewhere: a temperature, a time, a vessel, words in quotes; and what a person calls it."""

from procsheet import units
from procsheet.syntax import tree

CALLED = {
    "temperature": "a temperature", "time": "a time", "number": "a figure without a unit", "share": "a percentage",
    "volume share": "a percentage by volume",
    "mass": "a weight", "volume": "a volume", "speed": "a speed", "rotation": "a speed", "gauge pressure": "a pressure",
    "pressure": "a pressure",
    "length": "a length", "viscosity": "a viscosity", "density": "a density", "mass rate": "a feed rate", "volume rate": "a feed rate",
    "temperature rate": "a heating or cooling rate", "ratio": "a ratio", "fraction": "a part", "date": "a date", "drops": "drops",
    "parts": "parts",
    "open": "a blank", "setting": "a dial setting", "portions": "portions", "passes": "passes", "times": "how often", "cycles": "cycles",
    "text": "words in double quotes", "force": "a force", "turbidity": "a turbidity", "activity": "an activity",
    "count per mass": "a count",
    "count per volume": "a count", "kinematic viscosity": "a viscosity", "units": "units",
}


def single(value) -> tree.Item | None:
    """The one thing of a list of one, taken whole."""
    if isinstance(value, tree.Objects) and len(value.items) == 1 and not value.items[0].share and not value.excepted:
        return value.items[0]
    return None


def is_name(value) -> bool:
    item = single(value)
    return item is not None and isinstance(item.what, tree.Word)


def is_phase(value) -> bool:
    item = single(value)
    return item is not None and isinstance(item.what, tree.PhaseName)


def name_of(value) -> str:
    return single(value).what.text


def text_of(value) -> tree.Text | None:
    item = single(value)
    return item.what if item is not None and isinstance(item.what, tree.Text) and item.phase is None else None


def dimension(value) -> str:
    """What a figure measures; 'open' for a bare `?`; '' where it is no figure."""
    if isinstance(value, tree.Quantity):
        if value.unit == "room":
            return "temperature"
        if value.unit in ("ratio", "fraction", "date"):
            return value.unit
        return "open" if value.is_open and not value.unit else units.dimension(value.unit)
    if isinstance(value, tree.Setting):
        return "setting"
    item = single(value)
    return "open" if item is not None and isinstance(item.what, tree.Open) else ""


def figured(value):
    """A bare `?` where a figure stands, as an open figure; anything else as it is."""
    return tree.Quantity("?", "?", "", "", False, value.span) if isinstance(value, tree.Objects) and dimension(value) == "open" else value


def called(value) -> str:
    """What a person would call it: a temperature, a vessel, a list."""
    if dimension(value):
        return CALLED.get(dimension(value), "a figure")
    if text_of(value) is not None:
        return "words in quotes"
    if is_phase(value):
        return f"phase {single(value).what.letter}"
    if is_name(value):
        return "a vessel or another name"
    if isinstance(value, tree.Objects):
        return "a part of something" if len(value.items) == 1 else "a list"
    if isinstance(value, tree.Tools):
        return "a tool"
    return {tree.States: "an end point", tree.Measure: "a property", tree.Point: "a known point"}.get(type(value), "something else")


def written(value) -> str:
    """A figure the way it is typed in a method."""
    if not isinstance(value, tree.Quantity):
        return "?"
    sign = " to " if value.low.startswith("-") else "-"
    digits = value.low if value.low == value.high else f"{value.low}{sign}{value.high}"
    unit = "" if value.unit in ("room", "ratio", "fraction", "date") else value.unit
    point = f" {value.relative}" if value.relative else ""
    return f"{'about ' if value.about else ''}{digits} {unit}".strip() + point
