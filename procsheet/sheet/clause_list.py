"""The elements that are asked of the papers, each with its clauses, where it stands and whether it is filled: to be read in a terminal."""

from collections import Counter
from collections.abc import Iterator, Sequence

from procsheet.sheet.clause_places import PLACES
from procsheet.sheet.clauses import BLANK, FILLED, KNOWN, MISSING, PARTS, SECTIONS, Clause, Element, Place, by_hand, elements
from procsheet.sheet.model import Box, Sheet
from procsheet.show import wrap

CLOSING = ("This list shows where an element stands on the papers. It claims compliance with nothing: the texts in force decide. A clause from "
           "memory or second hand has not been read in its text, so read it there before you rely on it.")
CONTINUED = {"front": ("Front page", "Findings")}       # sections of the printed papers, where they are several


def in_lines(sheet: Sheet, pages: Sequence[str] = ()) -> Iterator[str]:
    """`pages`: the text of each page of the PDF, where there is one."""
    counted: Counter[str] = Counter()
    for part, title in PARTS.items():
        yield from (title, "=" * len(title), "")
        for element in (one for one in elements() if one.part == part):
            places = PLACES[element.name]
            counted.update(place.standing(sheet) for place in places)
            yield from (*_element(element, places, sheet, pages), "")
    elsewhere = counted.total() - sum(counted[one] for one in (FILLED, BLANK, MISSING))
    yield f"{counted[FILLED]} filled, {counted[BLANK]} to fill in by hand, {counted[MISSING]} not there, {elsewhere} not a matter of the sheet"
    yield from wrap(CLOSING, "")


def _element(element: Element, places: tuple[Place, ...], sheet: Sheet, pages: Sequence[str]) -> Iterator[str]:
    yield from wrap(element.name[:1].upper() + element.name[1:], "")
    for place in places:
        where = _where(place, sheet, pages)
        yield from wrap(f"{place.what}: {_standing(place, sheet)}{f', {where}' if where else ''}", "    ", "        ")
    for clause in element.clauses:
        yield from wrap(_clause(clause), "      § ", "        ")


def _standing(place: Place, sheet: Sheet) -> str:
    """With how many of several are blank, where not all are."""
    found = place.found(sheet)
    blank = sum(map(by_hand, found))
    return place.standing(sheet) + (f" ({blank} of {len(found)})" if 0 < blank < len(found) else "")


def _clause(clause: Clause) -> str:
    known = f" [{KNOWN[clause.known]}]" if KNOWN[clause.known] else ""
    return f"{clause.standard} {clause.number}{known}: {clause.says}"


# ---- where it stands

def _where(place: Place, sheet: Sheet, pages: Sequence[str]) -> str:
    """`weighing list, pages 3 and 4`"""
    if not place.found(sheet):
        return ""
    numbers = on_pages(place, sheet, pages) if place.section != "head" else []
    several = f"pages {numbers[0]} to {numbers[-1]}" if len(numbers) > 1 else f"page {numbers[0]}" if numbers else ""
    return ", ".join(filter(None, (SECTIONS[place.section], several)))


def on_pages(place: Place, sheet: Sheet, pages: Sequence[str]) -> list[int]:
    """The pages of its section on which any of it is printed, in the order of the papers."""
    heads = [bare(sheet.head.product + name) for name in CONTINUED.get(place.section, (SECTIONS[place.section].capitalize(),))]
    words = [bare(one.caption if isinstance(one, Box) else one) for one in place.found(sheet)]
    return [number for number, page in enumerate(map(bare, pages), 1) if any(head in page for head in heads) and any(one and one in page for one in words)]


def bare(text: str) -> str:
    """Without white space: lines break where they must."""
    return "".join(text.split())


def pages_of(pdf: bytes) -> list[str]:
    """The text of each page."""
    from io import BytesIO

    from pypdf import PdfReader
    return [page.extract_text() for page in PdfReader(BytesIO(pdf)).pages]
