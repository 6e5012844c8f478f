"""What texts of good practice ask of a master instruction and of a batch record, and whether it stands on a sheet.

The elements and their clauses are the rows of `clauses.csv`. `known` tells how a clause is known: read in the text itself or a copy of
it, told second hand by another page, or from memory. What a clause says is told in the words of this house.
"""

import csv
from collections.abc import Callable
from functools import cache
from pathlib import Path
from typing import NamedTuple

from procsheet.sheet.model import Box, Sheet

KNOWN = {"read": "", "second hand": "second hand", "memory": "from memory"}
PARTS = {"master": "Master instruction", "record": "Batch record"}
SECTIONS = {"head": "every page", "front": "front page", "before": "before starting", "weighing": "weighing list", "making": "making",
            "checks": "checks and limits", "deviations": "deviations"}
FILLED, BLANK, MISSING = "filled", "a blank to fill in", "not there"

Found = tuple[str | Box, ...]           # as it is printed; a Box and '' are written in by hand


class Clause(NamedTuple):
    standard: str                       # '21 CFR'
    number: str                         # '211.188(b)(7)'
    says: str
    known: str                          # one of KNOWN


class Place(NamedTuple):
    """Where a part of an element stands: `look` finds it in the section of the sheet; or why no sheet bears it."""

    what: str                           # 'batch size'
    section: str = ""                   # one of SECTIONS
    look: Callable[..., Found] = lambda section: ()
    kept: str = ""                      # 'kept by the quality system'

    def found(self, sheet: Sheet) -> Found:
        """Nothing where the sheet lacks the section."""
        section = getattr(sheet, self.section) if self.section else None
        return tuple(self.look(section)) if section is not None else ()

    def standing(self, sheet: Sheet) -> str:
        """FILLED, BLANK, MISSING, or why no sheet bears it."""
        found = self.found(sheet)
        return self.kept or (MISSING if not found else BLANK if any(map(by_hand, found)) else FILLED)


class Element(NamedTuple):
    part: str                           # one of PARTS
    name: str
    clauses: tuple[Clause, ...]


def by_hand(one: str | Box) -> bool:
    return isinstance(one, Box) or not one


@cache
def elements() -> tuple[Element, ...]:
    """All elements in the order of the table: of the master, then of the record."""
    clauses: dict[tuple[str, str], list[Clause]] = {}
    with Path(__file__).with_name("clauses.csv").open(encoding="utf-8", newline="") as file:
        for part, name, *clause in list(csv.reader(file))[1:]:
            clauses.setdefault((part, name), []).append(Clause(*clause))
    return tuple(Element(part, name, tuple(some)) for (part, name), some in clauses.items())
