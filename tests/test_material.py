"""`procsheet material` and `procsheet new material`: what is known, what is missing, what is to be filled in."""

from pathlib import Path

import pytest

from procsheet.cli import main
from procsheet.commands.new import block
from procsheet.model.library import Library, shipped
from procsheet.source import source as text
from procsheet.syntax.parse import parse_data
from tests.made import method
from tests.sources import source

RECIPES = Path(__file__).parents[1] / "recipes"
HOUSE = 'material glycerin\n    density 1.30 g/mL at 20 °C  from "house measurement" (practice)\n'


def ran(capsys, *arguments: str) -> tuple[int, str, str]:
    code = main(list(arguments))
    out, error = capsys.readouterr()
    return code, out.replace("\u00a0", " "), error


@source("by hand", "the block of the material as it is shipped")
def test_a_material_is_shown_with_its_sources(capsys):
    """Every line of its block stands there with its source, its grade and its place; an INCI name finds it too."""
    code, out, _ = ran(capsys, "material", "Sodium Chloride")
    assert code == 0 and out.startswith("sodium chloride")
    assert "from memory" in out and "salts-acids-bases.materials:" in out and "counts as" in out


@source("by hand", "common practice, no source: one short name, several articles; a slip of the pen")
@pytest.mark.parametrize("name, says", [("betaine", "trimethylglycine"), ("glycerinn", "Did you mean `glycerin`"), ("qqqqqq", "procsheet new material")])
def test_a_doubtful_name_is_asked_for(capsys, name, says):
    """A clash offers its articles, a slip the near names, and what is not known the way to write it."""
    code, _, error = ran(capsys, "material", name)
    assert code == 2 and says in error


@source("by hand", "a house's figure goes before the shipped one")
def test_a_house_figure_is_shown_with_what_it_replaces(tmp_path, capsys):
    """As a method sees it, the house's figure stands first and the shipped one beneath it; other figures stay."""
    (tmp_path / "house.materials").write_text(HOUSE, encoding="utf-8")
    file = tmp_path / "a.method"
    file.write_text(method("phase A: a\n    to 100 %  purified water\n    1 %  glycerin", "    charge A into main\n    fill main")
                    .replace("basis", 'materials "house.materials"\nbasis', 1), encoding="utf-8")
    _, shipped_says, _ = ran(capsys, "material", "glycerin")
    _, house_says, _ = ran(capsys, "material", "glycerin", "--of", str(file))
    assert "1.30 g/mL" not in shipped_says
    lines = house_says.splitlines()
    at = next(number for number, line in enumerate(lines) if "1.30 g/mL" in line)
    assert "house.materials:2" in lines[at] and "in place of" in lines[at + 1] and "1.258 g/mL" in lines[at + 1]
    assert "flash point" in house_says


@source("by hand", "unknown stuff has no data; a fragrance's flash point decides and is the lot's own")
def test_what_is_missing_is_listed_most_decisive_first(tmp_path, capsys):
    """No data at all comes first, then what a check wanted, then what is only remembered."""
    file = tmp_path / "a.method"
    file.write_text(method("phase A: a\n    to 100 %  purified water\n    1 %  unheard-of stuff\n    0.3 %  fragrance\n    0.5 %  sodium benzoate",
                           "    charge A into main\n    fill main"), encoding="utf-8")
    code, out, _ = ran(capsys, "material", "--missing", str(file))
    assert code == 0
    assert out.index("unheard-of stuff") < out.index("fragrance") < out.index("from memory")
    assert "1 method: " in out.splitlines()[-1] and "open point" in out.splitlines()[-1]


@source("by hand", "every figure its checks need is in the shipped data")
def test_the_recipes_have_no_open_point(capsys):
    """No check of the recipes lacks a figure."""
    _, out, _ = ran(capsys, "material", "--missing", str(RECIPES))
    assert out.splitlines()[-1].endswith(" 0 open points")


@source("by hand", "the decisive properties of the kind stand first")
@pytest.mark.parametrize("kind", sorted({"wax", "preservative", "carbomer", "essential oil", ""}))
def test_a_new_block_can_be_filled_in(kind):
    """With the # taken away every line of the block parses, and the decisive ones come first."""
    written = block("zinc widget", kind)
    assert not parse_data(text("new.materials", written)).findings
    filled = "\n".join("    " + line.strip().removeprefix("# ") if line.startswith("    # ") else line for line in written.splitlines()) + "\n"
    parsed = parse_data(text("new.materials", filled))
    assert not parsed.findings and len(parsed.tree.blocks[0].lines) > 20
    if kind:
        first = [line.key for line in parsed.tree.blocks[0].lines][1]
        assert first in " ".join(word.text for line in Library(shipped()).kind(kind).lines if line.key == "decisive" for word in line.words)


@source("by hand", "what is there is kept")
def test_a_block_is_added_to_a_file_that_is_there(tmp_path, capsys, monkeypatch):
    """A second block goes behind the first; the same again changes nothing."""
    monkeypatch.chdir(tmp_path)
    assert ran(capsys, "new", "material", "zinc widget", "--kind", "wax")[0] == 0
    assert ran(capsys, "new", "material", "other stuff", "-o", "zinc-widget.materials")[0] == 0
    before = Path("zinc-widget.materials").read_text(encoding="utf-8")
    assert before.count("\nmaterial ") == 2
    assert ran(capsys, "new", "material", "zinc widget", "-o", "zinc-widget.materials")[0] == 2
    assert ran(capsys, "new", "material", "third", "--kind", "waxx")[0] == 2
    assert Path("zinc-widget.materials").read_text(encoding="utf-8") == before and not Path("third.materials").exists()
