"""The pH of each vessel, as far as the method says it. It is never reckoned: buffers and polymers do not follow a formula."""

from procsheet.intervals import Interval, hull
from procsheet.model import quantities
from procsheet.syntax import tree
from procsheet.trace.trace import Moment, Trace

NOT_SAID = Interval(0.0, 14.0, "the pH")
MOVES = ("acid", "base", "neutraliser", "borate")


def acidity(trace: Trace) -> tuple[Interval, ...]:
    """The pH at the end of every moment: as adjusted, checked or looked for; anything from 0 to 14 where nothing is said.

    What goes in afterwards leaves it as it is, unless it is an acid, a base or a vessel of water, acid or base whose pH is not known.
    """
    found: list[Interval] = []
    for moment in trace.moments:
        found.append(_said(moment) or _carried(trace, moment, found))
    return tuple(found)


def _said(moment: Moment) -> Interval | None:
    """What the step itself measures."""
    for measure in (moment.step.written.slots.get("MEASURE"), moment.step.value("until")):
        if isinstance(measure, tree.Measure) and measure.name == "pH" and isinstance(measure.target, tree.Quantity):
            value = quantities.interval(measure.target)
            return Interval(max(value.low, NOT_SAID.low), min(value.high, NOT_SAID.high), value.missing) if value is not None else None
    return None


def _carried(trace: Trace, moment: Moment, found: list[Interval]) -> Interval:
    """What it brings along from the vessels it comes from."""
    if any(portion.row.material.is_a(*MOVES) for portion in moment.entering):
        return NOT_SAID
    before = [trace.moments[parent] for parent in moment.parents]
    brought = [found[one.index] for one in before if trace.watery(one.contents) or trace.holds(one, *MOVES)]
    return hull(brought) if brought and all(not one.missing for one in brought) else NOT_SAID
