"""The list as tables: to be read in a terminal, as CSV, and as a workbook in which numbers are numbers."""

import csv
from decimal import Decimal
from fractions import Fraction
from io import BytesIO, StringIO
from typing import NamedTuple

from procsheet.need.allocate import Take
from procsheet.need.need import Item, Need

Cell = str | int | float | Decimal | None
UNKNOWN = "?"                           # what is not known is said, never left blank
FORMULA = ("=", "+", "-", "@")          # a cell that begins so is reckoned by a spreadsheet


class Table(NamedTuple):
    title: str
    head: tuple[str, ...]
    rows: tuple[tuple[Cell, ...], ...]


def tables(need: Need) -> tuple[Table, ...]:
    """What to buy, which lots to take, what it costs, how it is filled."""
    return purchases(need), lots(need), costs(need), fills(need)


def purchases(need: Need) -> Table:
    names = [cost.made.name for cost in need.costs]
    head = ("material", "needed kg", "from stock kg", "short kg", "packs to buy", "pack kg", "left over kg", "price per kg", "currency", "cost of what goes in", "cost to buy",
            "supplier", "made from", "for")
    return Table("Materials", head, tuple(_purchase(item, names) for item in need.items))


def _purchase(item: Item, names: list[str]) -> tuple[Cell, ...]:
    pack, bought, cost = item.pack, item.purchase, item.cost
    price, paid = pack.cost(Fraction(1)) if pack else None, bought.cost if bought else None
    return (item.name, UNKNOWN if item.open and not item.needed else float(item.needed), float(item.needed - item.short), float(item.short), bought.count if bought else None,
            float(pack.size) if pack else None, float(item.left_over) if bought else None, price.rounded(4) if price else None, price.currency if price else None,
            cost.rounded() if cost else None, paid.rounded() if paid else None, item.supplier, item.made_from, "; ".join(names[at] for at in item.products))


def lots(need: Need) -> Table:
    head = ("product", "material", "lot", "take kg", "stands for kg", "expires", "assay %")
    return Table("Lots", head, tuple((need.costs[take.demand.product].made.name, take.demand.material.name, take.lot.lot, float(take.amount), float(take.stands_for),
                                      take.lot.expires.isoformat() if take.lot.expires else "", _percent(take.lot)) for take in _each_lot(need.takes)))


def _each_lot(takes: tuple[Take, ...]) -> list[Take]:
    """A dose and a corrector of one product out of the same lot in one row."""
    found: dict[tuple, Take] = {}
    for take in takes:
        known = found.get(key := (take.demand.product, take.demand.key, take.lot))
        found[key] = take if known is None else known._replace(amount=known.amount + take.amount, stands_for=known.stands_for + take.stands_for)
    return list(found.values())


def _percent(lot) -> Cell:
    return float(lot.assay * 100) if lot.assay is not None and lot.assay_kind in ("share", "volume share") else ""


def costs(need: Need) -> Table:
    head = ("product", "batches", "batch kg", "currency", "materials of a batch", "materials of a pack", "without a price")
    rows = []
    for cost in need.costs:
        each = {money.currency: money.rounded(4) for money in cost.unit}
        for money in cost.batch or (None,):
            rows.append((cost.made.name, cost.made.batches, float(cost.made.plan.mass), money.currency if money else None, money.rounded() if money else None,
                         each.get(money.currency) if money else None, len(cost.without)))
    return Table("Cost", head, tuple(rows))


def fills(need: Need) -> Table:
    head = ("product", "pack", "unit", "declared", "fill to", "weighs g from", "to", "may lack", "T1", "T2", "packs of a batch", "full cases", "packs beside")
    return Table("Fill", head, tuple(_fill(cost.made.name, cost.fill) for cost in need.costs if cost.fill is not None))


def _fill(name: str, fill) -> tuple[Cell, ...]:
    weighs, limits, cases = fill.weighs or (None, None), fill.limits or (None, None), fill.cases or (None, None)
    return (name, fill.pack, fill.unit, *map(_number, (fill.declared, fill.target, *weighs, fill.error, *limits)), fill.units, *cases)


def _number(value: Fraction | None) -> float | None:
    return float(value) if value is not None else None


# ---- written out


def to_csv(table: Table) -> str:
    """One table. What a spreadsheet would take for a formula gets a quote before it."""
    out = StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(table.head)
    writer.writerows([_plain(cell) for cell in row] for row in table.rows)
    return out.getvalue()


def _plain(cell: Cell) -> Cell:
    if cell is None:
        return UNKNOWN
    return "'" + cell if isinstance(cell, str) and cell.startswith(FORMULA) else cell


def to_xlsx(made: tuple[Table, ...]) -> bytes:
    """A workbook with one sheet a table."""
    from openpyxl import Workbook
    book = Workbook()
    book.remove(book.active)
    for table in made:
        page = book.create_sheet(table.title)
        for at, row in enumerate((table.head, *table.rows), 1):
            for column, cell in enumerate(row, 1):
                _write(page.cell(at, column), cell)
        page.freeze_panes = "A2"
    out = BytesIO()
    book.save(out)
    return out.getvalue()


def _write(place, cell: Cell) -> None:
    if isinstance(cell, str) or cell is None:
        place.value = "".join(one for one in cell if one.isprintable()) if cell is not None else UNKNOWN
        place.data_type = "s" if place.value else "n"       # never a formula, whatever it begins with
    else:
        place.value = cell
