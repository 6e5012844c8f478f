"""Trace to stops: one for every step at work on a vessel, with all that is known of it."""

from typing import NamedTuple

from procsheet.intervals import Interval
from procsheet.rules.batch import Batch
from procsheet.source import Source
from procsheet.trace import contents
from procsheet.trace.acidity import acidity
from procsheet.trace.clock import clock
from procsheet.trace.fats import MOLTEN, SOFT, SOLID, fats
from procsheet.trace.flash import alcohols
from procsheet.trace.loss import losses
from procsheet.trace.swelling import swelling
from procsheet.trace.trace import Moment


class Stop(NamedTuple):
    """A step at work on one vessel. SI units; kg of the planned batch.

    begins, ends   seconds since the first step
    phases         kg by affinity, and drops: the share by volume of what lies in drops, None while nothing is emulsified
    gums           row code of each gum in water -> whether it has had its time
    melting        kg of fat that melts in this step: heat that the thermometer does not show
    lost           kg of water that is missing by then
    """

    moment: Moment
    line: int
    words: str
    begins: Interval
    ends: Interval
    pH: Interval
    volume: Interval
    phases: dict[str, float]
    drops: float | None
    alcohol: float
    electrolyte: float
    fats: dict[str, str]
    gums: dict[str, bool]
    melting: float
    lost: Interval


def stops(batch: Batch, text: Source) -> tuple[Stop, ...]:
    """Every stop of one course, in the order of the method."""
    trace = batch.trace
    times, sour, solid, swollen, lost = clock(trace), acidity(trace), fats(trace), swelling(trace), losses(trace)
    return tuple(Stop(moment, moment.span.line, _words(moment, text), *times[moment.index], sour[moment.index], contents.volume(trace, moment),
                      contents.by_affinity(trace, moment), contents.internal_phase(trace, moment),
                      contents.alcohol_strength(trace, moment) if alcohols(trace, moment) else 0.0, contents.electrolyte_strength(trace, moment),
                      solid[moment.index], swollen[moment.index], _melting(moment, solid), lost[moment.index])
                 for moment in trace.moments)


def _melting(moment: Moment, solid) -> float:
    return sum(moment.contents[code] for code, how in solid[moment.index].items() if how == MOLTEN and any(solid[one].get(code) in (SOLID, SOFT) for one in moment.parents))


def _words(moment: Moment, text: Source) -> str:
    """The step as it is written, on one line."""
    lines = text.lines
    line = lines[moment.span.line - 1].strip() if 0 < moment.span.line <= len(lines) else moment.step.verb
    part = f" ({moment.part + 1} of {moment.parts})" if moment.parts > 1 else ""
    return line.split("  #")[0].strip() + part
