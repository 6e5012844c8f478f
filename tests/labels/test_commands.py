"""`procsheet labels` and `procsheet weighings`, as the weighing room uses them."""

import subprocess
import sys

import pytest

from procsheet.cli import main
from tests.made import RECIPES
from tests.sources import source

CREAM, MISTAKES = str(RECIPES / "harbour-hand-cream.method"), str(RECIPES / "five-mistakes.method")


@pytest.fixture
def desk(tmp_path, monkeypatch):
    """An empty folder to work in."""
    monkeypatch.chdir(tmp_path)
    return tmp_path


@source("by hand", "exit codes as --help states them; a STOP or a mistake in the command leaves the folder as it was")
@pytest.mark.parametrize("command", ["labels", "weighings"])
@pytest.mark.parametrize("arguments, code", [([MISTAKES], 1), (["not-there.method"], 2), ([CREAM, "-o", "out.doc"], 2), ([CREAM, "-o", "nowhere/out.csv"], 2), ([CREAM, "--batch", "twelve"], 2)])
def test_nothing_is_written(command, arguments, code, desk, capsys):
    """What cannot be made is not begun."""
    assert main([command, *arguments]) == code
    assert list(desk.iterdir()) == [] and "Traceback" not in capsys.readouterr().err


@source("by hand", "13 weighing lines in one container each")
def test_labels(desk, capsys):
    """Labels are written as HTML, to a file or to standard output, with the batch number that was given."""
    assert main(["labels", CREAM, "--number", "H26-0412", "-o", "tags.html"]) == 0
    assert "13 labels" in capsys.readouterr().out
    written = (desk / "tags.html").read_text(encoding="utf-8")
    assert main(["labels", CREAM, "--number", "H26-0412", "-o", "-"]) == 0
    assert capsys.readouterr().out == written and written.count("H26-0412") >= 13


@source("by hand", "a batch number longer than a code may hold")
def test_too_long_a_number(desk, capsys):
    """A batch number that no code can hold is refused in one line."""
    assert main(["labels", CREAM, "--number", "x" * 300, "-o", "tags.html"]) == 2
    assert "shorter batch number" in capsys.readouterr().err and list(desk.iterdir()) == []


@source("by hand", "a machine without the library that draws a PDF")
def test_without_a_printer(desk, capsys, monkeypatch):
    """Where no PDF can be drawn the labels come as HTML, and it is said."""
    monkeypatch.setitem(sys.modules, "weasyprint", None)
    assert main(["labels", CREAM]) == 0
    assert [path.name for path in desk.iterdir()] == ["harbour-hand-cream-labels.html"]
    assert "HTML instead" in capsys.readouterr().err


@source("by hand", "one workbook, or two files")
def test_weighings(desk, capsys):
    """A workbook holds both tables; as CSV the steps stand in a second file beside it."""
    assert main(["weighings", CREAM]) == 0
    assert main(["weighings", CREAM, "-o", "list.csv"]) == 0
    assert sorted(path.name for path in desk.iterdir()) == ["harbour-hand-cream-weighings.xlsx", "list-steps.csv", "list.csv"]
    assert capsys.readouterr().out.split() == ["harbour-hand-cream-weighings.xlsx", "list.csv", "list-steps.csv"]


@source("by hand", "what each command must not load")
@pytest.mark.parametrize("output, unwanted", [("list.csv", "openpyxl segno weasyprint"), ("list.xlsx", "segno weasyprint")])
def test_starts_light(output, unwanted, desk):
    """A library is loaded only where what it is for is written."""
    code = f"import sys; from procsheet.cli import main; main(['weighings', {CREAM!r}, '-o', {output!r}]); sys.exit(bool(set({unwanted.split()!r}) & set(sys.modules)))"
    assert subprocess.run([sys.executable, "-c", code], capture_output=True, check=False).returncode == 0
