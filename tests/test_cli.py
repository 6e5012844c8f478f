"""The command line, as a person at a terminal uses it."""

import io
import json
import sys
from pathlib import Path

import pytest

from procsheet.cli import main
from tests.made import HAND_CREAM, RECIPES
from tests.sources import source

CREAM = str(RECIPES / "harbour-hand-cream.method")
MISTAKES = str(RECIPES / "five-mistakes.method")


@pytest.fixture
def desk(tmp_path, monkeypatch) -> Path:
    """An empty folder to work in."""
    monkeypatch.chdir(tmp_path)
    return tmp_path


@source("by hand", "exit codes as --help states them: 0 fine, 1 stopped, 2 unusable")
@pytest.mark.parametrize("arguments, code", [
    (["check", CREAM], 0), (["check", MISTAKES], 1), (["check", CREAM, MISTAKES], 1), (["check", "not-there.method"], 2), (["check", str(RECIPES)], 1),
    (["explain", "flash-limit"], 0), (["explain"], 0), (["explain", "flash-limt"], 2), (["check", CREAM, "--batch", "twelve"], 2),
    (["check", CREAM, "--plant", "no.plant"], 2), (["check", CREAM, "--choose", "nothing"], 2), (["check", CREAM, "--without", "glycerin"], 2),
    (["check", CREAM, "--vessel", "main"], 2), (["check", CREAM, "--units", "0"], 2)])
def test_exit_codes(arguments, code, capsys):
    """Each command ends with the documented exit code and never with a traceback."""
    assert main(arguments) == code
    assert "Traceback" not in capsys.readouterr().err


@source("by hand", "only five-mistakes is refused; at most one signed exception in all")
def test_recipes_pass():
    """Every recipe passes but five-mistakes, with at most one accept in all."""
    accepts = 0
    for path in sorted(RECIPES.glob("*.method")):
        assert main(["check", str(path)]) == (1 if path.stem == "five-mistakes" else 0), path.name
        accepts += path.read_text(encoding="utf-8").count("\naccept ")
    assert accepts <= 1


@source("by hand", "data a machine can read")
def test_json(capsys):
    """--json gives the findings as data, with places and levels."""
    main(["check", MISTAKES, "--json"])
    data = json.loads(capsys.readouterr().out)
    assert data[0]["stops"] is True
    assert all(finding["level"] in ("STOP", "WARN", "NOTE", "OPEN", "CAUTION") and finding["at"]["line"] > 0 for finding in data[0]["findings"])


@source("by hand", "a method from standard input")
def test_standard_input(capsys, monkeypatch, desk):
    """`-` reads the method from standard input."""
    monkeypatch.setattr(sys, "stdin", io.TextIOWrapper(io.BytesIO(HAND_CREAM.encode())))
    assert main(["check", "-"]) == 0
    assert "(standard input)" in capsys.readouterr().out


@source("by hand", "the starter passes, and is not written over")
def test_new_writes_a_method_that_passes(desk, capsys):
    """`new` writes a whole method that passes, and refuses to overwrite it."""
    assert main(["new", "Dune Cream"]) == 0
    assert main(["check", "dune-cream.method"]) == 0
    before = (desk / "dune-cream.method").read_text()
    assert main(["new", "Dune Cream"]) == 2
    assert (desk / "dune-cream.method").read_text() == before


@source("by hand", "a STOP means no sheet")
def test_a_stop_writes_nothing(desk, capsys):
    """A method that is stopped gives no sheet, and leaves the folder as it was."""
    assert main(["sheet", MISTAKES, "-o", "out.html"]) == 1
    assert list(desk.iterdir()) == []


@source("by hand", "HTML by the file's ending, or on standard output")
def test_sheet_as_html(desk, capsys):
    """The sheet is written whole as one HTML file, and no other file appears."""
    assert main(["sheet", CREAM, "--batch", "2 kg", "-o", "out.html", "--number", "H26-0412"]) == 0
    assert [path.name for path in desk.iterdir()] == ["out.html"]
    text = (desk / "out.html").read_text(encoding="utf-8")
    assert text.startswith("<!DOCTYPE html>") and "H26-0412" in text
    capsys.readouterr()
    assert main(["sheet", CREAM, "-o", "-"]) == 0
    assert capsys.readouterr().out.startswith("<!DOCTYPE html>")


@source("by hand", "an open figure blocks a numbered issue, and marks the pages")
def test_a_draft_cannot_be_issued(desk, capsys):
    """A method with an open `?` prints as a draft, and not under an issue number."""
    (desk / "draft.method").write_text(HAND_CREAM.replace("over 3 min with homogeniser", "over ? min with homogeniser"), encoding="utf-8")
    assert main(["sheet", "draft.method", "--issue", "1", "-o", "out.html"]) == 1
    assert not (desk / "out.html").exists()
    assert main(["sheet", "draft.method", "-o", "out.html"]) == 0
    assert "draft" in (desk / "out.html").read_text(encoding="utf-8").lower()


@source("by hand", "bytes that are no text, an empty file, a folder without methods")
@pytest.mark.parametrize("content", [b"", b"\xff\xfe\x00\x01", b"\x00" * 50, "product Ä\n".encode("latin-1")])
def test_odd_files_are_told(content, desk, capsys):
    """A file that is no method is a finding or a message, never a traceback."""
    (desk / "odd.method").write_bytes(content)
    assert main(["check", "odd.method"]) in (1, 2)
    assert "Traceback" not in capsys.readouterr().err


@source("by hand", "colours only on a terminal")
def test_no_colours_in_a_pipe(capsys):
    """Output that is no terminal has no colour codes."""
    main(["check", MISTAKES])
    assert "\033[" not in capsys.readouterr().out


@source("by hand", "a picture in SVG")
def test_graph(desk, capsys):
    """`graph` writes one SVG picture, or the graph as data."""
    assert main(["graph", CREAM, "-o", "flow.svg"]) == 0
    assert (desk / "flow.svg").read_text(encoding="utf-8").startswith("<svg")
    capsys.readouterr()
    assert main(["graph", CREAM, "--json"]) == 0
    assert json.loads(capsys.readouterr().out)["steps"]


@source("by hand", "four blanks a level, names in a column")
def test_format(desk, capsys):
    """`format` lays a file out, leaves a laid-out one alone, and gives a broken one back as it was."""
    rough = "product X\ntype gel\nbasis 1 kg\nphase A: w\n to 100 % water\n   5 %   glycerin\nvessel main\nmethod\ncharge   A into main\nfill main\n"
    (desk / "x.method").write_text(rough, encoding="utf-8")
    assert main(["format", "--check", "x.method"]) == 1
    assert (desk / "x.method").read_text(encoding="utf-8") == rough
    assert main(["format", "x.method"]) == 0
    assert "    5 %       glycerin" in (desk / "x.method").read_text(encoding="utf-8")
    assert main(["format", "--check", "x.method"]) == 0
    (desk / "bad.method").write_text("product X\ngarbage here\n", encoding="utf-8")
    assert main(["format", "bad.method"]) == 1
    assert (desk / "bad.method").read_text(encoding="utf-8") == "product X\ngarbage here\n"


@source("by hand", "the shipped files stand in the layout that is preached")
def test_shipped_files_are_laid_out(capsys):
    """Recipes, plants and the starter stand as `format` would write them."""
    names = [str(path) for pattern in ("*.method", "*.materials", "plants/*.plant") for path in sorted(RECIPES.glob(pattern))]
    assert main(["format", "--check", *names, str(Path(__file__).parents[1] / "procsheet" / "starter.method")]) == 0


@source("by hand", "help is text that is filled in: a per cent sign in it must be doubled")
@pytest.mark.parametrize("command", ["", *sorted(path.stem for path in (Path(__file__).parents[1] / "procsheet" / "commands").glob("[a-z]*.py") if path.stem not in ("common", "confidential"))])
def test_every_command_has_help(command, capsys):
    """`--help` of the whole and of every command prints, and names the exit codes."""
    with pytest.raises(SystemExit) as ended:
        main([*([command] if command else []), "--help"])
    assert ended.value.code == 0 and "exit codes" in capsys.readouterr().out
