"""When each step is at work: seconds since the first one began."""

from procsheet.intervals import INFINITY, Interval
from procsheet.trace import heat
from procsheet.trace.trace import Trace


def clock(trace: Trace) -> tuple[tuple[Interval, Interval], ...]:
    """Start and end of every moment [s].

    The least is the longest way of what needs what, each step as short as its words allow; the most is one step after the other, each as long
    as they allow. A step without a time adds nothing to the least, and leaves the most open from there on: `missing` names the first of them.
    """
    least: dict[int, float] = {}
    most, missing = 0.0, ""
    times: dict[int, tuple[Interval, Interval]] = {}
    of_node = {moment.node: moment for moment in trace.moments}
    for node in trace.plan.graph.nodes:
        moment = of_node.get(node.index)
        lasts = moment.duration if moment is not None else heat.duration_of(node.step, 0)
        early = max((least[one] for one in node.needs if one in least), default=0.0)
        least[node.index] = early + (lasts.low if lasts is not None else 0.0)
        begin = Interval(early, max(early, most), missing)
        if lasts is None and node.part == 0:
            most, missing = INFINITY, missing or f"how long line {node.step.span.line} takes"
        elif lasts is not None:
            most, missing = most + lasts.high, missing or lasts.missing
        if moment is not None:
            times[moment.index] = (begin, Interval(least[node.index], max(least[node.index], most), missing))
    return tuple(times[index] for index in range(len(trace.moments)))
