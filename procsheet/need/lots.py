"""The stock: a table of lots, read row by row. A row that is not clear is told, and nothing is taken from it."""

import csv
import re
from collections import Counter
from datetime import date
from fractions import Fraction
from io import StringIO
from typing import NamedTuple

from procsheet import units
from procsheet.findings import Finding, Label
from procsheet.model.material import fold
from procsheet.source import Source, Span

COLUMNS = ("material", "lot", "amount", "unit", "expires", "assay", "status")
USABLE, KEPT = ("released",), ("blocked", "quarantine", "rejected")
NUMBER = re.compile(r"[0-9]+(?:\.[0-9]+)?")
ASSAY = re.compile(rf"({NUMBER.pattern})\s*([^0-9.].*)")
WHY = "A lot that is not clear must not go into a batch: nothing is taken from this row."


class Lot(NamedTuple):
    """amount: kg, or m³ where `by_volume`; assay: its strength in SI, None where none is written; expires: None where it does not."""

    material: str
    lot: str
    amount: Fraction
    by_volume: bool
    expires: date | None
    assay: Fraction | None
    assay_kind: str
    status: str
    at: Span

    def is_good(self, on: date) -> bool:
        """Whether it is released, and not past its last day."""
        return self.status in USABLE and (self.expires is None or self.expires >= on)


def read_stock(text: Source) -> tuple[tuple[Lot, ...], list[Finding]]:
    """Every lot of a table in CSV, and what is wrong with it. Lines end as they do, columns stand in any order, more of them do no harm."""
    semicolons = ";" in (text.lines[0] if text.lines else "")
    reader = csv.reader(StringIO(text.text), delimiter=";" if semicolons else ",", strict=True)
    try:
        head = [name.strip().lower() for name in next(reader, [])]
        missing = [name for name in COLUMNS if head.count(name) != 1]
        if missing:
            return (), [_wrong(text, 1, f"the stock has no column, or two, called {', '.join(missing)}", f"Let its first line be: {','.join(COLUMNS)}")]
        return _rows(text, reader, head)
    except csv.Error as problem:
        return (), [_wrong(text, reader.line_num, f"this line is no row of a table ({problem})", "Close its quotes, or save the table as CSV again.")]


def _rows(text: Source, reader, head: list[str]) -> tuple[tuple[Lot, ...], list[Finding]]:
    lots, findings, line = [], [], 2
    for cells in reader:
        if any(cell.strip() for cell in cells):
            made = _lot(text, line, cells, head)
            (lots if isinstance(made, Lot) else findings).append(made)
        line = reader.line_num + 1
    times = Counter(map(_named, lots))
    findings += [_wrong(text, lot.at.line, f"lot {lot.lot} of {lot.material} stands in {times[_named(lot)]} rows", "Write it in one row, with all there is of it.")
                 for lot in lots if times[_named(lot)] > 1]
    return tuple(lot for lot in lots if times[_named(lot)] == 1), findings


def _named(lot: Lot) -> tuple[str, str]:
    return fold(lot.material), lot.lot.lower()


def _lot(text: Source, line: int, cells: list[str], head: list[str]) -> Lot | Finding:
    if len(cells) != len(head):
        return _wrong(text, line, f"this row has {len(cells)} cells; the first line names {len(head)} columns", "Put a name with a comma in it in double quotes.")
    row = {name: cell.strip() for name, cell in zip(head, cells)}
    for check, fix in CHECKS.items():
        if wrong := check(row):
            return _wrong(text, line, wrong, fix)
    assay = ASSAY.fullmatch(row["assay"])
    return Lot(row["material"], row["lot"], units.to_si(row["amount"], row["unit"]), units.dimension(row["unit"]) == "volume", _day(row["expires"]),
               units.to_si(assay[1], assay[2]) if assay else None, units.dimension(assay[2]) if assay else "", row["status"].lower(), _span(text, line))


def _nameless(row: dict[str, str]) -> str:
    return f"this row names no {'material' if not row['material'] else 'lot'}" if not row["material"] or not row["lot"] else ""


def _amount(row: dict[str, str]) -> str:
    return "" if NUMBER.fullmatch(row["amount"]) else f"`{row['amount']}` is no amount"


def _unit(row: dict[str, str]) -> str:
    return "" if _measures(row["unit"]) in ("mass", "volume") else f"`{row['unit']}` is no unit of weight or volume"


def _measures(unit: str) -> str:
    return units.TABLE[unit].dimension if unit in units.TABLE else ""


def _expires(row: dict[str, str]) -> str:
    try:
        _day(row["expires"])
    except ValueError:
        return f"`{row['expires']}` is no day"
    return ""


def _assay(row: dict[str, str]) -> str:
    found = ASSAY.fullmatch(row["assay"])
    good = found and _measures(found[2]) in ("share", "volume share", "density", "activity") and Fraction(found[1]) > 0
    return "" if not row["assay"] or good else f"`{row['assay']}` is no strength"


def _status(row: dict[str, str]) -> str:
    return "" if row["status"].lower() in (*USABLE, *KEPT) else f"`{row['status']}` is no status"


CHECKS = {_nameless: "Write the material by the name the method calls it, and the lot's number.", _amount: "Write a plain number with a point, such as 12.5.",
          _unit: "Write kg, g, L or mL.", _expires: "Write it as 2027-03-31, or leave it empty where the lot does not expire.",
          _assay: "Write it with its unit, such as 38.4 %, or leave it empty.", _status: f"Write one of: {', '.join((*USABLE, *KEPT))}."}


def _day(text: str) -> date | None:
    if text and not re.fullmatch(r"\d{4}-\d\d-\d\d", text):
        raise ValueError(text)
    return date.fromisoformat(text) if text else None


def _span(text: Source, line: int) -> Span:
    return Span(text.name, line, 1, len(text.lines[line - 1]) + 1 if line <= len(text.lines) else 2)


def _wrong(text: Source, line: int, title: str, fix: str) -> Finding:
    return Finding("WARN", "stock-row", title, Label(_span(text, line)), why=WHY, fix=fix)
