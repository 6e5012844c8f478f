"""The front page, what is made sure of before starting, the weighing list, checks and yield."""

import pytest

from procsheet.model.resolve import Options
from procsheet.pipeline import Request
from procsheet.plan.size import read_size
from procsheet.sheet.lay_out import lay_out
from procsheet.sheet.lay_out_front import day
from procsheet.sheet.model import Box
from tests.made import compiled, method
from tests.sheet.sheets import sheet
from tests.sources import source

PHASES = """\
phase A: water
    to 100 %    purified water
        hold back 2 %
    5 %         glycerin
phase B: oils
    8 %         cetearyl alcohol
    3 %         cetearyl glucoside
phase C: late
    1 %         fragrance
phase D: pH
    as needed, about 0.1 %, at most 0.3 %    citric acid 20 % solution"""

STEPS = """\
    charge A into main
    heat main to 60 °C
    charge B into side
    heat side to 80 °C until melted
    add side to main with homogeniser
    homogenise main for 5 min
    rinse side with the hold-back into main
    cool main to 60 °C
    add C to main at 60 °C
    cool main to 30 °C
    adjust main to pH 5 with D
    make up main with "purified water" to 100 %
    sample main 50 g for "microbiology"
    fill main"""

MORE = 'accept equal-temps because "self-emulsifying, trial 41" by "R.T."'


def made(more: str = "", steps: str = STEPS, size: str = "1 kg"):
    return lay_out(compiled(method(PHASES, steps, kind="oil-in-water emulsion", more=more), Request(read_size(size))))


@source("by hand", "the accept line of the method")
def test_an_exception_stands_first_and_is_agreed_in_a_thick_box():
    """The reason and who signed for it, in words; the warning that nobody signed for is to be read."""
    points = made(MORE).front.points
    assert points[0].level == "Exception" and points[0].more == "Accepted by R.T.: “self-emulsifying, trial 41”" and points[0].box.second
    assert {point.level for point in points[1:]} <= {"To know", "Not checked", "Note"}
    assert any(point.level == "To know" and point.more.startswith("Step 9.") for point in points)


@source("by hand", "a finding speaks of main, the paper of MAIN; of line 30 of the file, the paper of a step")
def test_findings_speak_as_the_paper_does():
    """Vessels in capitals, no line numbers."""
    said = " ".join(f"{point.fact} {point.more}" for point in made(MORE).front.points)
    assert "MAIN" in said and " main " not in said and "line " not in said


@source("by hand", "97-99.5 % of 150 kg; fill 75 mL at 0.98 g/mL, lowest yield, less 6 kg left in the filler: 139.5 / 0.0735 = 1898")
def test_yield_and_packs_of_the_hand_cream():
    """What comes out, with its limits, and how many packs that is at the least."""
    front = sheet("harbour-hand-cream", "150 kg", "filler").front
    assert (front.size, front.expected, front.expected_note) == ("150.0\u00a0kg", "145.5 – 149.2\u00a0kg", "97–99.5\u00a0% of 150.0\u00a0kg")
    facts = {fact.caption: fact.text for fact in front.facts}
    assert facts["Fits"] == "about 1800 × 75 mL tube" and facts["Packed"] == "24 per case" and facts["People"] == "3, one of them to check"


@source("by hand", "the header of the hand cream")
def test_who_and_why_stand_on_the_front():
    """Names, revision with its reason and day, the approvals with what is known of them."""
    front = sheet("harbour-hand-cream", "150 kg", "filler").front
    assert "Revision 3, 2 March 2026: more glycerin." in front.about
    assert [(one.role, one.name, one.second) for one in front.approvals] == [
        ("written by", "R.T.", False), ("checked by", "M.O.", True), ("accepted by the plant", "", False), ("issued by", "", False)]


@source("by hand", "days as the language writes them")
@pytest.mark.parametrize(("date", "said"), [("2026-03-02", "2 March 2026"), ("2026-13-02", "2026-13-02"), ("", "")])
def test_a_day(date, said):
    """In words; what is no day stands as it is."""
    assert day(date) == said


@source("by hand", "plan of the filler: MAIN 151.1 L in M200")
def test_equipment_says_what_a_vessel_must_be():
    """Litres that it must hold, tools and services that its steps ask for, and the tag that is planned."""
    main = sheet("harbour-hand-cream", "150 kg", "filler").front.equipment[0]
    assert (main.bar, main.vessel, main.planned) == ("solid", "MAIN", "M200")
    assert main.must_be.replace("\u00a0", " ") == "Holds 152 L; anchor, propeller, homogeniser, heating, cooling, vacuum, scale"


@source("by hand", "cautions of the check, with the steps they stand before")
def test_each_caution_is_told_once():
    """The same danger before two steps is one line with both numbers."""
    cautions = sheet("quayside-hand-gel", "150 kg", "filler").front.cautions
    assert len({caution.danger for caution in cautions}) == len(cautions)
    assert any(caution.advice.endswith("Steps 6 and 17.") for caution in cautions)


@source("by hand", "the lines of the plan: 1000 - 50 - 80 - 30 - 10 = 830 g of water, 20 held back, 3 kept for the acid")
def test_the_weighing_list_knows_what_is_weighed_when():
    """Held back, made up, up to: what is not weighed out beforehand has no range, and says why."""
    rows = {row.material: row for phase in made().weighing.phases for row in phase.rows}
    assert rows["Purified water, held back"].note.startswith("Kept apart for step 7.") and rows["Purified water, held back"].target == "20.00"
    assert rows["Purified water, make-up"].note == "To the mark in step 12; what evaporated comes on top."
    assert [(row.before, row.target, row.low) for row in map(rows.get, ("Purified water, make-up", "Citric acid 20 % solution"))] == [
        ("about", "2.0", ""), ("up to", "3.00", "")]
    assert rows["Citric acid 20 % solution"].note.replace("\u00a0", " ") == "1.0 g expected; step 11 tells how much goes in."
    assert rows["Purified water"].target == "807.00"


@source("by hand", "grams and millilitres in one formula")
def test_two_units_stand_beside_their_figures():
    """Where a column cannot have one unit, each row has its own."""
    weighing = sheet("calamine-lotion").weighing
    assert weighing.unit == "" and {row.unit for phase in weighing.phases for row in phase.rows} == {"g", "mL"}
    assert {row.unit for phase in sheet("harbour-hand-cream", "150 kg", "filler").weighing.phases for row in phase.rows} == {"kg", "g"}
    assert sheet("harbour-hand-cream", "1 kg", "bench").weighing.unit == "g"


@source("by hand", "the plan of the filler: 0.6 kg on L1 that reads 0.01 g, 1.35 kg on L15 that reads 1 g")
def test_a_small_weight_is_told_in_grams():
    """What is less than a kilogram, or weighed finer than 0.1 g, reads in g, and a phase of both in the unit of the larger."""
    phases = sheet("harbour-hand-cream", "150 kg", "filler").weighing.phases
    rows = {row.material: (row.target, row.unit) for phase in phases for row in phase.rows}
    assert rows["Xanthan gum"] == ("300.00", "g") and rows["Phenoxyethanol and ethylhexylglycerin"] == ("1.350", "kg")
    assert [phase.total for phase in phases if phase.name == "Phase C"] == ["2 containers, 1.800 kg in all"]
    assert ("1200.00", "g") in {(row.target, row.unit) for phase in sheet("mudlark-clay-mask", "150 kg", "filler").weighing.phases for row in phase.rows}


@source("by hand", "published: 5 g of sodium citrate, 5 mL of phenol, 50 mL of glycerin, 670 mL of water of 1000 mL")
def test_weights_and_volumes_are_summed_apart():
    """A phase that is weighed and measured has two sums; volumes have four digits, whole ones no zeros."""
    phase = sheet("calamine-lotion").weighing.phases[1]
    assert phase.total.endswith("5.00 g and 725 mL in all")
    assert [row.target for row in phase.rows][1:4] == ["5", "50", "670.4"]
    masses = sheet("calamine-lotion").checks.masses
    assert (masses[0].name, masses[0].expected) == ("Made up to", "1000")


@source("by hand", "30 % of ammonium lauryl sulfate stands in for the coceth sulfate")
def test_an_alternative_says_what_it_stands_in_for():
    """The row that is made names the one that is not."""
    notes = [row.note for phase in sheet("sulfate-shampoo").weighing.phases for row in phase.rows]
    assert any("In place of 30\u00a0% ammonium lauryl sulfate 30 %." in note for note in notes)


@source("by hand", "1000 g, one sample of 50 g")
def test_masses_have_letters_and_the_ratios_use_them():
    """Weighed in, out, samples, left; the yield is worked out by hand from them."""
    checks = made().checks
    assert [(mass.letter, mass.expected) for mass in checks.masses] == [("a", "1000"), ("b", ""), ("c", "50.00"), ("d", "")]
    assert [ratio.formula for ratio in checks.ratios] == ["b ÷ 1000 × 100", "(b + c + d) ÷ a × 100"]


@source("by hand", "the clearance list of the hand cream")
def test_before_starting_names_what_this_batch_needs():
    """Its own balances, thermometers, meters and media."""
    lines = sheet("harbour-hand-cream", "150 kg", "filler").before.checks
    assert "Balances F600, L15 and L1 checked today" in lines and "Thermometers of MAIN and SIDE within calibration" in lines
    assert any(line.replace("\u00a0", " ").startswith("Jacket hot 105 °C and cold 14 °C, vacuum, drums") for line in lines)


@source("by hand", "what the header says")
def test_the_bulk_box_says_how_long_it_keeps():
    """The limit stands in the box where the date is written."""
    assert sheet("harbour-hand-cream", "150 kg", "filler").deviations.bulk[-1] == Box(
        "use or retest before", "keeps 7\u00a0days at 15–25\u00a0°C in drum", width=2)


@source("by hand", "an option of the command line")
def test_what_is_left_out_is_not_weighed():
    """An optional material that is left out has no line."""
    phases = PHASES + "\nphase E: perfume\n    1 % optional    allantoin"
    text = method(phases, STEPS.replace("    fill main", "    add E to main\n    fill main"), kind="oil-in-water emulsion")
    found = lay_out(compiled(text, Request(options=Options(without=frozenset({"allantoin"})))))
    assert "Phase E" not in [phase.name for phase in found.weighing.phases]


@source("by hand", "a mould beside the vessels; only main is heated")
def test_a_mould_is_no_vessel():
    """Moulds are not among the equipment, not cleaned, have no thermometer, and are made ready; their bar is explained all the same."""
    steps = "    charge A into main\n    melt main\n    pour main into stick\n    cool stick to below 30 °C"
    phases = "phase A: wax\n    60 %  white beeswax\n    40 %  olive oil"
    found = lay_out(compiled(method(phases, steps, kind="anhydrous", vessels="main").replace("\n\nmethod", '\nmould stick "stick case"\n\nmethod')))
    said = " ".join(found.before.checks)
    assert [each.vessel for each in found.front.equipment] == ["MAIN"] and [each.vessel for each in found.before.vessels] == ["MAIN", "STICK"]
    assert "STICK" not in said and "Thermometer of MAIN within" in said and "tick case" in said


@source("by hand", "what the steps of each vessel ask for")
@pytest.mark.parametrize(("line", "said"), [
    ("homogenise main", "homogeniser"), ("stir main", "stirrer"), ("stir main by hand", "stirred by hand"), ("rest main for 1 h covered", "lid"),
    ("melt main on a water bath", "water bath"), ("blanket main with nitrogen", "nitrogen"),
])
def test_a_vessel_must_have_what_its_steps_mean(line, said):
    """A tool that a verb means counts as one that is named; a bath is no jacket."""
    must = lay_out(compiled(method("phase A: water\n    to 100 %  purified water", f"    charge A into main\n    {line}", vessels="main"))).front.equipment[0].must_be
    assert must.split("; ")[1].split(", ") == [said]


@source("by hand", "the gel holds 62 % of alcohol")
def test_a_vessel_for_alcohol_must_be_rated_for_it():
    """A vessel that ever holds a flammable material says so."""
    assert "rated for flammable vapour" in sheet("quayside-hand-gel", "150 kg", "filler").front.equipment[0].must_be


@source("by hand", "`q.s. allantoin` that no adjust step uses")
def test_how_the_method_was_read_is_not_for_the_crew():
    """A hint about words of the formula stays off the front page; the open dose is a blank on the weighing list."""
    text = method("phase A: water\n    to 100 %  purified water\n    q.s.  allantoin", "    charge A into main\n    fill main")
    points = lay_out(compiled(text)).front.points
    assert not [point for point in points if "is read as" in f"{point.fact} {point.more}"]
