"""What several products need together, what of it is bought, and what goes into each costs."""

from datetime import date
from fractions import Fraction
from typing import NamedTuple

from procsheet.findings import Finding
from procsheet.need.allocate import Allocation, Take, allocate
from procsheet.need.demands import Demand, demands
from procsheet.need.fill import Fill, fill, cold
from procsheet.need.lots import Lot
from procsheet.need.money import Money, total
from procsheet.need.packs import Pack, Purchase, packs, purchase
from procsheet.plan.plan import Plan


class Made(NamedTuple):
    """One product as it is ordered: the plan of one batch, and how many equal ones are made."""

    name: str
    plan: Plan
    batches: int = 1


class Item(NamedTuple):
    """One material of the list. needed: kg, lots' strengths reckoned with; short: kg that no lot gives; open: some of it has no figure yet; purchase: None where no pack is known."""

    name: str
    needed: Fraction
    short: Fraction
    open: bool
    pack: Pack | None
    purchase: Purchase | None
    supplier: str
    made_from: str
    products: tuple[int, ...]

    @property
    def left_over(self) -> Fraction | None:
        return self.purchase.mass - self.short if self.purchase is not None else None

    @property
    def cost(self) -> Money | None:
        """Of what goes in, at the price of the pack; the whole of what is bought is `purchase.cost`."""
        return self.pack.cost(self.needed) if self.pack is not None else None


class Cost(NamedTuple):
    """Of the materials of one product, all its batches: one sum a currency, and the materials that have no price or no figure."""

    made: Made
    fill: Fill | None
    totals: tuple[Money, ...]
    without: tuple[str, ...]

    @property
    def batch(self) -> tuple[Money, ...]:
        return tuple(one._replace(amount=one.amount / self.made.batches) for one in self.totals)

    @property
    def unit(self) -> tuple[Money, ...]:
        """What one pack that is filled costs; () where nothing says how many."""
        return tuple(one._replace(amount=one.amount / self.fill.units) for one in self.batch) if self.fill is not None and self.fill.units else ()


class Need(NamedTuple):
    items: tuple[Item, ...]
    costs: tuple[Cost, ...]
    takes: tuple[Take, ...]
    findings: tuple[Finding, ...]

    @property
    def without(self) -> tuple[str, ...]:
        """Materials whose price or amount is not known."""
        return tuple(item.name for item in self.items if item.cost is None or item.open)

    @property
    def to_pay(self) -> tuple[Money, ...]:
        return total(item.purchase.cost for item in self.items if item.purchase is not None and item.purchase.cost is not None)


def reckon(products: tuple[Made, ...], lots: tuple[Lot, ...], on: date) -> Need:
    """One list for all products: taken from the lots first, in the order the products are given, and what is short bought in whole packs."""
    asked = tuple(demand for at, made in enumerate(products) for demand in demands(made.plan, at, made.batches))
    given = allocate(asked, lots, on)
    items = {key: _item(key, given) for key in dict.fromkeys(demand.key for demand in asked)}
    prices = {key: item.pack for key, item in items.items()}
    costs = tuple(_cost(at, made, given.demands, prices) for at, made in enumerate(products))
    warm = [finding for cost in costs if cost.fill is not None for finding in cold(cost.fill, cost.made.name)]
    return Need(tuple(items.values()), costs, given.takes, (*given.findings, *warm))


def _item(key: str, given: Allocation) -> Item:
    mine = [(demand, short) for demand, short in zip(given.demands, given.short) if demand.key == key]
    material, short = mine[0][0].material, sum((short for _, short in mine), Fraction(0))
    sold = packs(material)
    bought = purchase(short, sold)
    return Item(material.name, sum((demand.amount for demand, _ in mine), Fraction(0)), short, any(demand.open for demand, _ in mine), bought.pack if bought else None, bought,
                material.text("supplier"), material.text("made from"), tuple(dict.fromkeys(demand.product for demand, _ in mine)))


def _cost(at: int, made: Made, asked: tuple[Demand, ...], prices: dict[str, Pack | None]) -> Cost:
    mine = [demand for demand in asked if demand.product == at]
    costs = [prices[demand.key].cost(demand.amount) if prices[demand.key] is not None else None for demand in mine]
    without = dict.fromkeys(demand.material.name for demand, cost in zip(mine, costs) if cost is None or demand.open)
    return Cost(made, fill(made.plan), total(cost for cost in costs if cost is not None), tuple(without))
