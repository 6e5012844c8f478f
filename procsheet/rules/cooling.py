"""How fast a step cools, as far as it is written."""

from procsheet.intervals import INFINITY, Interval
from procsheet.model import quantities
from procsheet.trace.trace import Moment

HURRIED = ("quickly", "ice bath")


def rate(moment: Moment) -> Interval | None:
    """K/s as it is written, or from the time that is written for the whole step."""
    if moment.step.has("heat rate"):
        return quantities.interval(moment.step.value("heat rate"))
    time = quantities.interval(moment.step.value("over", "within")) if quantities.dimension(moment.step.value("over", "within")) == "time" else None
    if time is None or time.high >= INFINITY or time.high <= 0:
        return None
    drop = max(moment.start.low - moment.end.high, 0.0)
    return time._replace(low=drop / time.high, high=drop / time.high) if moment.parts == 1 else None


def final(batch, moment: Moment) -> Interval:
    """The temperature at the end of a whole step, all its parts together [K]."""
    return next((one.end for one in reversed(batch.trace.moments) if one.step.number == moment.step.number), moment.end)


def told(found: Interval) -> str:
    return f"{found.high * 60:.2g} °C/min"
