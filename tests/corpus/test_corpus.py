"""Published methods, written in the language: each earns what its own reading says is wrong with it, and no other stop.

What each should earn stands in expected.csv; it was taken from the readings before the rules were run.
"""

import csv
from pathlib import Path

import pytest

from procsheet.findings import LEVELS
from procsheet.pipeline import compile_method
from procsheet.source import source as text
from tests.sources import source

HERE = Path(__file__).parent
FILES = {path.stem: path for folder in (HERE, HERE.parent / "published") for path in sorted(folder.glob("*.method"))}
EXPECTED = list(csv.DictReader((HERE / "expected.csv").open(encoding="utf-8")))


def found(name: str):
    file = FILES[name]
    compiled = compile_method(text(file.name, file.read_text(encoding="utf-8")), file.parent)
    return [one for finding in compiled.findings for one in (finding, *finding.folded)]


@source("published", "the reading of each published method: what is right, risky or broken in it as it stands")
@pytest.mark.parametrize("name", FILES)
def test_no_other_stop(name):
    """A published method earns no stop but those its reading names."""
    due = {row["finding"] for row in EXPECTED if row["file"] == name and row["level"] == "STOP"}
    assert {finding.name for finding in found(name) if finding.level == "STOP"} <= due


@source("published", "the reading of each published method: what is right, risky or broken in it as it stands")
@pytest.mark.parametrize("row", [row for row in EXPECTED if row["due"] == "must"], ids=lambda row: f"{row['file']}-{row['finding']}")
def test_what_is_due_is_found(row):
    """What its reading calls wrong is found at that level."""
    assert row["level"] in {finding.level for finding in found(row["file"]) if finding.name == row["finding"]}


@source("by hand", "the table and the folders name the same methods")
def test_the_table_is_about_methods_that_are_there():
    """Every row is about a method of the corpus, with a level."""
    assert {row["file"] for row in EXPECTED} <= set(FILES)
    assert {row["level"] for row in EXPECTED} <= set(LEVELS)
