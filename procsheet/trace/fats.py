"""Which fats of a vessel are solid, molten or set again."""

from procsheet.intervals import SMALL
from procsheet.syntax import tree
from procsheet.trace.trace import Moment, Trace

SOLID, SOFT, MOLTEN, SETTING, SET = "solid", "soft", "molten", "setting", "set"


def fats(trace: Trace) -> tuple[dict[str, str], ...]:
    """For every moment: row code of each fat -> how it is.

    SOLID until it reaches its melting range, SOFT where it may be in it, MOLTEN above it or where the crew sees it; then SETTING, and SET below it.
    """
    rows = {code: row.material.figure("melts") for code, row in trace.plan.graph.rows.items() if row.material.is_a("structures oil")}
    melts = {code: figure.value for code, figure in rows.items() if figure is not None}
    found: list[dict[str, str]] = []
    for moment in trace.moments:
        before = [found[parent] for parent in moment.parents]
        fresh = {portion.row.code for portion in moment.entering}
        found.append({code: _after(moment, melts[code], [one[code] for one in before if code in one] + [SOLID] * (code in fresh)) for code in moment.contents if code in melts})
    return tuple(found)


def _after(moment: Moment, melts, before: list[str]) -> str:
    if moment.end.low >= melts.high - SMALL or _seen_molten(moment):
        return MOLTEN
    cold = moment.end.high < melts.low - SMALL
    if all(one in (MOLTEN, SETTING, SET) for one in before) or moment.peak.low >= melts.high:
        return SET if cold else SETTING
    return SOLID if cold and before == [SOLID] * len(before) and moment.peak.high < melts.low else SOFT


def _seen_molten(moment: Moment) -> bool:
    """The crew looked: `until melted`, or with the heat on `until clear`."""
    until = moment.step.value("until")
    signs = {"melted", "clear", "dissolved"} if moment.step.verb in ("heat", "melt", "hold") else {"melted"}
    return isinstance(until, tree.States) and bool(signs & set(until.names))
