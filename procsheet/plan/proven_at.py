"""What only holds at the size a method was proven at: its written times of shear and addition, and rates of heat."""

from procsheet.findings import Finding, Label
from procsheet.graph.graph import Graph

NAME = "proven-at"
TIMES = 10.0                            # of the size: beyond it a batch is another one (regulators' rule of thumb for scale-up, from memory)
SCALED = ("for", "over", "then for", "each for", "heat rate")
HARD = ("homogenise", "mill", "emulsify", "add", "disperse", "activate", "neutralise", "cool", "heat")


def marked(graph: Graph, mass) -> list[Finding]:
    """One hint, at the first such step, where the batch is ten times larger or smaller than where it was proven."""
    proven = graph.method.header.proven_at
    if not proven or 1 / TIMES <= float(mass / proven) <= TIMES:
        return []
    steps = [step for step in graph.course.steps if step.number and step.verb in HARD and step.has(*SCALED)]
    if not steps:
        return []
    times = float(mass / proven)
    how = f"{times:.3g} times as large" if times > 1 else f"{1 / times:.3g} times as small"
    numbers = ", ".join(str(step.number) for step in steps)
    return [Finding("NOTE", NAME, f"proven at {float(proven):.4g} kg; this batch is {how}: what is written in minutes in step{'s' if len(steps) > 1 else ''} {numbers} holds there only",
                    Label(steps[0].span, "proven at another size"), why="Heat, shear and additions take another time in another kettle; the same minutes are not the same treatment.",
                    fix="Look at `procsheet differ`, make a batch in between, and write what must be seen rather than minutes: until melted, drop size at most 5 µm.",
                    source="regulators' rule of thumb for scale-up: ten times (from memory)", step=steps[0].number)]
