"""Stages, lanes and their gate, forks, notes and what is left out."""

import pytest

from procsheet.model.material import fold
from procsheet.model.resolve import Options
from procsheet.pipeline import Request
from procsheet.sheet.lay_out import lay_out
from procsheet.sheet.model import Branch, Caution, Lanes, Step
from procsheet.sheet.text import boxes, words
from tests.made import compiled, method
from tests.sheet.sheets import made, sheet, steps, steps_of
from tests.sheet.test_sentences import PHASES
from tests.sources import source


def parts(text: str, stage: int = 0, request: Request = Request()):
    return lay_out(compiled(method(PHASES, text), request)).making.stages[stage].parts


TWO = """\
stage Heat
    charge A except "glycerin" into main
    heat main to 70 °C
    charge B into side
    heat side to 70 °C
stage Join
    add side to main, both at 68-72 °C, both within 5 °C of each other
    add "glycerin" to main"""


@source("by hand", "two vessels that share nothing until the fifth step")
def test_vessels_that_work_apart_stand_side_by_side():
    """Each lane has the steps of its vessel in order, and keeps the numbers of the method."""
    lanes, = parts(TWO)
    assert isinstance(lanes, Lanes)
    assert [(lane.vessel, lane.bar, [step.number for step in lane.parts], lane.note) for lane in lanes.lanes] == [
        ("MAIN", "solid", ["1", "2"], ""), ("SIDE", "hatched", ["3", "4"], "at the same time")]


@source("by hand", "the step behind the lanes asks for both at 68-72 °C and within 5 °C")
def test_the_gate_compares_what_is_about_to_meet():
    """The gate names the last step of each lane, the step that follows and its limits; the step itself does not ask again."""
    gate = parts(TWO)[0].gate
    assert gate.head == "When steps 2 and 4 are done:"
    assert words(gate.words).replace("\u00a0", " ") == "compare. Go on with step 5 only if they are both at 68–72 °C and within 5 °C of each other."
    assert "".join(boxes(gate.boxes)) == "[MAIN °C 68–72] [SIDE °C 68–72] [apart °C ≤ 5] [done by] [[checked by, second person]]"
    join = parts(TWO, 1)[0]
    assert words(join.sentence) == "Add SIDE to MAIN." and join.second and "apart" not in "".join(boxes(join.boxes))


@source("by hand", "one step in main, two in the pail")
def test_a_single_step_is_no_lane():
    """A lane of one step would only make the others narrow."""
    found = parts('    charge A except "glycerin" into main\n    charge "glycerin" into pail\n    stir pail by hand\n    add pail to main')
    assert all(isinstance(part, Step) for part in found)


@source("by hand", "seven steps in main, two in the side vessel: six beside two are three times as many")
def test_lanes_are_about_as_long():
    """A lane more than three times as long as the other would leave a column empty: its first steps stand over the whole width."""
    long = "".join("\n    stir main for 5 min" for _ in range(5))
    found = parts(f"stage Heat\n    charge A into main{long}\n    cool main to 20 °C\n    charge B into side\n    add C to side\nstage Join\n    add side to main")
    assert isinstance(found[0], Step) and [len(lane.parts) for lane in found[1].lanes] == [6, 2]


@source("by hand", "everybody waits between the first vessel and the second")
def test_a_wait_parts_what_is_side_by_side():
    """A step of no vessel stands over the whole width, and so does what it parts."""
    assert all(isinstance(part, Step) for part in parts(TWO.replace("    charge B", "    wait 10 min\n    charge B")))


@source("by hand", "bars of the demonstration: main solid, the kettle beside it hatched, a pail hollow")
def test_each_vessel_has_its_bar():
    """A step that moves material wears both bars."""
    found = {step.number: step for step in steps_of(sheet("harbour-hand-cream", "150 kg", "filler"))}
    assert (found["4"].bars, found["5"].bars, found["5"].vessel) == (("hollow",), ("solid", "hollow"), "PAIL → MAIN")
    assert (found["11"].bars, found["11"].vessel) == (("solid", "hatched"), "SIDE → MAIN")


@source("by hand", "two steps during the cooling of the hand cream")
def test_steps_inside_another_say_so():
    """The host tells when each begins, and has a box for the time; the guests name their host."""
    found = {step.number: step for step in steps_of(sheet("harbour-hand-cream", "150 kg", "filler"))}
    meanwhile = next(cue for cue in found["14"].cues if cue.head == "Meanwhile")
    assert words(meanwhile.words).replace("\u00a0", " ") == "step 15 below 60 °C, step 16 below 40 °C."
    assert [box.caption.replace("\u00a0", " ") for box in found["14"].boxes][:4] == ["start, time", "at 60 °C, time", "at 40 °C, time", "end, time"]
    assert found["15"].inside == found["16"].inside == "in step 14"


FORK = """\
    charge A into main
    choose one
        option by-hand
            stir main by hand
        option by-machine
            stir main with anchor
            stir main with propeller
    end
    if "it is grainy"
        stir main with homogeniser
    otherwise
        rest main for 10 min
    end
    repeat at most 3 times until clear
        stir main with anchor
    end"""


@source("by hand", "the fork as it is written")
def test_what_is_not_decided_stands_in_branches():
    """Options, the operator's fork and the rounds of a repeat each have a head of their own."""
    branches = [part for part in parts(FORK) if isinstance(part, Branch)]
    assert [words(branch.head) for branch in branches] == [
        "Either by hand, if ticked before issue:", "Or by machine, if ticked before issue:",
        "If it is grainy:", "Otherwise:", "Repeat at most 3 times until it is clear:"]
    assert [branch.rounds for branch in branches] == [0, 0, 0, 0, 3]
    assert [step.number for step in steps(parts(FORK))] == ["1", "2", "3", "4", "5", "6", "7"]


@source("by hand", "option by-machine is steps 3 and 4")
def test_an_option_that_is_chosen_stands_alone():
    """What was not chosen is said beside the first step, so that nobody looks for its number."""
    found = steps(parts(FORK, request=Request(options=Options(frozenset({fold("by-hand")})))))
    assert [step.number for step in found] == ["1", "2", "5", "6", "7"]
    assert [words(cue.words) for cue in found[1].cues if cue.head == "Left out"] == ["steps 3 and 4, option by-machine."]


@source("by hand", "the bench has no vacuum: step 15 of the hand cream is a note instead")
def test_the_plant_decides_its_own_fork():
    """With vacuum the step is there, without it the note stands beside what follows."""
    with_it = [step.number for step in steps_of(sheet("harbour-hand-cream", "150 kg", "filler"))]
    without = {step.number: step for step in steps_of(sheet("harbour-hand-cream", "1 kg", "bench"))}
    assert "15" in with_it and "15" not in without
    cues = [(cue.head, words(cue.words)) for cue in without["16"].cues]
    assert ("Note", "No foam may be left before C goes in.") in cues and ("Left out", "step 15, for plants with vacuum.") in cues


@source("by hand", "a note and a caution before the second step, a note behind the last")
def test_notes_and_cautions_stand_beside_their_step():
    """A caution goes before the step that follows it, a note beside it; at the end beside the last."""
    found = steps(parts(
        '    charge A into main\n    caution "It spits. Stand back."\n    note "Slow is fast."\n    stir main\n    note "That was all."'))
    assert Caution("It spits.", "Stand back.") in found[1].cautions
    assert [words(cue.words) for cue in found[1].cues if cue.head == "Note"][:2] == ["Slow is fast.", "That was all."]


@source("by hand", "the fragrance is optional and left out")
def test_a_step_of_a_material_that_is_left_out_is_left_out():
    """Its number is told beside the step before or after it."""
    phases = PHASES + "\nphase E: perfume\n    1 % optional    fragrance"
    text = method(phases, "    charge A into main\n    add E to main\n    add C to main")
    found = steps_of(lay_out(compiled(text, Request(options=Options(without=frozenset({"fragrance"}))))))
    assert [step.number for step in found] == ["1", "3"]
    assert [words(cue.words) for cue in found[1].cues if cue.head == "Left out"] == ["step 2, of a material that is left out."]


@source("by hand", "without a batch there is nothing to lay out")
def test_what_cannot_be_followed_has_no_sheet():
    """A method that could not be read to its end is a programmer's mistake here: the command line stops before."""
    with pytest.raises(ValueError):
        lay_out(compiled("product Nothing\n"))


@source("by hand", "the walls of a sheet: papers choose the sections")
def test_only_the_sections_that_are_wanted_are_laid_out():
    """`sections` of the papers leaves the others out."""
    from procsheet.sheet.papers import Papers
    found = lay_out(made("harbour-hand-cream"), Papers(sections=("weighing",)))
    assert found.weighing and not (found.front or found.before or found.making or found.checks or found.deviations)


@source("by hand", "without a plant nobody knows whether there is vacuum")
def test_a_branch_of_a_note_alone_keeps_its_note():
    """Both branches are printed, and the one without a step says what it says."""
    text = "charge A into main\nwhere the plant has vacuum\n    deaerate main\notherwise\n    note \"No foam.\"\nend\nstir main"
    fork = [part for part in parts(text) if isinstance(part, Branch)]
    assert [(words(branch.head), len(branch.parts), words(branch.end)) for branch in fork] == [
        ("If the plant has vacuum:", 1, ""), ("Otherwise:", 0, "No foam.")]
