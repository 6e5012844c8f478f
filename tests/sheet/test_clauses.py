"""What good practice asks of the papers: each element has its place, and what is said of it is so."""

import csv
import re
from functools import cache
from io import BytesIO
from pathlib import Path

import pytest

from procsheet.cli import main
from procsheet.sheet.clause_list import in_lines, on_pages
from procsheet.sheet.clause_places import PLACES
from procsheet.sheet.clauses import BLANK, FILLED, KNOWN, MISSING, SECTIONS, Place, elements
from procsheet.sheet.html import to_html
from procsheet.sheet.model import Box, Sheet
from procsheet.sheet.text import to_text
from tests.made import RECIPES
from tests.sheet.demo import HAND_CREAM
from tests.sheet.sheets import OTHERS, RECORDED, sheet
from tests.sheet.strings import bare
from tests.sheet.test_html import Reader
from tests.sheet.test_pdf import drawn, pages
from tests.sources import source

CREAM = str(RECIPES / "harbour-hand-cream.method")
ASKED = [tuple(row) for row in list(csv.reader(Path(__file__).with_name("elements.csv").open(encoding="utf-8")))[1:]]
ALL = [(place, element.name) for element in elements() for place in PLACES[element.name]]
each_recipe = pytest.mark.parametrize("name", [*RECORDED, *OTHERS])
# an element, a way to take it off the hand cream's sheet
TAKEN = {
    "product name, code, version, day in force": ("day in force", lambda one: with_front(one, about=())),
    "type, strength, batch size": ("type", lambda one: with_front(one, about=())),
    "place and main equipment": ("tag that was planned", lambda one: with_front(one, equipment=())),
    "written, dated, signed; checked by another, dated, signed": ("checked by", lambda one: with_front(one, approvals=one.front.approvals[:1])),
    "how equipment is prepared and found clear of earlier work": ("procedure", lambda one: one._replace(before=one.before._replace(clearance=()))),
    "lot and weighed quantity of each material": ("lot", lambda one: one._replace(weighing=one.weighing._replace(phases=()))),
    "who weighed and who verified, who added and who verified": ("weighed by", lambda one: one._replace(weighing=None)),
    "batch number of the bulk, to be traced to the finished lot": ("lot code on the packs", lambda one: one._replace(making=one.making._replace(packs=()))),
    "dates and times of start, stages, end": ("making", lambda one: one._replace(making=one.making._replace(closing=()))),
    "sampling plan, test methods, acceptance criteria": ("limits", lambda one: one._replace(checks=one.checks._replace(checks=()))),
    "release by the responsible person": ("release", lambda one: one._replace(deviations=one.deviations._replace(signing=()))),
}


def with_front(one: Sheet, **changes) -> Sheet:
    return one._replace(front=one.front._replace(**changes))


def printed(name: str) -> Sheet:
    return sheet(name, *RECORDED.get(name, ("", "")))


@cache
def seen(name: str) -> dict[str, str]:
    """What a reader sees of each section of the papers, by its title; '' for what stands on every page."""
    head, *rest = re.split(r'<section data-name="([^"]+)">', to_html(printed(name)))
    return {title: bare("".join(Reader(f"<body>{content}").seen)) for title, content in zip(rest[::2], rest[1::2])} | {
        "": bare("".join(Reader(head).seen))}


def on_paper(place: Place, name: str) -> str:
    titles = {"head": ("",), "front": ("Front page", "Findings")}.get(place.section, (SECTIONS[place.section].capitalize(),))
    return "".join(seen(name).get(title, "") for title in titles)


def listed(one: Sheet, element: str) -> list[str]:
    """The lines below an element in the list."""
    lines = list(in_lines(one))
    start = next(n for n, line in enumerate(lines) if line.lower().startswith(element[:60].lower()))
    return lines[start + 1:lines.index("", start)]


@source("published", "the two tables of elements of a master instruction and a batch record, with the clauses that ask for them")
def test_every_element_has_a_place_or_a_reason():
    """The elements are those of the tables with the clauses they name, each with a place on the sheet or the reason why no sheet bears it."""
    assert {(part, name) for part, name, *_ in ASKED} == {(one.part, one.name) for one in elements()}
    assert {(name, standard, number) for _, name, standard, number, _ in ASKED} == {
        (one.name, clause.standard, clause.number) for one in elements() for clause in one.clauses}
    assert set(PLACES) == {one.name for one in elements()}
    for place, name in ALL:
        assert (place.section in SECTIONS) != bool(place.kept), (name, place.what)


@source("published", "how the clauses of the tables are known: read, or from memory")
def test_what_is_from_memory_says_so():
    """A clause that is known from memory is marked so in the list, and no other is."""
    lines = "\n".join(in_lines(HAND_CREAM))
    for _, name, standard, number, known in ASKED:
        clause = next(one for element in elements() if element.name == name for one in element.clauses if (one.standard, one.number) == (standard, number))
        assert (clause.known == "memory") == (known == "memory") and clause.says
        mark = f" [{KNOWN[clause.known]}]" if KNOWN[clause.known] else ""
        assert f"§ {standard} {number}{mark}:" in lines
    assert lines.count("[from memory]") == sum(known == "memory" for *_, known in ASKED)


@source("by hand", "the text and the pages of each sheet")
@each_recipe
def test_what_is_said_to_stand_there_stands_there(name):
    """What counts as filled is found in the sheet's text, and every blank in its section of the papers, by its caption."""
    text = bare(to_text(printed(name)))
    for place, element in ALL:
        for one in place.found(printed(name)):
            where = (element, place.what, one)
            assert isinstance(one, Box) or bare(one) in text, where
            assert bare(one.caption if isinstance(one, Box) else one) in on_paper(place, name), where


@source("by hand", "all that the header of the hand cream gives, and a plant")
def test_nothing_is_missing_of_a_whole_method():
    """A method that says all lacks no element; what the papers do not give is a blank."""
    assert [(element, place.what) for place, element in ALL if place.standing(printed("harbour-hand-cream")) == MISSING] == []
    place = PLACES["batch number of the bulk, to be traced to the finished lot"][0]
    one = printed("harbour-hand-cream")
    assert place.standing(one) == FILLED and place.standing(one._replace(head=one.head._replace(batch=""))) == BLANK


@source("by hand", "the headers of the published methods give neither a day nor a plant")
@pytest.mark.parametrize("name", OTHERS)
def test_what_a_method_does_not_say_is_a_blank(name):
    """Where it is made, from when it is in force, and the yield to expect are ruled blanks where nobody said them."""
    blank = {"day in force", "place", "yield of the batch"}
    assert {place.what: place.standing(printed(name)) for place, _ in ALL if place.what in blank} == dict.fromkeys(blank, BLANK)


@source("by hand", "sheets from which one thing was taken")
@pytest.mark.parametrize("element", TAKEN)
def test_what_was_taken_away_is_reported(element):
    """An element that is taken off the sheet is told as not there, and was not before."""
    what, take = TAKEN[element]
    whole = printed("harbour-hand-cream")
    assert f"    {what}: {MISSING}" in listed(take(whole), element)
    assert f"    {what}: {MISSING}" not in listed(whole, element)


@source("by hand", "each section taken off the sheet")
@pytest.mark.parametrize("section", [name for name in SECTIONS if name != "head"])
def test_a_section_that_is_not_printed_has_nothing(section):
    """All that stands in a section is not there without it."""
    without = HAND_CREAM._replace(**{section: None})
    assert {place.standing(without) for place, _ in ALL if place.section == section} == {MISSING}


@source("by hand", "the last lines of the list")
def test_nothing_claims_compliance():
    """The list ends by saying what it is; no line of it says that a text is met."""
    lines = list(in_lines(HAND_CREAM))
    said = " ".join(lines)
    assert "shows where an element stands" in said and said.rstrip().endswith("before you rely on it.") and "the texts in force decide" in said
    assert not re.search(r"complian(?!ce with nothing)|complies|conform|fulfil|\bmeets\b", said)


@drawn
@source("by hand", "pages of the demonstration sheet as a reader of PDF finds them, in the order they are printed")
def test_pages_are_found():
    """Each place is found on pages of its own section, which follow each other; each place but those of every page has one."""
    text = pages("HAND_CREAM", "A4")
    title = {name: bare(HAND_CREAM.head.product + SECTIONS[name].capitalize()) for name in SECTIONS}
    for place, _ in ALL:
        if place.section not in ("", "head") and place.found(HAND_CREAM):
            numbers = on_pages(place, HAND_CREAM, text)
            assert numbers and all(title[place.section] in bare(text[number - 1]) for number in numbers), place.what


@source("by hand", "what the command writes")
def test_the_command_lists_and_writes_nothing_unasked(tmp_path, monkeypatch, capsys):
    """Alone it lists; with a file it writes the papers too; on standard output there is room for one of the two."""
    monkeypatch.chdir(tmp_path)
    assert main(["sheet", CREAM, "--clauses"]) == 0
    assert "Master instruction" in capsys.readouterr().out and not list(tmp_path.iterdir())
    assert main(["sheet", CREAM, "--clauses", "-o", "out.html"]) == 0
    assert (tmp_path / "out.html").exists() and "    batch: a blank to fill in, every page\n" in capsys.readouterr().out
    assert main(["sheet", CREAM, "--clauses", "-o", "-"]) == 2
    assert "-o" in capsys.readouterr().err


@drawn
@source("independent", "pypdf, pages of the file that was written")
def test_the_command_tells_the_page_of_a_pdf(tmp_path, monkeypatch, capsys):
    """The page that the list tells of the release is that on which the PDF has it."""
    pypdf = pytest.importorskip("pypdf")
    monkeypatch.chdir(tmp_path)
    assert main(["sheet", CREAM, "--clauses", "-o", "out.pdf"]) == 0
    found = [number for number, page in enumerate(pypdf.PdfReader(BytesIO((tmp_path / "out.pdf").read_bytes())).pages, 1)
             if "responsible person" in page.extract_text()]
    assert f"    release: a blank to fill in, deviations, page {found[0]}\n" in capsys.readouterr().out and len(found) == 1
