"""The canonical layout: always the same, and it changes nothing but blanks."""

from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from procsheet.source import source as text_of
from procsheet.syntax.data import parse_data, parse_plant
from procsheet.syntax.format import format_materials, format_method, format_plant, lay_out
from procsheet.syntax.parse import parse_method
from procsheet.syntax.standing import method_places
from tests.methods import methods
from tests.sources import source
from tests.syntax.test_methods import TEXTS
from tests.syntax.told import without_places

ROOT = Path(__file__).resolve().parents[2]
DATA = [(path, format_materials, parse_data) for path in [*sorted((ROOT / "procsheet" / "materials").glob("*.materials")),
                                                          *sorted((ROOT / "recipes").glob("*.materials"))]]
DATA += [(path, format_plant, parse_plant) for path in sorted((ROOT / "recipes").rglob("*.plant"))]


def words(text: str) -> list[str]:
    return text.split()


def holds(text: str, lay, parse) -> None:
    """Laid out twice is laid out once; the words are the same, and so is the tree."""
    once = lay(text_of("x", text))
    assert lay(text_of("x", once)) == once
    assert words(once) == words(text.removeprefix("\ufeff"))
    before, after = parse(text_of("x", text)), parse(text_of("x", once))
    assert after.findings == before.findings == ()
    assert without_places(after.tree) == without_places(before.tree)


@source("by hand", "laid out twice is laid out once")
@pytest.mark.parametrize("name", TEXTS)
def test_a_method_keeps_its_words_and_its_meaning(name):
    """Layout changes blanks and nothing else, and is stable."""
    holds(TEXTS[name], format_method, parse_method)


@source("by hand", "laid out twice is laid out once")
@pytest.mark.parametrize("path, lay, parse", DATA, ids=lambda value: value.name if isinstance(value, Path) else "")
def test_data_keep_their_words_and_their_meaning(path, lay, parse):
    """Materials and plants that ship can be laid out, and mean the same afterwards."""
    holds(path.read_text(encoding="utf-8"), lay, parse)


@source("by hand", "laid out twice is laid out once")
@settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(text=methods(), data=st.data())
def test_any_method_can_be_laid_out(text, data):
    """A drawn method, with blanks strewn over it, keeps its words and its meaning."""
    lines = text.split("\n")
    wide = [line.replace(" to ", data.draw(st.sampled_from([" to ", "  to ",
                                                            "\tto "]))) if '"' not in line and "--" not in line else line for line in lines]
    blank = ["\n" * data.draw(st.integers(1, 3)) for _ in wide]
    holds("".join(line + end for line, end in zip(wide, blank)), format_method, parse_method)


UGLY = """product Plain  Cream
type  gel
basis 1 kg
phase A
  to 100 %, about 80.2 % purified   water
      hold back 1.5 % -- rinse
  4.00 %   glycerin # dry
vessel main


vessel side
method
stage  One
  charge A   into main
  choose one
  option by-hand
  stir main by hand
        for 5 min
  option by-machine
  stir main with anchor
  end
  # the last
  fill main
limits
  pH 5-7
"""
NEAT = """product Plain Cream
type gel
basis 1 kg

phase A
    to 100 %, about 80.2 %  purified water
        hold back 1.5 %  -- rinse
    4.00 %                  glycerin  # dry

vessel main

vessel side

method
stage One
    charge A into main
    choose one
        option by-hand
            stir main by hand
                for 5 min
        option by-machine
            stir main with anchor
    end
    # the last
    fill main

limits
    pH 5-7
"""


@source("by hand", "written as the page shows a method")
def test_the_layout_is_that_of_the_page():
    """Four blanks a level, names in a column, one blank line between the parts."""
    assert format_method(text_of("x", UGLY)) == NEAT


@source("by hand", "a slip in line 2")
def test_a_file_with_slips_comes_back_as_it_was():
    """What cannot be read is not touched, and what is wrong is said."""
    text = UGLY.replace("type  gel", "typo gel")
    formatted = lay_out(text_of("x", text), parse_method, method_places)
    assert formatted.text == text
    assert [finding.at.span.line for finding in formatted.findings] == [2]
