"""What changed between two methods, and what follows from it."""

import json
from pathlib import Path

import pytest

from procsheet.changes.compare import compare, unchanged_revision
from procsheet.cli import main
from procsheet.pipeline import compile_method
from procsheet.source import source as text
from tests.made import RECIPES
from tests.sources import source

CREAM = (RECIPES / "harbour-hand-cream.method").read_text(encoding="utf-8")


def changes(*edits: tuple[str, str], old: str = CREAM):
    new = old
    for before, after in edits:
        assert new.count(before) >= 1, before
        new = new.replace(before, after, 1)
    one, other = (compile_method(text("cream.method", words), RECIPES) for words in (old, new))
    return compare(one, other), other


def said(*edits, section: str) -> list[str]:
    return [one.said.replace("\u00a0", " ") for one in changes(*edits)[0].changes if one.section == section]


@source("by hand", "nothing was changed")
def test_a_method_does_not_differ_from_itself():
    """The same text has no change and needs no new number."""
    found, new = changes()
    assert found.changes == () and unchanged_revision(found, new) is None


@source("by hand", "4 % becomes 6 %: the water gives way by 2")
def test_an_amount_is_told_with_what_gives_way():
    """The row that was changed and the one that closes are both told, the latter as what follows."""
    found = said(("4.00 %", "6.00 %"), section="formula")
    assert any(one.startswith("glycerin: 4 % becomes 6 %") for one in found)
    assert any("purified water" in one and "left to 100 %" in one for one in found)


@source("by hand", "one word of a step was changed, one step taken out, one written anew")
def test_steps_are_told_as_what_they_say():
    """A set-point by the words around it; a step that is new or left out, whole."""
    assert any("`for 15 min` becomes `for 20 min`" in one for one in said(("for 15 min", "for 20 min"), section="method"))
    line = next(one for one in CREAM.splitlines() if one.strip().startswith("compare main"))
    assert any("is left out" in one and "compare main" in one for one in said((line + "\n", ""), section="method"))
    assert any("is new" in one for one in said((line, line + "\n    mix main for 7 min with anchor"), section="method"))


@source("by hand", "a step was put further down")
def test_a_step_that_moved_is_told_as_moved():
    """The same words at another place are one move, not one gone and one come."""
    steps = [one for one in CREAM.splitlines() if one.strip().startswith(("compare main", "sample main"))]
    found = said(("\n".join(steps), "\n".join(reversed(steps))), section="method")
    assert len(found) == 1 and "moves from step" in found[0]


@source("by hand", "perfume below 40 °C becomes below 60 °C while it cools")
def test_what_follows_is_told():
    """Findings that come, and what a material then lives through, stand apart from what was written."""
    edits = (("below 40 °C during cooling, one", "below 60 °C during cooling, one"),)
    assert any("now found" in one and "fragrance" in one for one in said(*edits, section="findings"))
    assert any("comes to" in one for one in said(*edits, section="what it lives through"))
    assert all(one.section not in ("findings", "what it lives through") for one in changes(*edits)[0].content)


@source("by hand", "a limit and the header")
def test_limits_and_header_are_told():
    """A limit by its value, the header by its line."""
    assert any("5.0–5.5 becomes 4.8–5.3" in one for one in said(("    pH 5.0-5.5", "    pH 4.8-5.3"), section="limits"))
    assert any("made for" in one for one in said(('made for "Harbour Soap Company"', 'made for "Another House"'), section="head"))


@source("by hand", "the content changed under the same number, or the number with it")
@pytest.mark.parametrize("edits, stops", [((("4.00 %", "6.00 %"),), True), ((("4.00 %", "6.00 %"), ("revision 3", "revision 4")), False), ((("revision 3", "revision 4"),), False)])
def test_content_under_the_same_revision_stops(edits, stops):
    """Changed content needs a new number; a new number alone is no change of content."""
    found, new = changes(*edits)
    assert (unchanged_revision(found, new) is not None) == stops


@source("by hand", "the command in its three forms")
def test_the_command_tells_writes_and_answers(tmp_path: Path, capsys):
    """A table, a page to sign with the reason, and data; exit code 1 where the number was not counted up."""
    for name, words in (("old", CREAM), ("new", CREAM.replace("4.00 %", "6.00 %", 1).replace('revision 3 because "more glycerin"', 'revision 4 because "softer on the skin"'))):
        (tmp_path / f"{name}.method").write_text(words.replace('materials "house.materials"\n', "").replace('proven on "plants/bench.plant"\n', ""), encoding="utf-8")
    asked = ["compare", str(tmp_path / "old.method"), str(tmp_path / "new.method")]
    assert main(asked) == 0
    assert "glycerin: 4" in capsys.readouterr().out
    assert main([*asked, "--json"]) == 0
    assert {one["section"] for one in json.loads(capsys.readouterr().out)["changes"]} >= {"formula", "head"}
    assert main([*asked, "-o", str(tmp_path / "notice.html")]) == 0
    page = (tmp_path / "notice.html").read_text(encoding="utf-8")
    assert "softer on the skin" in page and "Checked by" in page and "glycerin" in page
