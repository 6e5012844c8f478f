"""When each step is at work: seconds since the first one began."""

from procsheet.graph.graph import Node
from procsheet.intervals import INFINITY, Interval, point
from procsheet.trace import heat
from procsheet.trace.trace import Moment, Trace

WORDS = ("note", "caution")             # lines that are read, and take no time


def clock(trace: Trace) -> tuple[tuple[Interval, Interval], ...]:
    """Start and end of every moment [s].

    The least is the longest way of what needs what, each step as short as its words allow; the most is one step after the other, each as long
    as they allow. A step without a time adds nothing to the least, and leaves the most open from there on: `missing` names the first of them.
    """
    nodes = trace.plan.graph.nodes
    lasting = _lasting(trace)
    least = _least(nodes, lasting)
    most, missing = 0.0, ""
    times: dict[int, tuple[Interval, Interval]] = {}
    for node in nodes:
        lasts = lasting[node.index]
        early, done = least[node.index]
        begin = Interval(early, max(early, most), missing)
        missing = missing or (lasts.missing if lasts is not None else f"how long line {node.step.span.line} takes")
        most += lasts.high if lasts is not None else INFINITY
        times[node.index] = (begin, Interval(done, max(done, most), missing))
    return tuple(times[moment.node] for moment in trace.moments)


def between(trace: Trace, first: Moment, last: Moment) -> Interval:
    """From the start of one moment to the end of a later one [s]; least and most as of `clock`."""
    nodes = trace.plan.graph.nodes[first.node:last.node + 1]
    lasting = _lasting(trace)
    unknown = next((node.step.span.line for node in nodes if lasting[node.index] is None), None)
    least = _least(nodes, lasting, only_behind=first.node)[last.node][1]
    if unknown is not None:
        return Interval(least, INFINITY, f"how long line {unknown} takes")
    return Interval(least, max(least, sum(lasting[node.index].high for node in nodes)), next((lasting[node.index].missing for node in nodes if lasting[node.index].missing), ""))


def _least(nodes: tuple[Node, ...], lasting: list[Interval | None], only_behind: int | None = None) -> dict[int, tuple[float, float]]:
    """The earliest that each node can begin and end [s]; only_behind: of those alone that need this node, counted from its beginning.

    A wait begins when all above it is done, and holds up all that is written below it.
    """
    found: dict[int, tuple[float, float]] = {}
    latest = held = None                                    # the end of all so far, and of the last wait
    for node in nodes:
        before = latest if node.step.verb == "wait" else held
        needs = [found[one][1] for one in node.needs if one in found] + ([before] if before is not None else [])
        if only_behind is None or needs or node.index == only_behind:
            early, lasts = max(needs, default=0.0), lasting[node.index]
            found[node.index] = (early, early + (lasts.low if lasts is not None else 0.0))
            latest = max(latest or 0.0, found[node.index][1])
            held = latest if node.step.verb == "wait" else held
    return found


def _lasting(trace: Trace) -> list[Interval | None]:
    """How long each node lasts; None where nothing says."""
    of_node = {moment.node: moment.duration for moment in trace.moments}
    return [point(0.0) if node.step.verb in WORDS or node.part > 0 and node.index not in of_node else
            of_node[node.index] if node.index in of_node else heat.duration_of(node.step, 0) for node in trace.plan.graph.nodes]
