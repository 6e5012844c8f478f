"""High-shear heads that stand out of what their kettle holds."""

from fractions import Fraction

from procsheet.findings import Finding, Label
from procsheet.graph.graph import Graph, Node
from procsheet.plan.plant import Kettle, Tool
from procsheet.plan.vessels import WATER, tools_of

NAME = "tool-uncovered"


def uncovered(graph: Graph, factor: Fraction, kettles: dict[str, Kettle | None]) -> list[Finding]:
    """The first step of each vessel and tool at which the head is not covered."""
    found: dict[tuple[str, str], Finding] = {}
    for node in graph.nodes:
        kettle = kettles.get(node.place)
        for name in tools_of(node.step) if kettle is not None else ():
            tool, held = kettle.tool(name), held_from(graph, node, factor)
            if tool is not None and tool.covered_from and held < tool.covered_from * (1 - 1e-9):
                found.setdefault((node.place, name), _finding(node, kettle, tool, held))
    return list(found.values())


def held_from(graph: Graph, node: Node, factor: Fraction) -> float:
    """m³ that a vessel holds while a step begins to turn its tool: what stands there, else what the step puts in."""
    state = node.before if node.before is not None else node.after
    density = {row.code: row.material.density or WATER for row in graph.method.rows}
    return float(sum((mass / density[code] for code, mass in graph.states[state].contents.items()), Fraction(0)) * factor) if state is not None else 0.0


def _finding(node: Node, kettle: Kettle, tool: Tool, held: float) -> Finding:
    return Finding("WARN", NAME, f"the {tool.name} of {kettle.tag} is covered from {tool.covered_from * 1000:.4g} L; {node.place} holds {held * 1000:.4g} L here", Label(node.step.span),
                   why="A head that is not covered draws air, throws the batch about and may run dry.",
                   fix="Make a larger batch, begin with more of it in the vessel, or name a smaller vessel.", source="process notes on rotor-stators; common practice, no source",
                   step=node.step.number)
