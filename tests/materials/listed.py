"""The list of disagreements: what is found has to be what is listed, no more and no less."""

import csv
from pathlib import Path
from typing import NamedTuple

HERE = Path(__file__).parent


class Disagreement(NamedTuple):
    """Where a data set says otherwise, as it is written in the list."""

    material: str
    property: str
    ours: str
    theirs: str


def rows(name: str) -> list[dict[str, str]]:
    with open(HERE / name, encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def listed(*properties: str) -> set[Disagreement]:
    """The rows of these properties."""
    return {Disagreement(*(row[field] for field in Disagreement._fields)) for row in rows("disagreements.csv") if row["property"] in properties}
