"""Names without data of their own that borrow some."""

import pytest

from procsheet.model.kin import kin
from procsheet.model.library import Library, shipped
from tests.sources import source


@source("by hand", "common practice, no source: the last word says what it is")
@pytest.mark.parametrize("name, taken", [("rowan bark extract", "plant extract"), ("birch scent", "fragrance"), ("salted plum flavour", "flavour"),
                                         ("potassium hydroxide 23 % solution", "potassium hydroxide"), ("caustic soda 7 %", "sodium hydroxide")])
def test_what_a_name_is_taken_for(name, taken):
    """A perfume, a flavour, an extract and another strength are taken for the listed article."""
    assert kin(name, Library(shipped()))[1].startswith(taken)


@source("by hand", "the strength that is written")
def test_a_strength_is_its_own():
    """A borrowed solution has its own strength and none of the figures of the solid."""
    block, _ = kin("sodium hydroxide 23 %", Library(shipped()))
    said = {line.key: line for line in block.lines}
    assert "melts" not in said and "density" not in said and "corrosive" in said
    assert said["assay"].words[0].low == "23"


@source("by hand", "nothing is near enough")
@pytest.mark.parametrize("name", ["unheard-of stuff", "unheard-of stuff 5 %", "extractor fluid"])
def test_what_borrows_nothing(name):
    """A name that says nothing stays a blank one."""
    assert kin(name, Library(shipped())) == (None, "")


@source("by hand", "a strength lies above 0 and at most at 100 %")
@pytest.mark.parametrize("name", ["sodium hydroxide 1000 % solution", "sodium hydroxide 0 % solution"])
def test_what_cannot_be_a_strength_borrows_nothing(name):
    """More than all of it, or nothing of it, is no strength: the name stays unknown."""
    assert kin(name, Library(shipped())) == (None, "")
