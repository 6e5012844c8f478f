"""One course of a method followed through graph, plan and trace, and what is found on the way."""

from procsheet.findings import Finding
from procsheet.graph.connect import connect
from procsheet.graph.courses import Course
from procsheet.model.method import Method
from procsheet.plan.draw_up import draw_up
from procsheet.plan.plan import Order
from procsheet.plan.plant import Plant
from procsheet.rules import RULES
from procsheet.rules.batch import Batch
from procsheet.trace.walk import walk


def follow(method: Method, course: Course, plant: Plant, order: Order) -> Batch:
    """One course in one size, in one plant."""
    graph = connect(method, course)
    plan = draw_up(graph, plant, order)
    return Batch(method, graph, plan, walk(plan))


def findings(batch: Batch) -> list[Finding]:
    """What graph, plan and every rule say of it."""
    return [*batch.graph.findings, *batch.plan.findings, *(finding for rule in RULES for finding in rule.check(batch))]
