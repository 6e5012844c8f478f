"""The graph: which step needs which, what enters and leaves each vessel. Free of size: amounts are those of one basis batch, exactly.

A vessel's content is a value that a step consumes and produces, so two vessels run side by side until a transfer joins them.
"""

from fractions import Fraction
from typing import NamedTuple

from procsheet.findings import Finding
from procsheet.graph.courses import Course
from procsheet.model.method import Method, Row, Step


class Portion(NamedTuple):
    """Some of one row, on its way. mass: kg of one basis batch; use: how it is told on paper."""

    row: Row
    mass: Fraction
    use: str = ""                       # '', 'hold-back', 'make-up', 'corrector', 'part'


class State(NamedTuple):
    """What a vessel holds between two steps. contents: row code -> kg; parents: the states it came from."""

    index: int
    vessel: str
    made_by: int                        # the node
    contents: dict[str, Fraction]
    parents: tuple[int, ...]


class Node(NamedTuple):
    """One step at work in the graph. A step that others stand inside (`during`) is split into parts.

    entering   material portions that enter here
    poured     (state, share) of other vessels that enter here
    before     the state of the vessel it works on, None where that is empty
    after      the state it leaves there, None where it empties it
    place      the vessel or place that `after` stands in
    needs      nodes that must be done before
    """

    index: int
    step: Step
    part: int
    parts: int
    entering: tuple[Portion, ...]
    poured: tuple[tuple[int, Fraction], ...]
    before: int | None
    after: int | None
    place: str
    inside: int | None                  # number of the step it stands inside
    needs: tuple[int, ...]


class Graph(NamedTuple):
    """course: the way it was built for; product: the states that leave as the product."""

    method: Method
    course: Course
    nodes: tuple[Node, ...]
    states: tuple[State, ...]
    product: tuple[int, ...]
    rows: dict[str, Row]
    findings: tuple[Finding, ...]
