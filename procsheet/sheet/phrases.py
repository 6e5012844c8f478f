"""Figures, devices, properties and end points in words, as sentences and hints need them."""

from procsheet.sheet.figures import written
from procsheet.sheet.model import Run
from procsheet.syntax import tree

STATES = {"in": "taken up", "cold": "it is at room temperature", "thick": "thickened"}


def number(quantity: tree.Quantity, otherwise: str = "") -> Run:
    """A figure, large; an open one is a blank with its unit, or with what stands for it."""
    return Run(quantity.unit or otherwise, "blank") if quantity.is_open else Run(written(quantity), "number")


def device(value) -> list[Run]:
    """`200 µm`, `the colloid mill`, or what stands in quotes."""
    if isinstance(value, tree.Quantity):
        return [number(value, "µm")]
    if isinstance(value, tree.Tools):
        return [Run(f"the {f' {value.joined} the '.join(value.names)}")]
    item = thing(value)
    return [Run("device", "blank")] if isinstance(item, tree.Open) else [Run(f"the {item.text}")]


def thing(value):
    """The one thing of a list of one."""
    return value.items[0].what if isinstance(value, tree.Objects) else value


def property_name(measure: tree.Measure) -> str:
    """`viscosity`, `assay of denatured alcohol`."""
    return f"{measure.name} of {measure.of}" if measure.of else measure.name


def measured(measure: tree.Measure) -> list[Run]:
    """`pH 5.0–5.5`, `a viscosity of 4000–7000 mPa·s`."""
    name, target = property_name(measure), measure.target
    article = f"{'an' if name[0] in 'aeio' else 'a'} {name}"
    if isinstance(target, tree.Quantity) and measure.name in ("pH", "SPF"):
        return [Run(f"{name} "), number(target)] if target.is_open else [Run(f"{name} {written(target)}", "number")]
    if isinstance(target, tree.Quantity):
        return [Run(f"{article} of "), number(target)]
    return [Run(article)] if target is None else [Run(f"{article}: {target.text}")]


def until(value) -> list[Run]:
    """An end point: `melted and clear`, `the fineness is 15 µm or less`, or what stands in quotes."""
    if isinstance(value, tree.States):
        return [Run(" and ".join(STATES.get(name, name) for name in value.names))]
    if not isinstance(value, tree.Measure):
        return [Run(thing(value).text.rstrip("."))]
    if not isinstance(value.target, tree.Quantity):
        return [Run(f"the {property_name(value)} is {value.target.text if value.target is not None else 'right'}")]
    return [Run("it is at " if value.name == "temperature" else f"the {property_name(value)} is "), number(value.target)]
