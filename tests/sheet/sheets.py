"""The sheets of real methods: shipped recipes and published methods, each at a size in a plant."""

from functools import cache
from pathlib import Path

from procsheet.model.files import read_source
from procsheet.model.resolve import Options
from procsheet.pipeline import Compiled, Request, compile_method
from procsheet.plan.plan import Order
from procsheet.plan.size import read_size
from procsheet.sheet.lay_out import lay_out
from procsheet.sheet.model import Branch, Lanes, Sheet, Step
from procsheet.sheet.papers import Papers
from procsheet.sheet.text import to_text
from procsheet.syntax import tree
from tests.made import RECIPES

PUBLISHED = Path(__file__).parents[1] / "published"
EXPECTED = Path(__file__).parents[1] / "sheets"
PAPERS = Papers(number="H26-0412", issue="1", issued="12 April 2026, 07:40", digest="0000 0000 0000 0000")

# every recipe that may be printed: how much is made, and where
RECORDED = {
    "breakwater-balm": ("40 kg", "pilot"), "fairlead-conditioner": ("1 kg", "bench"), "harbour-hand-cream": ("150 kg", "filler"),
    "headland-mineral-lotion": ("40 kg", "pilot"), "lee-shore-night-lotion": ("40 kg", "pilot"), "mudlark-clay-mask": ("150 kg", "filler"),
    "quayside-hand-gel": ("150 kg", "filler"), "slipway-shampoo": ("150 kg", "filler"),
}
STOPPED = ("five-mistakes",)            # a recipe that shows what is found: no papers are made of it
SIZES = (("1 kg", "bench"), ("40 kg", "pilot"), ("150 kg", "filler"))
OTHERS = ("aqueous-cream", "calamine-lotion", "emulsifying-ointment", "hydrophilic-ointment", "rose-water-ointment", "sulfate-shampoo")


@cache
def made(name: str, size: str = "", plant: str = "", choose: frozenset[str] = frozenset()) -> Compiled:
    """A recipe or published method, compiled; without a size at its basis."""
    path = next(path for folder in (RECIPES, PUBLISHED) if (path := folder / f"{name}.method").exists())
    order = read_size(size) if size else Order()
    return compile_method(read_source(path, path.name), path.parent,
                          Request(order, RECIPES / "plants" / f"{plant}.plant" if plant else None, Options(choose)))


@cache
def sheet(name: str, size: str = "", plant: str = "") -> Sheet:
    return lay_out(made(name, size, plant), PAPERS)


def recorded() -> dict[str, str]:
    """The text of every sheet that is kept, by the name of its file."""
    found = {name: to_text(sheet(name, *how)) for name, how in RECORDED.items()}
    return found | {name: to_text(sheet(name)) for name in OTHERS}


def steps(parts) -> list[Step]:
    """All steps among parts, in the order they are printed."""
    out = []
    for part in parts:
        if isinstance(part, Step):
            out.append(part)
        elif isinstance(part, Branch):
            out += steps(part.parts)
        elif isinstance(part, Lanes):
            out += steps(one for lane in part.lanes for one in lane.parts)
    return out


def steps_of(printed: Sheet) -> list[Step]:
    return [step for stage in printed.making.stages for step in steps(stage.parts)]


def figures(step) -> list[str]:
    """The digits and the words in quotes that a step of a method was written with."""
    values = [*step.written.slots.values(), *(clause.value for clause in step.written.clauses)]
    return [text for value in values for text in _of(value[0] if _is_time_of_step(value) else value, step)]


def _is_time_of_step(value) -> bool:
    return isinstance(value, tuple) and not hasattr(value, "_fields") and isinstance(value[0], tree.Quantity)


def _of(value, step) -> list[str]:
    if isinstance(value, tree.Measure):
        return _of(value.target, step)
    if isinstance(value, tree.Text):
        return [value.text.rstrip(".")[1:]]
    if isinstance(value, tree.Tools):
        return [tool for tool in value.names if tool != "?"]
    if isinstance(value, tree.Quantity) and not value.is_open and value.unit not in ("room", "fraction") and step.verb != "make up":
        return [end.replace("-", "−") for end in (value.low, value.high)]
    return []
