"""What one product asks for: its weighing lines, material by material, in kg as bought."""

from fractions import Fraction
from typing import NamedTuple

from procsheet import units
from procsheet.model.material import Material, fold
from procsheet.plan.plan import Line, Plan
from procsheet.syntax import tree

WATER = Fraction(1000)                  # kg/m³, taken where no density is known


class Demand(NamedTuple):
    """One material of one product.

    product  which of the products that are made, from 0
    names    what a stock may call it, as they are compared
    amount   kg of all its batches, loss in weighing included
    assay    the strength its row reckons with [1], None where the amount holds whatever the lot's strength
    closing  whether the row closes to 100 %, and so bears what a lot's strength changes
    open     whether some of it has no figure yet
    """

    product: int
    material: Material
    names: frozenset[str]
    amount: Fraction
    assay: Fraction | None = None
    closing: bool = False
    open: bool = False

    @property
    def key(self) -> str:
        return fold(self.material.name)


def demands(plan: Plan, product: int = 0, batches: int = 1) -> tuple[Demand, ...]:
    """A corrector counts at its cap, else its guide; hold-back and make-up count; a solution or premix stands as it is bought."""
    found: dict[tuple, Demand] = {}
    for line in plan.lines:
        one = _demand(line, product, batches, plan.plant.weighing_loss)
        known = found.get(key := (one.key, one.assay, one.closing))
        found[key] = one if known is None else known._replace(names=known.names | one.names, amount=known.amount + one.amount, open=known.open or one.open)
    return tuple(found.values())


def _demand(line: Line, product: int, batches: int, loss: Fraction) -> Demand:
    row = line.row
    mass = line.exact * (row.material.density or WATER) if row.measured == "volume" else line.exact
    names = frozenset(map(fold, (row.name, row.material.name, *(entry.text for entry in row.material.entries("also called")))))
    dosed = row.kind == "figure" and line.use != "make-up"
    return Demand(product, row.material, names, mass * batches / (1 - loss), _strength(line) if dosed else None, row.kind == "closing",
                  mass == 0 and line.use != "make-up")


def _strength(line: Line) -> Fraction | None:
    """`as pure` without a known assay was reckoned as if pure."""
    return line.row.material.assay or (Fraction(1) if line.row.written.as_pure else None)


def assay_kind(material: Material) -> str:
    """What the strength of a material is a share of: 'share' by mass, 'volume share', or another dimension of an assay."""
    figure = next((word for entry in material.entries("assay") for word in entry.words if isinstance(word, tree.Quantity)), None)
    return units.dimension(figure.unit) if figure is not None else "share"
