"""Graph, order and plant to plan."""

from procsheet.graph.graph import Graph
from procsheet.plan import covered, proven_at, size, speeds, vessels, weighing
from procsheet.plan.plan import Order, Plan
from procsheet.plan.plant import NO_PLANT, Plant


def draw_up(graph: Graph, plant: Plant = NO_PLANT, order: Order = Order()) -> Plan:
    """The plan of one course at one size in one plant. Without a plant nothing is known of kettles and balances."""
    factor, findings = size.factor(graph.method, order)
    held = vessels.volumes(graph, factor)
    kettles, wrong = vessels.match(graph, held, plant, order.vessels)
    lines, bad = weighing.weigh(graph, factor, plant)
    return Plan(graph, factor, graph.method.mass * factor, plant, kettles, held, lines, tuple([*findings, *wrong, *covered.uncovered(graph, factor, kettles), *speeds.outside(graph, kettles), *proven_at.marked(graph, graph.method.mass * factor), *bad]))
