"""The printed pages, read back and measured."""

import sys
from collections import Counter
from functools import cache
from io import BytesIO

import pytest

from procsheet.sheet.html import to_html
from procsheet.sheet.model import Box, Head, Sheet, Weighing, WeighingPhase, WeighingRow
from procsheet.sheet.pdf import PdfNotPossible, to_pdf
from tests.sheet import demo, sheets
from tests.sheet.strings import bare, strings
from tests.sources import source

try:
    import weasyprint
except (ImportError, OSError):
    weasyprint = None

drawn = pytest.mark.skipif(weasyprint is None, reason="pango is missing")
MM = 96 / 25.4                  # layout units a mm
SHEETS = [*((name, paper) for name in ("HAND_CREAM", "ODD_BALM") for paper in ("A4", "Letter")),
          ("headland-mineral-lotion", "Letter"), ("calamine-lotion", "A4")]
each_sheet = pytest.mark.parametrize(("name", "paper"), SHEETS)


@cache
def sheet(name: str):
    """A demonstration sheet, or that of a real method."""
    return getattr(demo, name) if hasattr(demo, name) else sheets.sheet(name, *sheets.RECORDED.get(name, ("", "")))


@cache
def pages(name: str, paper: str):
    """The text of every page, as a reader of PDF finds it."""
    pypdf = pytest.importorskip("pypdf")
    return [page.extract_text() for page in pypdf.PdfReader(BytesIO(pdf(name, paper))).pages]


@cache
def pdf(name: str, paper: str) -> bytes:
    return to_pdf(to_html(sheet(name), paper=paper))


@cache
def laid_out(name: str, paper: str) -> list:
    """The boxes of every page."""
    document = weasyprint.HTML(string=to_html(sheet(name), paper=paper)).render()
    return [[*page._page_box.descendants()] for page in document.pages]


def is_cell(box) -> bool:
    return type(box).__name__ == "TableCellBox"


def classes(box) -> set[str]:
    return set((box.element.get("class") or "").split()) if box.element is not None else set()


@drawn
@source("recorded", "pages of the two demonstration sheets")
@pytest.mark.parametrize(("name", "paper", "count"), [("HAND_CREAM", "A4", 10), ("HAND_CREAM", "Letter", 10)])
def test_number_of_pages(name, paper, count):
    """The hand cream fits ten pages on either paper."""
    assert len(pages(name, paper)) == count


@drawn
@source("by hand", "the head of the model")
@each_sheet
def test_every_page_tells_what_it_belongs_to(name, paper):
    """Product, digest and page n of m stand on every page; a draft says so, another sheet does not."""
    head = sheet(name).head
    found = [bare(page) for page in pages(name, paper)]
    for number, page in enumerate(found, 1):
        assert bare(head.product) in page and bare(head.digest) in page and f"{number}of{len(found)}" in page
        assert ("draft" in page) == head.draft


@drawn
@source("by hand", "the strings of the model")
@each_sheet
def test_no_string_is_lost_on_paper(name, paper):
    """Every string of the model can be copied out of the PDF, in one piece."""
    seen = bare("".join(pages(name, paper)))
    assert [string for string in strings(sheet(name)) if bare(string) not in seen] == []


@drawn
@source("published", "design of the sheet: every box is at least 10 by 10 mm, so that a glove can write in it")
@each_sheet
def test_every_box_can_be_written_in(name, paper):
    """No box is narrower or lower than 10 mm."""
    boxes = [box for page in laid_out(name, paper) for box in page if is_cell(box) and classes(box) & {"box"}]
    small = [(box.border_width() / MM, box.border_height() / MM, classes(box)) for box in boxes
             if min(box.border_width(), box.border_height()) < 9.99 * MM]
    assert len(boxes) > 100 and small == []


@drawn
@source("by hand", "design of the sheet: rows and steps are never split")
@each_sheet
def test_no_row_is_split(name, paper):
    """A row and a step stand on one page; only a step of more than twenty additions goes on, between them."""
    seen_on = Counter()
    for page in laid_out(name, paper):
        seen_on.update({id(box.element) for box in body(page) if whole(box)})
    assert seen_on and max(seen_on.values()) == 1


@drawn
@source("by hand", "design of the sheet: what ends a list stands with the rows before it")
@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_no_page_holds_only_the_end(paper):
    """Wherever the list is cut, its last page has three rows at least beside the boxes that close it, or the list fits one page."""
    for count in range(9, 16):
        rows = tuple(WeighingRow(str(n), f"Material {n}", f"A{n}", "1.000") for n in range(count))
        page = Weighing((WeighingPhase("Phase A", "", "", rows[:-1]), WeighingPhase("Phase B", "", "", rows[-1:])), "kg", closing=(Box("ended, time"),))
        drawn_pages = weasyprint.HTML(string=to_html(Sheet(Head(), weighing=page), paper=paper)).render().pages
        on = [sum(type(box).__name__ == "TableRowBox" and any(classes(cell) & {"actual"} for cell in box.children) for box in each._page_box.descendants())
              for each in drawn_pages]
        assert sum(on) == count and (len(on) == 1 or on[-1] >= 3), on


def whole(box) -> bool:
    """Rows of a table, but neither heads, which are repeated, nor the rows that hold lanes; steps, but not long ones."""
    if type(box).__name__ == "TableRowBox":
        return box.children[-1].element.tag == "td" and not any(classes(inner) & {"step"} for inner in box.descendants())
    return bool(classes(box) & {"step", "gate", "if", "top"}) and not classes(box) & {"long"}


@drawn
@source("by hand", "the cells that the renderer lays out")
@each_sheet
def test_text_stays_in_its_cell(name, paper):
    """No text is wider or higher than the cell that holds it."""
    out = [(line.text, cell.element.tag) for page in laid_out(name, paper) for cell in page if is_cell(cell)
           for line in cell.descendants() if type(line).__name__ == "TextBox" and not inside(line, cell)]
    assert out == []


def inside(line, cell) -> bool:
    """A line of text is higher than its letters, by less than 2 mm."""
    return (line.position_x >= cell.position_x - 0.5 * MM
            and line.position_x + line.width <= cell.position_x + cell.border_width() + 0.5 * MM
            and line.position_y + line.height <= cell.position_y + cell.border_height() + 2 * MM)


@drawn
@source("by hand", "frame: 18 mm from the left, 182 mm wide, 25 mm from the top and 27 mm from the bottom; a thick line adds 0.3 mm")
@each_sheet
def test_nothing_leaves_the_frame(name, paper):
    """All that is printed between head and foot stands in the frame."""
    bottom = {"A4": 297, "Letter": 279.4}[paper] - 27
    for page in laid_out(name, paper):
        for box in filter(is_printed, body(page)):
            assert box.position_x + box.width <= (200 + 0.6) * MM and box.position_y + box.height <= (bottom + 0.6) * MM, classes(box)


def is_printed(box) -> bool:
    return type(box).__name__ in {"TableCellBox", "TextBox"}


def body(page: list):
    """What stands between the running head and foot."""
    running = {id(inner) for box in page if type(box).__name__ == "MarginBox" for inner in box.descendants()}
    return [box for box in page if id(box) not in running]


@drawn
@source("by hand", "design of the sheet: the front fits one page")
@each_sheet
def test_the_front_is_one_page(name, paper):
    """The front fits its page; findings it has no room for follow on theirs."""
    assert sum("Frontpage" in bare(page) for page in pages(name, paper)) == 1


@drawn
@source("by hand", "design of the sheet: a heading stays with what follows")
@each_sheet
def test_a_heading_stays_with_what_follows(name, paper):
    """No page ends with a heading."""
    for page in laid_out(name, paper):
        texts = [box for box in body(page) if type(box).__name__ == "TextBox"]
        last = max(texts, key=lambda box: box.position_y)
        assert last.element.tag not in {"h1", "h2"}


@drawn
@source("by hand", "two calls")
def test_the_same_html_gives_the_same_bytes():
    """A PDF carries no date and no chance."""
    html = to_html(demo.HAND_CREAM)
    assert to_pdf(html) == pdf("HAND_CREAM", "A4")


@drawn
@source("by hand", "design of the sheet: a title and a language, no author and no path")
def test_properties_name_nobody():
    """The file has a title and a language, no author, no path, and is tagged for reading aloud."""
    pypdf = pytest.importorskip("pypdf")
    reader = pypdf.PdfReader(BytesIO(pdf("HAND_CREAM", "A4")))
    assert reader.metadata.title == "HHC-014 Harbour Hand Cream H26-0412" and reader.metadata.author is None
    assert reader.trailer["/Root"]["/Lang"] == "en" and reader.trailer["/Root"]["/MarkInfo"]["/Marked"]


@source("by hand", "the message of the program")
def test_a_machine_without_pango_is_told_what_to_install(monkeypatch):
    """One line says what is missing; it is no traceback of a library."""
    monkeypatch.setitem(sys.modules, "weasyprint", None)
    with pytest.raises(PdfNotPossible, match="apt-get install libpangoft2-1.0-0") as told:
        to_pdf("<p>page</p>")
    assert "\n" not in str(told.value)
