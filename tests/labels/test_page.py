"""The page of labels: codes that are read back, nothing split, nothing that needs colour."""

import json
import re
from io import BytesIO

import pytest
import segno

from procsheet.labels.code import QUIET, drawn
from procsheet.labels.label import labels
from procsheet.labels.page import NO_CODES, to_html
from procsheet.sheet.pdf import PdfNotPossible, to_pdf
from tests.labels.made import cream, recipe, squares
from tests.made import compiled, method
from tests.sources import source

SVG = re.compile(r'<svg[^>]*class="qr".*?</svg>')
SIDE = 4            # dots a square


@source("independent", "another library's reader, zxing-cpp")
def test_every_code_is_read_back():
    """A reader that knows nothing of us finds in each drawn code the text of its label."""
    zxingcpp = pytest.importorskip("zxingcpp")
    from PIL import Image
    made = cream("Größe 12")
    pictures = SVG.findall(to_html(made))
    assert len(pictures) == len(made.labels)
    for svg, label in zip(pictures, made.labels):
        dark = squares(svg)
        picture = Image.new("L", (len(dark), len(dark)), 255)
        picture.putdata([0 if one else 255 for row in dark for one in row])
        found = zxingcpp.read_barcodes(picture.resize((len(dark) * SIDE,) * 2))
        assert [one.text for one in found] == [label.code]
    assert json.loads(found[0].text)["batch"] == "Größe 12"


@source("independent", "segno's own matrix of the same text; ISO/IEC 18004 asks for four squares of white around")
def test_the_drawing_is_the_code():
    """The squares that are drawn are those of the code, with the white margin a reader needs."""
    code = cream().labels[0].code
    dark = squares(drawn(code))
    matrix = segno.make(code, error="m", micro=False, boost_error=False).matrix
    inner = [row[QUIET:-QUIET] for row in dark[QUIET:-QUIET]]
    assert QUIET == 4 and [[bool(one) for one in row] for row in matrix] == inner
    assert sum(map(sum, dark)) == sum(map(sum, inner))


@source("by hand", "the words that a label must hold")
@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_what_stands_on_the_page(paper):
    """Each label has its boxes, its amount with the range and its place; a batch that is not given is a ruled blank."""
    page = to_html(cream(""), paper=paper)
    cells = re.findall(r'<td class="label">.*?</table></div></td>', page, re.DOTALL)
    assert len(cells) == 13
    for cell in cells:
        assert all(f">{caption} <" in cell or f">{caption}<" in cell for caption in ("lot", "date", "weighed by", "checked by"))
        assert "1 of 1" in cell and '<p>batch</p><b><span class="blank"></span></b>' in cell
        assert NO_CODES in cell or "read its safety data sheet" in cell
    assert "H302, H318" in cells[10] and "from <b>1.344</b> to <b>1.356</b>" in cells[10]


@source("by hand", "black on white, as the style of the house asks")
def test_one_ink():
    """No colour but black and white, and nothing is fetched from elsewhere."""
    page = to_html(cream())
    assert {one.lower() for one in re.findall(r"#[0-9a-fA-F]{3,6}\b", page)} <= {"#000", "#fff"}
    assert not re.search(r'(?:src|href)="?http|url\((?!data:)', page)


@source("by hand", "markup in a batch number; an open dose")
def test_a_hostile_number_and_a_draft():
    """A batch number is text, whatever it holds, and every label of a draft says that it is one."""
    page = to_html(cream("<i>&"))
    assert "<i>&" not in page and "&lt;i&gt;&amp;" in page and 'class="draft"' not in page
    draft = labels(compiled(method("phase A:\n    to 100 % purified water\n    ? % xanthan gum", "    charge A into main\n    mix main for 10 min with propeller\n    fill main")))
    assert to_html(draft).count('class="draft"') == len(draft.labels) == 2


@source("by hand", "16 labels, eight a page: two pages; each holds its digest once, and so does the foot")
def test_no_label_is_split():
    """In the PDF each label stands whole on one page, in both papers, and the same input gives the same bytes."""
    pypdf = pytest.importorskip("pypdf")
    made = labels(recipe("lee-shore-night-lotion", "300 kg"))
    for paper in ("A4", "Letter"):
        try:
            pdf = to_pdf(to_html(made, paper=paper))
        except PdfNotPossible as problem:
            pytest.skip(str(problem))
        pages = [page.extract_text() for page in pypdf.PdfReader(BytesIO(pdf)).pages]
        assert [(page.count("weighed by"), page.count("checked by"), page.count("\nfrom "), page.count(made.head.digest)) for page in pages] == [(8, 8, 8, 9)] * 2
    assert pdf == to_pdf(to_html(made, paper="Letter"))
