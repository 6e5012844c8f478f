"""How small and how large a batch of a method may be in a plant, and what stands against more or less."""

from fractions import Fraction
from math import ceil
from typing import NamedTuple

from procsheet.findings import Finding
from procsheet.graph.graph import Graph
from procsheet.plan import covered, vessels
from procsheet.plan.plant import Kettle, Plant

FINE = 1.0005                           # how closely an end is looked for: to a two-thousandth
STEPS = 80                              # sizes that are tried between the smallest and the largest kettle


class End(NamedTuple):
    """An end of what fits. mass: kg; kettles: the kettle of each vessel there; against: what is found just beyond."""

    mass: float
    kettles: dict[str, Kettle | None]
    against: tuple[Finding, ...]


class Fit(NamedTuple):
    """What fits, as ranges: from one end to the other, the smallest first. () where nothing fits; `against` says why then."""

    ranges: tuple[tuple[End, End], ...]
    against: tuple[Finding, ...] = ()

    @property
    def smallest(self) -> End | None:
        return self.ranges[0][0] if self.ranges else None

    @property
    def largest(self) -> End | None:
        return self.ranges[-1][1] if self.ranges else None

    def holds(self, mass: float) -> bool:
        return any(low.mass / FINE <= mass <= high.mass * FINE for low, high in self.ranges)


class Split(NamedTuple):
    count: int
    mass: float                         # kg of each


def fit(graph: Graph, plant: Plant, named: tuple[tuple[str, str], ...] = ()) -> Fit:
    """Every size at which each stage fits its kettle: full enough for the tools, with head space, side vessels too."""
    def found(mass: float) -> tuple[dict, list[Finding]]:
        return _at(graph, Fraction(mass) / graph.method.mass, plant, named)
    sizes = _sizes(graph, plant)
    good = [size for size in sizes if not found(size)[1]]
    if not good:
        middle = sizes[len(sizes) // 2] if sizes else float(graph.method.mass)
        return Fit((), tuple(found(middle)[1]))
    ranges = []
    for first, last in _runs(sizes, good):
        low = _edge(found, first, sizes[max(sizes.index(first) - 1, 0)])
        high = _edge(found, last, sizes[min(sizes.index(last) + 1, len(sizes) - 1)])
        ranges.append((_end(found, low, 1 / FINE), _end(found, high, FINE)))
    return Fit(tuple(ranges))


def split(fitting: Fit, mass: float) -> Split | None:
    """Equal batches for an order that is larger than fits; None where no number of them fits."""
    if fitting.largest is None or mass <= 0:
        return None
    least = ceil(mass / (fitting.largest.mass * FINE))
    return next((Split(count, mass / count) for count in range(max(least, 1), max(least, 1) + 200) if fitting.holds(mass / count)), None)


def _at(graph: Graph, factor: Fraction, plant: Plant, named) -> tuple[dict, list[Finding]]:
    held = vessels.volumes(graph, factor)
    kettles, wrong = vessels.match(graph, held, plant, named)
    size = [finding for finding in wrong if finding.name in ("vessel-too-small", "vessel-too-empty")]
    return kettles, [*size, *covered.uncovered(graph, factor, kettles)]


def _sizes(graph: Graph, plant: Plant) -> list[float]:
    """Masses [kg] from well below the smallest to well above the largest main kettle."""
    mains = [kettle.working for kettle in plant.kettles if kettle.main and kettle.working]
    most = vessels.volumes(graph, Fraction(1))[vessels.main_vessel(graph)][1]
    if not mains or not most:
        return []
    low, high = 0.5 * min(one.low for one in mains), 1.1 * max(one.high for one in mains)
    return [float(graph.method.mass) / most * low * (high / low) ** (step / STEPS) for step in range(STEPS + 1)]


def _runs(sizes: list[float], good: list[float]):
    """The first and last size of each unbroken run of good ones."""
    run: list[float] = []
    for size in sizes:
        if size in good:
            run.append(size)
        elif run:
            yield run[0], run[-1]
            run = []
    if run:
        yield run[0], run[-1]


def _edge(found, inside: float, outside: float) -> float:
    """The size nearest to the outer one that still fits."""
    if not found(outside)[1]:
        return outside
    while max(inside, outside) / min(inside, outside) > FINE:
        middle = (inside * outside) ** 0.5
        inside, outside = (middle, outside) if not found(middle)[1] else (inside, middle)
    return inside


def _end(found, mass: float, beyond: float) -> End:
    return End(mass, found(mass)[0], tuple(found(mass * beyond ** 2)[1]))
