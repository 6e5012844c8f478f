"""The list as it is read in a terminal."""

from decimal import Decimal

from procsheet.need.fill import Fill, Judged
from procsheet.need.money import Money
from procsheet.need.need import Cost, Item, Need
from procsheet.need.packs import Purchase
from procsheet.need.table import UNKNOWN, Cell, Table

SAYS = "Cost is that of the materials alone: no labour, energy, packaging, cleaning or freight is in it."


def told(need: Need, listed: tuple[Table, ...], has_stock: bool) -> list[str]:
    """The tables as they are read in a terminal, a blank line between."""
    _, lots, costs, _ = listed
    out = [*_materials(need, has_stock), ""]
    if lots.rows:
        taken = [(lot, material, product, kilograms, expires or "no date", assay) for product, material, lot, kilograms, _, expires, assay in lots.rows]
        out += ["lots, first expired first out", *_lined(taken, ("lot", "material", "product", "kg", "expires", "assay %"), 3), ""]
    out += ["cost of materials", *_lined(costs.rows, ("product", "batches", "kg each", "", "a batch", "a pack", "not reckoned"), 1), ""]
    return [*out, *(line for cost in need.costs if cost.fill is not None for line in (*_fill(cost), "")), SAYS]


def _lined(rows, head: tuple[str, ...], left: int) -> list[str]:
    return lined_up([head, *(tuple("" if cell == "" else digits(cell) for cell in row) for row in rows)], left)


def _materials(need: Need, has_stock: bool) -> list[str]:
    rows = [("material", "kg needed", *(("from stock",) if has_stock else ()), "to buy", "left over", "cost", "to pay")]
    for item in need.items:
        bought, known = item.purchase, digits(float(item.needed)) if item.needed or not item.open else "?"
        rows.append((item.name, known + (" + ?" if item.open and item.needed else ""), *((digits(float(item.needed - item.short)),) if has_stock else ()), _packs(item, bought),
                     digits(float(item.left_over)) if bought else "?", _money(item.cost), _money(bought.cost if bought else None)))
    sums = " and ".join(map(_money, need.to_pay)) or "nothing that has a price"
    unknown = f"; {len(need.without)} without a price or a figure are not in it" if need.without else ""
    return [*lined_up(rows), f"to pay: {sums}{unknown}"]


def _packs(item: Item, bought: Purchase | None) -> str:
    if bought is None:
        return "? packs" if item.short else "-"
    return f"{bought.count} × {digits(float(bought.pack.size))} kg" if bought.count else "-"


def _money(one: Money | None) -> str:
    return f"{one.rounded()} {one.currency}" if one is not None else "?"


def _fill(cost: Cost) -> list[str]:
    one, unit = cost.fill, cost.fill.unit
    out = [f"fill of {cost.made.name}: {one.pack or 'pack'}, declared {digits(float(one.declared))} {unit}, filled to {digits(float(one.target))} {unit} on average or above"]
    if one.weighs and unit == "mL":
        out.append(f"  weighs {float(one.weighs[0]):.4g} to {float(one.weighs[1]):.4g} g, by the batch's own density at 20 °C")
    if one.limits:
        out.append(f"  a pack may lack {digits(float(one.error))} {unit}: few below T1 {digits(float(one.limits[0]))} {unit}, none below T2 {digits(float(one.limits[1]))} {unit}")
    if one.units is not None:
        cases = f", {one.cases[0]} cases and {one.cases[1]} packs" if one.cases else ""
        plant = cost.made.plan.plant
        loss = f" and {digits(float(plant.filling_loss))} kg left in the lines of {plant.name}" if plant.filling_loss else ""
        out.append(f"  a batch fills {one.units} packs at its lowest yield{loss}{cases}")
    return out


def verdict(judged: Judged, filled: Fill) -> list[str]:
    """A sample and what it had to reach."""
    least = f", {judged.least:.6g} or more wanted" if judged.least is not None else ""
    most = f", {judged.most} allowed" if judged.most is not None else ""
    return ["", f"sample: mean {float(judged.mean):.6g} {filled.unit}, deviation {judged.deviation:.4g}{least}; {judged.short} below T1{most}; {judged.far} below T2, none allowed: "
            f"{'holds enough' if judged.passes else 'does not hold enough'}"]


# ---- figures and columns


def lined_up(rows: list[tuple[str, ...]], left: int = 1) -> list[str]:
    """Columns below each other: the first `left` from the left, the others from the right."""
    wide = [max(len(row[at]) for row in rows) for at in range(len(rows[0]))]
    return ["  " + "  ".join(cell.ljust(wide[at]) if at < left else cell.rjust(wide[at]) for at, cell in enumerate(row)).rstrip() for row in rows]


def digits(value: Cell) -> str:
    """Up to six digits, never with a power of ten."""
    if value is None or isinstance(value, str):
        return value or UNKNOWN
    if isinstance(value, (int, Decimal)):
        return str(value)
    return f"{value:.6g}" if value == 0 or 1e-4 <= abs(value) < 1e6 else f"{value:.0f}" if abs(value) >= 1e6 else f"{value:.7f}"
