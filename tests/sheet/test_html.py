"""The HTML of a sheet: nothing lost, nothing unescaped, nothing fetched."""

import re
import subprocess
import sys
from html.parser import HTMLParser

import pytest

from procsheet.sheet.html import PAPERS, to_html
from procsheet.sheet.model import Front, Head, Sheet
from tests.sheet.demo import HAND_CREAM, ODD_BALM
from tests.sheet.strings import bare, strings
from tests.sources import source


class Reader(HTMLParser):
    """What a reader sees of a page, and the attributes of its tags."""

    def __init__(self, html: str):
        super().__init__()
        self.seen, self.tags = [], []
        self.feed(html[html.index("<body>"):])

    def handle_data(self, data):
        self.seen.append(data)

    def handle_starttag(self, tag, attributes):
        self.tags.append((tag, dict(attributes)))


@source("by hand", "the strings of the model")
@pytest.mark.parametrize("sheet", [HAND_CREAM, ODD_BALM], ids=["hand cream", "odd balm"])
def test_no_string_is_lost(sheet):
    """Every string of the model can be read on the page."""
    seen = bare("".join(Reader(to_html(sheet)).seen))
    assert [string for string in strings(sheet) if bare(string) not in seen] == []


@source("by hand", "marks that HTML would obey")
def test_text_is_escaped():
    """What looks like a tag is printed, not obeyed."""
    page = Reader(to_html(Sheet(Head("<script>alert('x')</script>", 'a"b', "&amp;"), Front(about=("<b>bold</b>",)))))
    assert "script" not in dict(page.tags)
    seen = "".join(page.seen)
    assert all(string in seen for string in ("<script>alert('x')</script>", 'a"b', "&amp;", "<b>bold</b>"))


@source("by hand", "design of the sheet: A4 is 210 mm less 18 and 10, Letter 215.9 mm less 18 and 15.9")
@pytest.mark.parametrize("paper", PAPERS)
def test_frame_is_the_same_on_both_papers(paper):
    """Between the margins 182 mm are left on A4 and on Letter, so no line breaks elsewhere."""
    width, _, _, right, _, left = map(float, re.findall(r"([\d.]+)mm", PAPERS[paper]))
    assert width - left - right == pytest.approx(182)


@source("by hand", "the frame is 182 mm wide; a branch hangs out by 2 mm and takes them back")
@pytest.mark.parametrize("sheet", [HAND_CREAM, ODD_BALM], ids=["hand cream", "odd balm"])
def test_no_table_is_wider_than_the_frame(sheet):
    """The columns of a table add up to what it says it is, and that fits the frame."""
    for table in re.findall(r'<table [^>]*style="width:([\d.]+)mm"><colgroup>(.*?)</colgroup>', to_html(sheet)):
        columns = sum(map(float, re.findall(r"width:([\d.]+)mm", table[1])))
        assert columns == pytest.approx(float(table[0]), abs=0.01) and columns <= 182.05


@source("by hand", "addresses and paths a browser would fetch")
def test_nothing_is_fetched():
    """The document stands alone: no address, no path, fonts and pictures inside it."""
    html = to_html(HAND_CREAM)
    assert set(re.findall(r"url\(([\w:/+-]{9})", html)) == {"data:font", "data:imag"}
    assert not re.search(r"https?://(?!www\.w3\.org)|file:|src=|href=", html)
    assert html.startswith('<!DOCTYPE html>\n<html lang="en">') and "<title>HHC-014 Harbour Hand Cream H26-0412</title>" in html


@source("by hand", "two calls")
def test_the_same_sheet_gives_the_same_text():
    """Two calls give the same characters."""
    assert to_html(ODD_BALM, paper="Letter") == to_html(ODD_BALM, paper="Letter")


@source("by hand", "the two papers there are")
def test_unknown_paper_is_a_programmers_mistake():
    """Only A4 and Letter are known."""
    with pytest.raises(KeyError):
        to_html(HAND_CREAM, paper="Foolscap")


@source("by hand", "the six facts of a head: code, revision, batch, issue, digest, issued")
def test_what_was_not_given_is_a_ruled_blank():
    """A head without facts has a blank for each of the six that a hand can fill."""
    assert to_html(Sheet(Head("Balm"))).count('<span class="blank"></span>') == 6


@source("by hand", "a sheet of a head alone")
def test_sections_may_be_absent():
    """A sheet of a head alone has no section."""
    assert "<section" not in to_html(Sheet(Head()))


@source("by hand", "the modules that are loaded")
def test_html_needs_no_renderer():
    """Making the HTML loads neither weasyprint nor what it draws with."""
    code = "import sys, procsheet.sheet.html, procsheet.sheet.text, procsheet.sheet.pdf; sys.exit('weasyprint' in sys.modules)"
    assert subprocess.run([sys.executable, "-c", code], check=False, env={"PYTHONPATH": ":".join(sys.path)}).returncode == 0
