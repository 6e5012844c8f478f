"""The index of names: only the named blocks are read, and a changed file is read anew."""

import os
from pathlib import Path

import pytest

from procsheet import cache
from procsheet.cli import main
from procsheet.model import index as told_in
from procsheet.model.index import index, opened
from procsheet.model.library import SHIPPED, Library, read_block, shipped
from procsheet.source import source as text
from tests.made import method
from tests.sources import source

TWO = "material one\n    also called  first\n    melts 60 °C\n\n# a remark\nmaterial two\n    INCI  Secundus\n    melts 70 °C\n"
STEPS = "    charge A into main\n    fill main"


@pytest.fixture
def own_cache(tmp_path, monkeypatch):
    """A cache folder of the test's own."""
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    return tmp_path / "cache" / "procsheet"


def house(folder: Path, melts: str) -> Path:
    file = folder / "house.materials"
    file.write_text(f"material widget wax\n    kind wax\n    melts {melts} from \"house measurement\" (practice)\n", encoding="utf-8")
    return file


@source("by hand", "two blocks of four and three lines")
def test_a_block_is_found_by_each_of_its_names():
    """A name leads to its block with the line it begins on; an INCI name is of another sort than a plain one."""
    made = index(text("two.materials", TWO))
    assert [one.line for one in made.told("material", "first")] == [1]
    assert [one.line for one in made.told("INCI", "secundus")] == [6]
    assert made.told("material", "secundus") == ()
    block, wrong = read_block(made.told("material", "two")[0])
    assert not wrong and block.span.line == 6 and [line.span.line for line in block.lines] == [7, 8]


@source("by hand", "a check reads the index and no materials file")
def test_only_named_blocks_are_read(tmp_path, own_cache, monkeypatch, capsys):
    """Once the index is kept, a check opens no materials file and parses no block it does not name."""
    house(tmp_path, "60 °C")
    file = tmp_path / "a.method"
    file.write_text(method("phase A: a\n    to 100 %  purified water\n    1 %  widget wax", STEPS).replace("basis", 'materials "house.materials"\nbasis', 1), encoding="utf-8")
    told_in._opened.cache_clear()
    main(["check", str(file)])
    told_in._opened.cache_clear()
    read_block.cache_clear()
    monkeypatch.setattr(told_in, "_read", lambda files: pytest.fail(f"{files} are read"))
    main(["check", str(file)])
    assert read_block.cache_info().currsize < 60 < len(Library(shipped()).all())
    capsys.readouterr()


@source("by hand", "a figure changed in the file is a figure changed in the check")
def test_a_changed_file_is_read_anew(tmp_path, own_cache):
    """The index follows its file, and the one before is taken away."""
    def melts():
        made = Library((opened((("house.materials", house_file),)),))
        return made.find("widget wax")[0][0].lines[1].words[0].low
    house_file = house(tmp_path, "60 °C")
    assert melts() == "60"
    kept = set(own_cache.glob("materials-*"))
    house(tmp_path, "72 °C")
    os.utime(house_file, ns=(1, 1))
    assert melts() == "72"
    assert len(set(own_cache.glob("materials-*"))) == len(kept)


@source("by hand", "no home, no cache; a spoilt file in it; a folder that cannot be written")
def test_nothing_depends_on_the_cache(tmp_path, own_cache, monkeypatch):
    """Without a cache, or with a spoilt one, the same blocks are found."""
    file = house(tmp_path, "60 °C")
    files = (("house.materials", file),)
    assert opened(files).told("material", "widget wax")
    kept = next(own_cache.glob("materials-*"))
    kept.write_bytes(b"spoilt")
    told_in._opened.cache_clear()
    assert opened(files).told("material", "widget wax")
    told_in._opened.cache_clear()
    monkeypatch.setattr(cache, "folder", lambda: None)
    assert opened(files).told("material", "widget wax")


@source("by hand", "every block of the shipped files")
def test_the_index_holds_every_block():
    """As many blocks as the files have heads, each found by its own name."""
    heads = sum(line.startswith("material ") for path in SHIPPED.glob("*.materials") for line in path.read_text(encoding="utf-8").splitlines())
    assert len(Library(shipped()).all()) == heads


@source("by hand", "a house that calls a listed material by a name of its own")
def test_a_house_name_leads_to_the_shipped_data(tmp_path):
    """A house's block under the listed name, with another beside it: by either name the shipped lines stand behind it."""
    file = tmp_path / "house.materials"
    file.write_text('material lipid capsules\n    also called wax pips\n    shear at most 2 m/s from "house trial" (practice)\n', encoding="utf-8")
    library = Library((opened((("house.materials", file),)), *shipped()))
    for name in ("wax pips", "lipid capsules"):
        assert [block.span.file == "house.materials" for block in library.find(name)[0]] == [True, False]
