"""Which gums of a vessel have had their time in water."""

from procsheet.syntax import tree
from procsheet.trace.trace import Moment, Trace

USUAL = 900.0                           # s, where a gum's own data say nothing (common practice, no source)


def swelling(trace: Trace) -> tuple[dict[str, bool], ...]:
    """For every moment: row code of each gum that is in water -> whether it has certainly had its time, or the crew saw it swollen."""
    rows = trace.plan.graph.rows
    needs = {code: figure.value.high if (figure := row.material.figure("hydrates for")) is not None else USUAL for code, row in rows.items() if row.material.is_a("gum")}
    had: list[dict[str, float]] = []
    for moment in trace.moments:
        had.append({code: _time(trace, moment, code, needs[code], had) for code in moment.contents if code in needs and trace.watery(moment.contents) > moment.contents[code]})
    return tuple({code: time >= needs[code] for code, time in one.items()} for one in had)


def _time(trace: Trace, moment: Moment, code: str, need: float, had: list[dict[str, float]]) -> float:
    """Seconds in water by the end of a moment, at least: the least of what is brought together."""
    before = [had[parent].get(code, 0.0) for parent in moment.parents if code in trace.moments[parent].contents] if not any(one.row.code == code for one in moment.entering) else [0.0]
    time = min(before, default=0.0) + (moment.duration.low if moment.duration is not None else 0.0)
    until = moment.step.value("until")
    return max(time, need) if isinstance(until, tree.States) and "hydrated" in until.names else time
