"""A method carried to another plant: a speed in turns becomes the tip speed it had where the method was proven.

A tool of another diameter at the same turns is another tool. What has no known diameter there stays as it is written.
"""

from procsheet.model import quantities
from procsheet.model.method import Block, Method, Step
from procsheet.syntax import tree
from procsheet.trace.trace import Trace
from procsheet.units import dimension

DIGITS = 3


def carried(method: Method, proven: Trace) -> Method:
    """The method with every speed in turns as a tip speed [m/s], as far as the trace where it was proven knows one."""
    edges = _edges(proven)
    return method._replace(items=_items(method.items, edges)) if edges else method


def in_turns(method: Method) -> bool:
    """Whether any step gives a speed in turns."""
    return any(clause.kind == "speed" and _is_turns(clause.value) for step in method.steps() for clause in step.written.clauses)


def _edges(proven: Trace) -> dict[tuple[int, float], float]:
    """(step, most turns as they run there [1/s]) -> way of the tool's edge in one turn [m]."""
    return {(moment.step.number, round(running.speed.high, 6)): running.tip.high / running.speed.high
            for moment in proven.moments for running in moment.turning if running.speed is not None and running.tip is not None and running.speed.high > 0}


def _items(items: tuple, edges: dict) -> tuple:
    return tuple(_step(item, edges) if isinstance(item, Step) else
                 item._replace(branches=tuple((name, _items(branch, edges)) for name, branch in item.branches)) if isinstance(item, Block) else item for item in items)


def _step(step: Step, edges: dict) -> Step:
    clauses = tuple(clause._replace(value=_carried(clause.value, step, edges)) if clause.kind == "speed" and _is_turns(clause.value) else clause
                    for clause in step.written.clauses)
    return step._replace(written=step.written._replace(clauses=clauses)) if clauses != step.written.clauses else step


def _carried(value: tree.Quantity, step: Step, edges: dict) -> tree.Quantity:
    turns, ends = quantities.interval(value), quantities.exact(value)
    edge = edges.get((step.number, round(turns.high, 6))) if turns is not None and ends is not None else None
    return value._replace(low=_shown(float(ends[0]) * edge), high=_shown(float(ends[1]) * edge), unit="m/s") if edge is not None else value


def _is_turns(value) -> bool:
    return isinstance(value, tree.Quantity) and not value.is_open and dimension(value.unit) == "rotation"


def _shown(tip: float) -> str:
    return f"{tip:.{DIGITS}g}"
