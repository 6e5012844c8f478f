"""The weighings and the steps as tables."""

import csv
from decimal import Decimal
from io import BytesIO, StringIO

import openpyxl

from procsheet.labels.record import entries
from procsheet.labels.table import STEPS, WEIGHINGS, tables
from procsheet.need.table import to_csv, to_xlsx
from procsheet.sheet.lay_out import lay_out
from procsheet.sheet.model import Box, Branch, Gate, Lane, Lanes, Making, PortionRow, Portions, Run, Stage, Step
from tests.labels.made import recipe
from tests.sources import source

CREAM = recipe("harbour-hand-cream")
EMPTY = ("lot", "actual", "weighed by", "checked by")


def rows(table) -> list[dict]:
    return [dict(zip(table.head, row, strict=True)) for row in table.rows]


@source("by hand", "harbour-hand-cream at 150 kg: 5 % is 7.5 kg, within 0.5 %; 0.10 % pure at 38 % is 394.7368... g; water made up is about 300 g")
def test_weighings():
    """Each weighing line has its exact amount, its target with the digits of the balance, its range, and room for what was weighed."""
    found = {(one["code"], one["use"]): one for one in rows(tables(CREAM, "H26-0412")[0])}
    wax = found["B1", ""]
    assert (wax["exact"], wax["target"], wax["least"], wax["most"], wax["unit"], wax["balance"]) == (7.5, Decimal("7.500"), Decimal("7.463"), Decimal("7.537"), "kg", "L15")
    assert (wax["step"], wax["phase"], wax["into"], wax["INCI"], wax["containers"]) == (8, "Phase B", "SIDE", "Cetearyl Alcohol", 1)
    assert found["A4", ""]["exact"] == 394.736842 and str(found["A4", ""]["target"]) == "394.74"
    water = found["A1", "make-up"]
    assert (water["target is"], water["target"], water["least"], water["most"]) == ("about", 300, "", "")
    assert all(one[name] == "" for one in found.values() for name in EMPTY) and {one["batch"] for one in found.values()} == {"H26-0412"}


@source("by hand", "the same sheet, laid out: its steps, sentences and boxes")
def test_steps_are_those_of_the_sheet():
    """Every printed step is there once with its sentence, and every box of it has a row with its limit."""
    found = rows(tables(CREAM)[1])
    told = {one["step"]: one for one in found if one["sentence"] and one["step"] != ""}
    printed = [one for one in entries(lay_out(CREAM).making) if one.number]
    assert list(told) == [int(one.number) for one in printed] == list(range(1, 24))
    assert told[7]["sentence"] == "Heat MAIN to 75–80 °C." and told[7]["vessel"] == "MAIN" and "jacket 105 °C" in told[7]["set-points"]
    end = next(one for one in found if one["step"] == 7 and one["to fill in"] == "end °C")
    assert (end["limit"], end["entry"], end["sentence"]) == ("75–80", "", "")
    assert sum(one["to fill in"] != "" for one in found if one["step"] == 7) == len(next(one for one in printed if one.number == "7").boxes)


@source("by hand", "a making page with all that is rare")
def test_entries_of_what_is_rare():
    """Branches say on what they depend, rounds and portions are boxes, lanes end with their gate."""
    step = Step("3", ("solid",), "MAIN", (Run("Mix "), Run("MAIN", "vessel"), Run(" for "), Run("min", "blank"), Run(".")), portions=Portions(("before", "portion 1"), (PortionRow("time", ("none", "")),)))
    branch = Branch((Run("Repeat until clear:"),), (step,), rounds=2, end=(Run("Go on with step 4."),))
    lanes = Lanes((Lane("solid", "MAIN", note="at the same time", parts=(step._replace(number="5"),)),), Gate("When step 5 is done:", (Run("step 6."),), (Box("done by"),)))
    found = list(entries(Making((Stage("Stage 1", "Mix", (branch, lanes)),), (Box("ended, time"),))))
    assert [(one.number, one.when, one.sentence) for one in found] == [
        ("", "", "Repeat until clear:"), ("3", "Repeat until clear", "Mix MAIN for ____ min."), ("", "Repeat until clear", "Go on with step 4."),
        ("5", "at the same time", "Mix MAIN for ____ min."), ("", "", "When step 5 is done: step 6."), ("", "", "At the end.")]
    assert [len(one.boxes) for one in found] == [2, 2, 0, 2, 1, 1] and found[1].boxes[0] == Box("before: time", filled="none")


@source("by hand", "what a spreadsheet must find")
def test_a_workbook():
    """Numbers are numbers with their unit beside them, the head stays in sight, what is filled in is empty, no figure has lost its blank."""
    book = openpyxl.load_workbook(BytesIO(to_xlsx(tables(CREAM))))
    assert book.sheetnames == ["Weighings", "Steps"] and {page.freeze_panes for page in book} == {"A2"}
    weighings = [dict(zip(WEIGHINGS, row)) for row in book["Weighings"].iter_rows(min_row=2, values_only=True)]
    assert all(isinstance(one[name], (int, float)) for one in weighings for name in ("line", "step", "exact", "target", "containers"))
    assert all(one[name] is None for one in weighings for name in EMPTY)
    steps = [dict(zip(STEPS, row)) for row in book["Steps"].iter_rows(min_row=2, values_only=True)]
    assert steps[0]["limit"] == "117.8 kg" and steps[0]["step"] == 1


@source("by hand", "a comma separated file, read by another program's rules")
def test_comma_separated():
    """The CSV has one row a line and keeps the digits of the balance."""
    found = list(csv.DictReader(StringIO(to_csv(tables(CREAM)[0]))))
    assert len(found) == len(CREAM.batch.plan.lines) and found[8]["target"] == "9.000" and found[8]["lot"] == ""
