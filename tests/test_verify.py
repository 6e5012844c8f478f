"""Papers that can be made anew from what is inside them."""

import json
from io import BytesIO
from pathlib import Path

import pytest

from procsheet.cli import main
from procsheet.commands.verify import enclosed_in
from tests.made import RECIPES
from tests.sources import source

pypdf = pytest.importorskip("pypdf")
try:
    import weasyprint
except (ImportError, OSError):
    weasyprint = None
pytestmark = pytest.mark.skipif(weasyprint is None, reason="pango is missing")


@pytest.fixture(scope="module")
def papers(tmp_path_factory) -> Path:
    """The printed hand cream, for the filler."""
    target = tmp_path_factory.mktemp("papers") / "cream.pdf"
    assert main(["sheet", str(RECIPES / "harbour-hand-cream.method"), "--batch", "150 kg", "--plant", str(RECIPES / "plants" / "filler.plant"), "--number", "B-17", "-o", str(target)]) == 0
    return target


def with_other(papers: Path, target: Path, name: str, old: str, new: str) -> Path:
    """The same PDF with one word of a file inside changed."""
    writer = pypdf.PdfWriter()
    writer.append(str(papers))
    inside = enclosed_in(papers)
    for one, content in inside.items():
        writer.add_attachment(one, content.replace(old.encode(), new.encode()) if one == name else content)
    writer.write(str(target))
    return target


@source("by hand", "the texts the command was given")
def test_all_that_it_was_made_from_is_inside(papers):
    """Method, house data and plant lie inside word for word, with what was asked for and the compiled batch; no folder of the machine is told."""
    inside = enclosed_in(papers)
    assert inside["source/harbour-hand-cream.method"] == (RECIPES / "harbour-hand-cream.method").read_bytes()
    assert inside["source/house.materials"] == (RECIPES / "house.materials").read_bytes()
    assert inside["plant/filler.plant"] == (RECIPES / "plants" / "filler.plant").read_bytes()
    asked, compiled = json.loads(inside["asked.json"]), json.loads(inside["compiled.json"])
    assert asked["batch"] == "150 kg" and asked["number"] == "B-17" and asked["plant"] == "filler.plant"
    assert compiled["mass"] == pytest.approx(150) and len(compiled["weighing"]) > 8 and compiled["steps"]
    assert str(RECIPES.parent).encode() not in papers.read_bytes() + b"".join(inside.values())


@source("published", "ISO 19005-3: part 3, conformance U, in the XMP metadata; files inside have a relationship")
def test_it_is_an_archive_file(papers):
    """It says PDF/A-3u of itself, is tagged, and every file inside says how it belongs to the papers."""
    reader = pypdf.PdfReader(str(papers))
    meta = reader.trailer["/Root"]["/Metadata"].get_object().get_data().decode()
    assert "pdfaid" in meta and ('part="3"' in meta or "part>3<" in meta) and ('conformance="U"' in meta or "conformance>U<" in meta)
    assert reader.trailer["/Root"]["/MarkInfo"]["/Marked"] and "/StructTreeRoot" in reader.trailer["/Root"]
    assert {one.get_object()["/AFRelationship"] for one in reader.trailer["/Root"]["/AF"]} >= {"/Source", "/Data", "/Supplement"}


@source("by hand", "the same command again")
def test_the_same_papers_are_the_same_bytes(papers, tmp_path):
    """Printed again from the same texts, the file is the same, byte for byte."""
    again = tmp_path / "cream.pdf"
    main(["sheet", str(RECIPES / "harbour-hand-cream.method"), "--batch", "150 kg", "--plant", str(RECIPES / "plants" / "filler.plant"), "--number", "B-17", "-o", str(again)])
    assert again.read_bytes() == papers.read_bytes()


@source("by hand", "nothing was changed; or one word of what is inside")
def test_what_was_changed_is_told(papers, tmp_path, capsys):
    """Untouched papers verify; another batch number asked for, another amount in the method: the pages and the content betray it."""
    assert main(["verify", str(papers)]) == 0
    assert "the same" in capsys.readouterr().out
    assert main(["verify", str(with_other(papers, tmp_path / "number.pdf", "asked.json", "B-17", "B-18"))]) == 1
    assert "page 1" in capsys.readouterr().out
    assert main(["verify", str(with_other(papers, tmp_path / "amount.pdf", "source/harbour-hand-cream.method", "4.00 %", "5.00 %"))]) == 1
    assert "content" in capsys.readouterr().out


@source("by hand", "no PDF, and a PDF without a method")
def test_what_cannot_be_verified_is_told(tmp_path, capsys):
    """Another file, a missing one, papers of somebody else: told, without a traceback."""
    (tmp_path / "text.pdf").write_text("no pdf", encoding="utf-8")
    writer, empty = pypdf.PdfWriter(), BytesIO()
    writer.add_blank_page(100, 100)
    writer.write(empty)
    (tmp_path / "empty.pdf").write_bytes(empty.getvalue())
    for name in ("text.pdf", "empty.pdf", "gone.pdf"):
        assert main(["verify", str(tmp_path / name)]) == 2
    assert "procsheet:" in capsys.readouterr().err
