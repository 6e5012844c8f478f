"""The plan: size, plant and options chosen. A bench batch is a plan like any other."""

from fractions import Fraction
from typing import NamedTuple

from procsheet.findings import Finding
from procsheet.graph.graph import Graph
from procsheet.model.method import Method, Row
from procsheet.plan.plant import NO_PLANT, Kettle, Plant


class Line(NamedTuple):
    """One weighing: one row, one step, one container (or more).

    exact       kg or m³, before rounding
    target      kg or m³, as the balance shows it
    low, high   kg or m³, the acceptance range
    unit        'kg', 'g', 'L' or 'mL'; decimals: digits behind the point in it
    use         '', 'part', 'hold-back', 'make-up' or 'corrector'
    """

    number: int
    row: Row
    use: str
    exact: Fraction
    target: Fraction
    low: Fraction | None
    high: Fraction | None
    unit: str
    decimals: int
    balance: str
    containers: int
    container: str
    step: int                           # where it goes in; 0: in the pack
    node: int


class Plan(NamedTuple):
    """factor: batches of the basis; mass: kg of the batch; kettles: the method's vessel -> the plant's, None where none is needed or known."""

    graph: Graph
    factor: Fraction
    mass: Fraction
    plant: Plant
    kettles: dict[str, Kettle | None]
    volumes: dict[str, tuple[float, float]]     # vessel -> least and most it holds while stirred [m³]
    lines: tuple[Line, ...]
    findings: tuple[Finding, ...]

    @property
    def method(self) -> Method:
        return self.graph.method

    @property
    def has_plant(self) -> bool:
        return self.plant is not NO_PLANT and bool(self.plant.name)

    def weighed(self, phase: str) -> Fraction:
        """kg that the balances show for one phase, all targets together; correctors and make-ups are left out."""
        return sum((line.target for line in self.lines if line.row.phase == phase and line.row.measured == "mass"
                    and line.use not in ("corrector", "make-up")), Fraction(0))

    @property
    def yields(self) -> tuple[tuple[str, Fraction, Fraction, str], ...]:
        """What is expected of the batch: what, least and most [kg], and the share as written."""
        return tuple((what, low * self.mass, high * self.mass, written) for what, low, high, written in self.method.header.yields)


class Order(NamedTuple):
    """What was asked for: the size as kg, m³ or a number of units, and vessels named by hand."""

    mass: Fraction | None = None
    volume: Fraction | None = None
    units: int | None = None
    vessels: tuple[tuple[str, str], ...] = ()
