"""Speeds that a step asks for and a kettle's tool does not turn."""

from collections.abc import Iterator

from procsheet.findings import Finding, Label
from procsheet.formulas.tip_speed import turns_for_tip_speed
from procsheet.graph.graph import Graph
from procsheet.intervals import Interval
from procsheet.model import quantities
from procsheet.model.method import Step
from procsheet.plan.plant import Kettle, Tool
from procsheet.syntax import clauses, tree

SLACK = 0.01            # of a speed: what rounding of the drive's figures may hide


def outside(graph: Graph, kettles: dict[str, Kettle | None]) -> list[Finding]:
    """One finding for each tool and speed that lie apart."""
    found: dict[tuple, Finding] = {}
    for vessel, kettle in kettles.items():
        for step, name, clause in _asked(vessel, graph) if kettle else ():
            tool, speed, turns = kettle.tool(name), clause.value, quantities.interval(clause.value)
            if tool and tool.speed and (turns := _turns(tool, speed, turns)) and not turns.touches(tool.speed, SLACK * tool.speed.high):
                found.setdefault((kettle.tag, name, speed.low, speed.high), _finding(step, kettle, tool, clause, turns))
    return list(found.values())


def _asked(vessel: str, graph: Graph) -> Iterator[tuple[Step, str, tree.Clause]]:
    """Each speed with the tool it is for: the one named before it, the one the verb means, else the stirrer that runs on."""
    stirrer = ""
    for node in graph.nodes:
        if node.place != vessel or node.part:
            continue
        tools = ["homogeniser"] if node.step.verb == "homogenise" else [stirrer]
        for clause in node.step.written.clauses:
            if clause.kind == "tool":
                tools = [*clause.value.names]
                stirrer = next((name for name in reversed(tools) if name not in clauses.HIGH_SHEAR), stirrer)
            elif clause.kind == "speed":
                yield node.step, next((name for name in tools if name in clauses.HIGH_SHEAR), tools[-1]), clause


def _turns(tool: Tool, speed: tree.Quantity, value: Interval | None) -> Interval | None:
    """1/s; of a tip speed what it needs at the tool's diameter, None where that or the figure is not known."""
    if value is None or quantities.dimension(speed) == "rotation":
        return value
    return Interval(*(turns_for_tip_speed(diameter=tool.diameter, tip=max(end, 0)) for end in value[:2])) if tool.diameter and value.high < 1e9 else None


def _finding(step: Step, kettle: Kettle, tool: Tool, clause: tree.Clause, turns: Interval) -> Finding:
    speed = clause.value
    here = f", which is {_rpm(turns)} rpm here," if quantities.dimension(speed) == "speed" else ""
    fact = f"the {tool.name} of {kettle.tag} turns {_rpm(tool.speed)} rpm; {quantities.shown(speed)}{here} is asked for: set to {_rpm(_nearest(turns, tool.speed))} rpm"
    return Finding("WARN", "speed-outside", fact, Label(clause.span), why="The drive cannot be set to what the method asks for; the sheet prints the nearest it turns.",
                   fix="Name another vessel with --vessel, another tool, or a speed that it turns.", step=step.number)


def _nearest(turns: Interval, able: Interval) -> Interval:
    return Interval(*(min(max(end, able.low), able.high) for end in turns[:2]))


def _rpm(turns: Interval) -> str:
    low, high = (f"{end * 60:.0f}" for end in turns[:2])
    return low if low == high else f"{low}–{high}"
