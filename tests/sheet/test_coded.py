"""The confidential copy: no hidden name is left to be read, and the key opens it."""

import pytest

from procsheet.cli import main
from procsheet.commands.confidential import readable
from procsheet.sheet.coded import Leak, check, coded, keys, leaks
from procsheet.sheet.text import to_text
from tests.made import RECIPES
from tests.sheet import sheets
from tests.sources import source

NAMES = sorted(path.stem for path in RECIPES.glob("*.method") if path.stem != "five-mistakes")
CREAM = str(RECIPES / "harbour-hand-cream.method")


@source("by hand", "the names, INCI names and registry numbers of the formula")
@pytest.mark.parametrize("name", NAMES)
def test_no_name_is_left_to_be_read(name):
    """Every material but water goes by its code everywhere on the sheet; before, its name stood there."""
    made = sheets.made(name, "", "")
    known, plain = keys(made.method), to_text(sheets.sheet(name, "", ""))
    copy = to_text(coded(sheets.sheet(name, "", ""), known))
    assert leaks(copy, known) == [] and leaks(plain, known)
    assert all(key.code in copy for key in known)
    for row in made.method.rows:
        if not row.material.is_a("water"):
            assert row.name.lower() not in copy.lower()


@source("by hand", "the copy is the sheet but for the names")
@pytest.mark.parametrize("name", NAMES[:3])
def test_amounts_and_hazards_stay(name):
    """As many lines as before, and every figure of a target; words of danger are still there."""
    made = sheets.made(name, "", "")
    plain, copy = to_text(sheets.sheet(name, "", "")), to_text(coded(sheets.sheet(name, "", ""), keys(made.method)))
    assert len(plain.splitlines()) == len(copy.splitlines())
    for word in ("Dust", "Hot", "Undiluted", "Flammable", "Turning"):
        assert plain.count(word) <= copy.count(word) + sum(word.lower() in row.name.lower() for row in made.method.rows)


@source("by hand", "a name that was forgotten")
def test_a_leak_stops_the_copy():
    """Where any hidden name, INCI name or number is still to be read, nothing is written."""
    known = keys(sheets.made("harbour-hand-cream", "", "").method)
    check(["Add RM-01 to MAIN."], known)
    for words in ("Add the Glycerin to MAIN.", "CAS 56-81-5", "xanthan  gum"):
        with pytest.raises(Leak):
            check([words], known)


@source("by hand", "the two files of the command")
def test_the_key_opens_the_copy(tmp_path, capsys):
    """The copy holds no method and no name, in its pages and its properties; with the key it verifies, without it cannot."""
    pytest.importorskip("weasyprint")
    target = tmp_path / "copy.pdf"
    assert main(["sheet", CREAM, "--coded", "-o", str(target)]) == 0
    known = keys(sheets.made("harbour-hand-cream", "", "").method)
    pages = readable(target.read_bytes())
    assert [name for text in pages for name in leaks(text, known)] == [] and any("RM-01" in text for text in pages)
    assert any("lycerin" in text for text in readable((tmp_path / "copy.key.pdf").read_bytes()))
    assert main(["verify", str(target)]) == 2
    assert main(["verify", str(target), "--key", str(tmp_path / "copy.key.pdf")]) == 0
    capsys.readouterr()
    assert main(["sheet", CREAM, "--coded", "-o", "-"]) == 2
