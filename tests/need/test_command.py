"""`procsheet need`, as purchasing uses it: tables, files, exit codes."""

import csv
import json
import subprocess
import sys
from io import BytesIO

import openpyxl
import pytest

from procsheet.cli import main
from procsheet.need.lots import COLUMNS
from procsheet.need.need import Made, reckon
from procsheet.need.table import Table, tables, to_csv, to_xlsx
from procsheet.need.told import digits, lined_up
from tests.made import RECIPES
from tests.need.made import DAY, needed, plan
from tests.sources import source

CREAM, BALM = str(RECIPES / "harbour-hand-cream.method"), str(RECIPES / "breakwater-balm.method")
FILLER, STOCK = str(RECIPES / "plants" / "filler.plant"), str(RECIPES / "stock.csv")
ON = ("--on", "2026-03-02")
TRAP = Table("Trap", ("name", "kg"), (('=HYPERLINK("x")', 1.5), ("+1", None), ("plain\x07", 2)))


@source("by hand", "exit codes: 0 without a stock or with enough, 1 where something is short or a method is stopped, 2 where a file or word cannot be used")
@pytest.mark.parametrize("arguments, code", [
    ([CREAM], 0), ([CREAM, BALM], 0), ([CREAM, "--batch", "1500 kg", "--plant", FILLER], 0), ([CREAM, "--units", "2000"], 0), ([CREAM, "--stock", STOCK, *ON], 1),
    ([str(RECIPES / "five-mistakes.method")], 1), (["nothing.method"], 2), ([CREAM, "--stock", "nothing.csv"], 2), ([CREAM, "--on", "tomorrow"], 2), ([CREAM, "-o", "list.ods"], 2),
    ([CREAM, "--batch", "twelve"], 2), ([CREAM, "--sample", "nothing.txt"], 2), ([CREAM, "--batch", "2 kg", "--plant", FILLER], 0)])
def test_exit_codes(arguments, code, capsys):
    """Each ends with its exit code and never with a traceback."""
    assert main(["need", *arguments]) == code
    assert "Traceback" not in capsys.readouterr().err


@source("by hand", "a stock that has all of it")
def test_enough_is_no_shortage(tmp_path, capsys):
    """With enough of everything the exit code is 0, and nothing is to be paid."""
    assert main(["need", BALM, "--json"]) == 0
    names = [one["material"] for one in json.loads(capsys.readouterr().out)["materials"]]
    stock = tmp_path / "stock.csv"
    stock.write_text("\n".join([",".join(COLUMNS), *(f'"{name}",L{at},99,kg,,,released' for at, name in enumerate(names))]), encoding="utf-8")
    assert main(["need", BALM, "--stock", str(stock), "--json"]) == 0
    told = json.loads(capsys.readouterr().out)
    assert all(one["short kg"] == 0 for one in told["materials"]) and len(told["lots"]) == len(names) and told["findings"] == []


@source("by hand", "three batches of 500 kg, since M600 holds 600 L; 0.3 % of 1500 kg are 4.5 kg, in 5 kg packs one, at 38 EUR")
def test_an_order_is_split_and_summed(capsys):
    """An order larger than the plant's kettle is bought for all its batches, and costed for one."""
    assert main(["need", CREAM, "--batch", "1500 kg", "--plant", FILLER, "--json"]) == 0
    told = json.loads(capsys.readouterr().out)
    perfume = next(one for one in told["materials"] if one["material"] == "fragrance compound 118")
    assert (perfume["needed kg"], perfume["packs to buy"], perfume["left over kg"], perfume["cost to buy"]) == (4.5, 1, 0.5, 190)
    assert [(one["batches"], one["batch kg"]) for one in told["cost"]] == [(3, 500)]


@source("independent", "each method's list alone, added up")
def test_several_methods_make_one_list(capsys):
    """A material of two methods stands in one row with the sum of both."""
    def kilograms(*files):
        assert main(["need", *files, "--json"]) == 0
        return {one["material"]: one["needed kg"] for one in json.loads(capsys.readouterr().out)["materials"]}
    lotion = str(RECIPES / "lee-shore-night-lotion.method")
    first, other, both = kilograms(CREAM), kilograms(lotion), kilograms(CREAM, lotion)
    assert set(first) & set(other) and both == {name: pytest.approx(first.get(name, 0) + other.get(name, 0)) for name in {**first, **other}}


@source("by hand", "what a reader must see: the stock's dead lots, the cost's limits, the fill")
def test_what_is_read_in_a_terminal(capsys):
    """The list says that cost is material only, what is not reckoned, which lots are kept out, and how packs are filled."""
    main(["need", CREAM, "--batch", "150 kg", "--plant", FILLER, "--stock", STOCK, "--on", "2026-11-25"])
    out = capsys.readouterr().out
    for words in ("materials alone", "without a price", "lot-expired", "lot-not-released", "first expired first out", "T1 70.5 mL", "none below T2 66 mL", "pack-density", "cases"):
        assert words in out


@source("by hand", "70 kg of water cost 7.00 EUR; a price that is not known is a question mark")
def test_csv(tmp_path, capsys):
    """The materials as CSV, one row each, unknown figures as `?`."""
    listed = tables(needed(tmp_path, rows="phase A: all\n    to 100 %  purified water\n    30 %  plain oil"))[0]
    read = list(csv.DictReader(to_csv(listed).splitlines()))
    assert [(one["material"], float(one["needed kg"]), one["cost of what goes in"]) for one in read] == [("purified water", 70, "7.00"), ("plain oil", 30, "?")]
    assert to_csv(TRAP).splitlines()[1:3] == ["\"'=HYPERLINK(\"\"x\"\")\",1.5", "'+1,?"]


@source("by hand", "numbers as numbers, words as words, also those that begin like a formula")
def test_xlsx(tmp_path):
    """The workbook has every table; numbers are numbers, and no cell is a formula."""
    made = tables(needed(tmp_path))
    book = openpyxl.load_workbook(BytesIO(to_xlsx((*made, TRAP))))
    assert book.sheetnames == ["Materials", "Lots", "Cost", "Fill", "Trap"]
    for table in made:
        for row, written in zip(table.rows, book[table.title].iter_rows(min_row=2), strict=True):
            shown = ["?" if value is None else value if isinstance(value, str) and value else None if value == "" else pytest.approx(float(value)) for value in row]
            assert [cell.value for cell in written] == shown and "f" not in {cell.data_type for cell in written}
    assert [cell.data_type for cell in book["Trap"]["A"][1:]] == ["s", "s", "s"] and book["Trap"]["B2"].value == 1.5
    assert book["Materials"]["B2"].value == 70 and book["Materials"]["D2"].value == 70


@source("by hand", "whole or not at all")
@pytest.mark.parametrize("ending", ["csv", "xlsx"])
def test_a_file_is_whole_or_not_there(ending, tmp_path, monkeypatch, capsys):
    """What cannot be written leaves the old file, and nothing beside it."""
    file = tmp_path / f"list.{ending}"
    assert main(["need", CREAM, "-o", str(file)]) == 0
    before = file.read_bytes()
    monkeypatch.setattr("os.replace", lambda *_: (_ for _ in ()).throw(OSError(28, "no space left")))
    assert main(["need", BALM, "-o", str(file)]) == 2
    assert file.read_bytes() == before and [one.name for one in tmp_path.iterdir()] == [file.name]


@source("by hand", "twenty tubes of 75 mL; T1 70.5 mL, T2 66 mL")
@pytest.mark.parametrize("content, code", [(["75.2", "74.9"] * 10, 0), (["75.2"] * 19 + ["65.9"], 1), (["74", "74.1"] * 10, 1), (["75.2"] * 19 + ["much"], 2), (["75.2"] * 7, 2)])
def test_a_sample(content, code, tmp_path, capsys):
    """A sample that holds too little is exit code 1; one that cannot be judged 2."""
    (tmp_path / "sample.txt").write_text("\n".join(content), encoding="utf-8")
    assert main(["need", CREAM, "--batch", "150 kg", "--plant", FILLER, "--sample", str(tmp_path / "sample.txt")]) == code


@source("by hand", "the same method twice")
def test_products_of_one_name(capsys):
    """Two products of one name are told apart."""
    assert main(["need", CREAM, CREAM, "--json"]) == 0
    assert [one["product"] for one in json.loads(capsys.readouterr().out)["cost"]] == ["Harbour Hand Cream", "Harbour Hand Cream, 2"]


@source("by hand", "the workbook's library is for workbooks")
def test_openpyxl_is_loaded_for_workbooks_only():
    """Without a workbook to write, openpyxl is not imported."""
    code = f"import sys; from procsheet.cli import main; main(['need', {CREAM!r}]); print('LOADED', 'openpyxl' in sys.modules)"
    assert "LOADED False" in subprocess.run([sys.executable, "-c", code], capture_output=True, text=True).stdout


@source("by hand", "six digits, no power of ten; columns below each other")
def test_figures_and_columns(tmp_path):
    """Figures are read without powers of ten, and columns line up."""
    assert [digits(one) for one in (0.0, 0.0000026, 70.5, 1234567.8, None, 3)] == ["0", "0.0000026", "70.5", "1234568", "?", "3"]
    assert lined_up([("a", "bb"), ("cc", "d")]) == ["  a   bb", "  cc   d"]
    two = reckon((Made("A", plan(tmp_path)), Made("B", plan(tmp_path), 2)), (), DAY)
    assert {row[0]: row[-1] for row in tables(two)[0].rows}["widget oil"] == "A; B"


@source("by hand", "every finding has its page")
@pytest.mark.parametrize("name", ["stock-row", "lot-expired", "lot-not-released", "lot-assay", "lot-strength", "pack-density"])
def test_findings_have_pages(name, capsys):
    """`explain` knows what `need` finds."""
    assert main(["explain", name]) == 0 and "Why it matters" in capsys.readouterr().out
