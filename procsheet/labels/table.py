"""The weighings and the steps as tables: what is known stands there as a number or a word, what a hand fills in is left empty."""

import re
from collections.abc import Iterator
from decimal import Decimal

from procsheet import units
from procsheet.labels.record import Entry, entries
from procsheet.labels.weighed import Weighed, figure, weighed
from procsheet.need.table import Cell, Table
from procsheet.sheet.figures import BLANK, THIN
from procsheet.sheet.lay_out import lay_out
from procsheet.sheet.model import Head
from procsheet.sheet.papers import Papers
from procsheet.sheet.work import work

BLANKS = re.compile(f"[{BLANK}{THIN}]")
PAPER = ("product code", "revision", "batch", "content")        # on every row: a row that is cut out still says where it belongs
WEIGHINGS = ("line", "code", "phase", "step", "into", "material", "grade", "INCI", "use", "exact", "target is", "target", "least", "most", "unit", "balance", "containers", "container",
             "hazard", "mind", "lot", "actual", "weighed by", "checked by", *PAPER)
STEPS = ("step", "when", "stage", "vessel", "two people", "sentence", "set-points", "mind", "to fill in", "limit", "second person", "entry", *PAPER)


def tables(compiled, number: str = "") -> tuple[Table, Table]:
    """The weighing list and the record of the steps. number: of the batch. Raises ValueError where the method could not be followed to its end."""
    sheet = lay_out(compiled, Papers(number=number, sections=("weighing", "making")))
    weighings = [_weighing(one) for one in weighed(sheet, work(compiled))]
    steps = [row for one in entries(sheet.making) for row in _step(one)]
    return Table("Weighings", WEIGHINGS, _filed(weighings, sheet.head)), Table("Steps", STEPS, _filed(steps, sheet.head))


def _filed(rows: list[tuple[Cell, ...]], head: Head) -> tuple[tuple[Cell, ...], ...]:
    """With what they belong to, and in plain blanks: a workbook drops those that keep a figure with its unit."""
    return tuple(tuple(BLANKS.sub(" ", cell) if isinstance(cell, str) else cell for cell in (*row, head.code, head.revision, head.batch, head.digest)) for row in rows)


def _weighing(one: Weighed) -> tuple[Cell, ...]:
    line, row = one.line, one.printed
    return (line.number, line.row.code, one.phase, _number(one.goes.removeprefix("steps ").removeprefix("step ")), one.vessel, row.material, one.grade, one.inci, line.use, _exact(one),
            row.before, *map(_filled, (row.target, row.low, row.high)), line.unit, line.balance, line.containers, line.container, ", ".join(one.hazards), row.note, "", "", "", "")


def _exact(one: Weighed) -> Cell:
    """Before rounding, to nine digits; empty for an open dose."""
    line = one.line
    return float(f"{float(line.exact / units.lookup(line.unit).factor):.9g}") if line.exact else ""


def _filled(printed: str) -> Decimal | str:
    known = figure(printed)
    return "" if known is None else known


def _number(text: str) -> Cell:
    return int(text) if text.isdecimal() else text


def _step(one: Entry) -> Iterator[tuple[Cell, ...]]:
    """A row a box; the sentence and what goes with it stand in the first."""
    for at, box in enumerate(one.boxes or (None,)):
        told = (one.sentence, one.settings, one.mind) if at == 0 else ("", "", "")
        boxed = (box.caption, box.limit, "yes" if box.second else "", box.filled) if box else ("", "", "", "")
        yield (_number(one.number), one.when, one.stage, one.vessel, "yes" if one.second else "", *told, *boxed)
