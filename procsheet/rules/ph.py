"""Where a method says how acid what holds a material is. Nothing is reckoned: see `trace/acidity.py`."""

from collections.abc import Iterator
from typing import NamedTuple

from procsheet.findings import Finding, Label
from procsheet.intervals import Interval
from procsheet.model import quantities
from procsheet.model.method import Row
from procsheet.syntax import tree
from procsheet.trace.acidity import acidity
from procsheet.trace.trace import Moment

LEAST = 0.001                           # of the batch: less acid sets a pH and no more (common practice, no source)
WEAK = 7.0                              # pKa from which an acid is none to a powder (common practice, no source)


class Said(NamedTuple):
    """A pH and its place; moment: None for a line of the limits."""

    value: Interval
    place: Label
    moment: Moment | None = None


def stated(batch, row: Row) -> Iterator[Said]:
    """Each pH the method gives to what holds a material, in the order of the method; then that of the finished product."""
    for moment, value in zip(batch.trace.moments, acidity(batch.trace)):
        if row.code in moment.contents and not value.missing:
            yield Said(value, Label(moment.span, f"{row.name} is in {moment.vessel} at pH {figure(value)}"), moment)
    for limit in batch.method.limits:
        if limit.measure.name == "pH" and isinstance(limit.measure.target, tree.Quantity):
            value = quantities.interval(limit.measure.target)
            if value is not None:
                yield Said(value, Label(limit.span, f"the product is to be at pH {figure(value)}"))


def figure(value: Interval) -> str:
    """`5.5` or `5–6`."""
    low, high = max(value.low, 0.0), min(value.high, 14.0)
    return f"{low:.3g}" if value.is_point else f"{low:.3g}–{high:.3g}"


def free_acids(batch) -> list[Row]:
    """The acids of a formula that no base of it takes up, and that no adjusting step measures out."""
    acids = [row for row in batch.method.rows if row.material.is_a("acid") and row.kind == "figure" and batch.of_batch(row) >= LEAST and not _weak(row)]
    bases = sum(batch.of_batch(row, "base", "neutraliser") for row in batch.method.rows if row.material.is_a("base", "neutraliser"))
    return acids if sum(batch.of_batch(row, "acid") for row in acids) > 2 * bases else []


def _weak(row: Row) -> bool:
    constant = row.material.figure("pKa")
    return constant is not None and constant.value.low > WEAK or row.material.is_a("borate")


def late(batch, row: Row, acid: Row) -> bool:
    """Whether an acid goes to a material after the last step that measures a pH of what holds it: what was measured is true no more."""
    meets = meeting(batch, row, acid)
    return meets is not None and not any(measures(moment) and row.code in moment.contents for moment in (meets, *batch.trace.later(meets)))


def meeting(batch, one: Row, other: Row) -> Moment | None:
    """The first step whose vessel holds both."""
    return next((moment for moment in batch.trace.moments if one.code in moment.contents and other.code in moment.contents), None)


def told(batch, name: str, level: str, row: Row, said: Said, stands: str, why: str, fix: str, source: str) -> Finding:
    """The finding of a material at a pH that it does not stand; stands: the pH it stands, in words."""
    where = said.moment.vessel if said.moment is not None else "the product"
    set_by = _set_by(batch, said.moment) if said.moment is not None else None
    elsewhere = set_by is not None and set_by.span != said.moment.span
    place = Label(set_by.span, f"{set_by.vessel} is brought to pH {figure(said.value)}") if elsewhere else said.place
    return Finding(level, name, f"{where} with {row.name} is at pH {figure(said.value)}; {row.name} is stable {stands}",
                   place, (Label(row.span, f"stable {stands}"), *([said.place] if elsewhere else [])), why, fix, source, material=row.name,
                   step=(set_by or said.moment).step.number if said.moment is not None else 0)


def _set_by(batch, moment: Moment) -> Moment | None:
    """The step that last brought to a pH what a vessel holds, or measured it."""
    led = list(reversed(batch.trace.history(moment)))
    return next((one for one in led if one.step.verb == "adjust" and _measures(one)), None) or next((one for one in led if _measures(one)), None)


def _measures(moment: Moment) -> bool:
    said = (moment.step.written.slots.get("MEASURE"), moment.step.value("until"))
    return any(isinstance(one, tree.Measure) and one.name == "pH" for one in said)


def final(batch, row: Row) -> list[Said]:
    """The pH that what holds a material goes out with: as last measured in the making, and as the limits ask; as far as they are said."""
    held = [moment for moment in batch.trace.moments if row.code in moment.contents]
    known = acidity(batch.trace)
    value = known[held[-1].index] if held else None
    by_limits = [said for said in stated(batch, row) if said.moment is None]
    if value is None or value.missing:
        return by_limits
    set_by = [moment for moment in batch.trace.history(held[-1]) if measures(moment) and known[moment.index] == value] or held[-1:]
    last = next((moment for moment in reversed(set_by) if moment.step.verb in ("adjust", "neutralise")), set_by[-1])
    return [Said(value, Label(last.span, f"{last.vessel} is at pH {figure(value)} from here on"), last), *by_limits]


def measures(moment: Moment) -> bool:
    """Whether a step sets, checks or waits for a pH."""
    found = (moment.step.written.slots.get("MEASURE"), moment.step.value("until"))
    return any(isinstance(one, tree.Measure) and one.name == "pH" for one in found)
