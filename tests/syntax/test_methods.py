"""Whole methods as a chemist writes them: all read, however they are typed."""

from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings

from procsheet.source import source as text_of
from procsheet.syntax import tree
from procsheet.syntax.parse import parse_method
from tests.methods import methods
from tests.sources import source
from tests.syntax.told import without_places

METHODS = sorted((Path(__file__).parent / "methods").glob("*.method"))
TEXTS = {path.stem: path.read_text(encoding="utf-8") for path in METHODS}


def steps(items):
    for item in items:
        if isinstance(item, tree.Block):
            for branch in item.branches:
                yield from steps(branch.items)
        elif isinstance(item, tree.Step):
            yield item


def counted(text: str) -> tuple[int, int, int]:
    """Rows, vessels and steps of a method, counted by its lines: what stands at each depth, without comments and block words."""
    rows = vessels = made = 0
    part, depth = "", 0
    for line in text.splitlines():
        words = line.split("#")[0].split()
        if not words:
            continue
        first = words[0].lower()
        margin = len(line) - len(line.lstrip())
        if first in ("phase", "override", "vessel", "mould", "mold", "container", "method", "limits", "pack",
                     "accept") and (margin <= 2 or part != "method"):
            part, depth = first, 0
        if first in ("vessel", "mould", "mold", "container") and part == first:
            vessels += 1
        elif part == "phase" and first not in ("phase", "hold", "or"):
            rows += 1
        elif part == "method" and first not in ("method", "stage", "choose", "option", "where", "otherwise", "if", "end", "repeat"):
            made += not depth or margin <= depth
            depth = margin if not depth or margin <= depth else depth
        elif part == "method":
            depth = 0
    return rows, vessels, made


@source("independent", "lines counted by their first word and depth, without the reader")
@pytest.mark.parametrize("name", TEXTS)
def test_a_method_is_read_whole(name):
    """Nothing is found wrong, and no row, vessel or step is lost or made up."""
    parsed = parse_method(text_of(name, TEXTS[name]))
    assert [(finding.at.span.line, finding.title) for finding in parsed.findings] == []
    rows = [row for phase in parsed.tree.phases if phase.letter != "all" for row in phase.rows]
    assert (len(rows), len(parsed.tree.places), len(list(steps(parsed.tree.items)))) == counted(TEXTS[name])


WAYS_OF_TYPING = {
    "with the line ends of another machine": lambda text: text.replace("\n", "\r\n"),
    "with a mark at the start of the file": lambda text: "\ufeff" + text,
    "with tabs": lambda text: text.replace("    ", "\t"),
    "with no-break blanks before units": lambda text: text.replace(" °C", "\u00a0°C").replace(" min", "\u202fmin").replace(" %", "\u00a0%"),
    "with curly quotes": lambda text: _curly(text),
    "with the other degree sign": lambda text: "\n".join(line if '"' in line else line.replace("°", "º") for line in text.split("\n")),
    "with wide blanks": lambda text: "\n".join(line if "—" in line or "--" in line else line.replace(" into ",
                                                                                                     "   into  ").replace(" with ",
                                                                                                                          "   with  ") for line in text.split("\n")),
    "with a comment behind every line": lambda text: "\n".join(line + "   # so it was" if line.strip() else line for line in text.split("\n")),
    "with blank lines between": lambda text: text.replace("\n", "\n\n"),
    "with dashes in its ranges": lambda text: _dashes(text),
}


def _curly(text: str) -> str:
    """Straight quotes in pairs, as a word processor turns them, in lines without curly ones."""
    out = []
    for line in text.split("\n"):
        parts = line.split('"')
        pairs = len(parts) % 2 and "“" not in line
        out.append("".join(part + ("“" if index % 2 == 0 else "”") * (index < len(parts) - 1) for index,
                           part in enumerate(parts)) if pairs else line)
    return "\n".join(out)


def _dashes(text: str) -> str:
    import re
    return "\n".join(re.sub(r"(?<=\d)-(?=\d)", "–", line) if '"' not in line and line[:4].strip() == "" and not re.search(r"[A-Za-z]\d",
                                                                                                                          line) else line for line in text.split("\n"))


@source("by hand", "the same words, typed in another way")
@pytest.mark.parametrize("way", WAYS_OF_TYPING)
@pytest.mark.parametrize("name", TEXTS)
def test_it_does_not_matter_how_it_is_typed(name, way):
    """Line ends, tabs, blanks, quotes, dashes and comments change nothing in the tree."""
    plain = parse_method(text_of("x", TEXTS[name]))
    typed = parse_method(text_of("x", WAYS_OF_TYPING[way](TEXTS[name])))
    assert typed.findings == ()
    assert without_places(typed.tree) == without_places(plain.tree)


@source("by hand", "the strategy writes what the page allows")
@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(text=methods())
def test_every_method_that_can_be_drawn_is_read(text):
    """A method put together from the tables has no slip."""
    parsed = parse_method(text_of("drawn.method", text))
    assert [(finding.at.span.line, finding.title, text.split("\n")[finding.at.span.line - 1]) for finding in parsed.findings] == []
    assert parsed.tree.broken == ()
