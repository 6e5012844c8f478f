"""The sheet as plain text."""

import pytest

from procsheet.sheet.model import Box, Caution, Cue, Head, Making, Run, Setting, Sheet, Stage, Step
from procsheet.sheet.text import to_text
from tests.sheet.demo import HAND_CREAM, ODD_BALM
from tests.sheet.strings import bare, strings
from tests.sources import source

STEP = Step("8", ("solid", "hatched"), "SIDE → MAIN",
    (Run("Pump "), Run("SIDE", "vessel"), Run(" at "), Run("°C", "blank", "5 °C above melting"), Run(".")),
            second=True, cautions=(Caution("Hot oil.", "Burns."),), settings=(Setting("anchor", "40", "rpm"), Setting("lid")),
            cues=(Cue("Look for", (Run("no streaks."),)),), boxes=(Box("MAIN °C", "75–80"), Box("checked by", second=True)))

EXPECTED = """\
Balm
document ____  revision ____  batch ____  issue ____
content ____  issued ____
Permanent ink. Strike a wrong entry once, keep it readable, initial, date, give the reason.

MAKING
======

Stage 1  Join
-------------

  !  Hot oil. Burns.
  8  SIDE → MAIN (solid, hatched)  two people
     Pump SIDE at ____ °C (= 5 °C above melting).
     anchor 40 rpm | lid ____
     Look for: no streaks.
     [MAIN °C 75–80] [[checked by]]

[lot code on the packs] [packs and closures, lots] [labels issued, used, spoiled] [packing record, label specimen: number]
"""


@source("by hand", "the order of a step on paper")
def test_a_step_reads_in_order():
    """Caution, number, sentence, set-points, end point, boxes; a second person's box stands in double brackets."""
    assert to_text(Sheet(Head("Balm"), making=Making((Stage("Stage 1", "Join", (STEP,)),)))) == EXPECTED


@source("by hand", "the strings of the model")
@pytest.mark.parametrize("sheet", [HAND_CREAM, ODD_BALM], ids=["hand cream", "odd balm"])
def test_no_string_is_lost(sheet):
    """Every string of the model stands in the text."""
    seen = bare(to_text(sheet))
    assert [string for string in strings(sheet) if bare(string) not in seen] == []


@source("by hand", "the model's mark")
def test_a_draft_says_so_first():
    """The first line of a draft is the word."""
    assert to_text(ODD_BALM).splitlines()[0] == "draft"
    assert "draft" not in to_text(HAND_CREAM)
