"""Each step in one imperative sentence of plain words, and what stands beside it."""

import pytest

from procsheet.pipeline import Request
from procsheet.plan.plan import Order
from procsheet.sheet.lay_out import lay_out
from procsheet.sheet.model import Step
from procsheet.sheet.text import boxes, words
from procsheet.syntax.clauses import CLAUSES, PHRASES
from procsheet.syntax.verbs import VERBS
from tests.made import RECIPES, compiled, method
from tests.sheet.sheets import figures, steps_of
from tests.sheet.strings import strings
from tests.sources import source

PHASES = """\
phase A: water
    to 100 %    purified water
        hold back 2 %
    5 %         glycerin
phase B: oils
    6 %         caprylic/capric triglyceride
    4 %         cetearyl alcohol
    2 %         white beeswax
phase C: late
    1 %         phenoxyethanol
phase D: pH
    as needed, about 0.1 %, at most 0.3 %    citric acid 20 % solution"""

BEFORE = """\
    charge A except "glycerin" into main
    heat main to 70 °C called heating
    wait 1 min
    charge B into side
    heat side to 70 °C
    cool main to 30 °C called cooling"""


def step(line: str, before: str = BEFORE) -> Step:
    """The last step of a method, as it is printed over the whole page."""
    text = method(PHASES, f"stage First\n{before}\nstage Second\n    {line}", vessels="main side pail", more="")
    return steps_of(lay_out(compiled(text)))[-1]


def sentence(line: str) -> str:
    return words(step(line).sentence).replace("\u00a0", " ")


# the water that closes is 1000 - 50 - 60 - 40 - 20 - 10 = 820 g, and all that MAIN holds before the others come

@source("by hand", "design of the sheet: imperative verb of the language first, a condition may precede it, vessels in capitals")
@pytest.mark.parametrize(("line", "said"), [
    ('add "glycerin" to main', "Add the glycerin to MAIN."),
    ('add "glycerin" to main over 5 min, below the surface', "Add the glycerin to MAIN over 5 min, below the surface."),
    ('add "glycerin" to main slowly, over 5 min, for 10 min', "Add the glycerin to MAIN slowly over 5 min, then mix for 10 min."),
    ('add "glycerin" to main until uniform', "Add the glycerin to MAIN, then mix until uniform."),
    ('add half of "glycerin" to main', "Add half of the glycerin to MAIN."),
    ('add 1/3 of "glycerin" to main', "Add a third of the glycerin to MAIN."),
    ('add 20 % of "glycerin" to main', "Add 20 % of the glycerin to MAIN."),
    ("add C to main", "Add the phenoxyethanol to MAIN."),
    ("add C to main below 40 °C", "Below 40 °C, add the phenoxyethanol to MAIN."),
    ("add C to main at most 40 °C", "At 40 °C or below, add the phenoxyethanol to MAIN."),
    ("add C to main at 30-35 °C", "At 30–35 °C, add the phenoxyethanol to MAIN."),
    ("add C to main at room temperature", "At room temperature, add the phenoxyethanol to MAIN."),
    ("add C to main in 3 portions, each for 2 min", "Add the phenoxyethanol to MAIN in 3 portions, 2 min after each."),
    ('add C to main if "foam is seen"', "If foam is seen, add the phenoxyethanol to MAIN."),
    ("add C to main if needed", "If needed, add the phenoxyethanol to MAIN."),
    ('add C to main when "it starts to thicken"', "When it starts to thicken, add the phenoxyethanol to MAIN."),
    ("add C to main after heating", "After step 2, add the phenoxyethanol to MAIN."),
    ("add C to main within 30 min of cooling", "Add the phenoxyethanol to MAIN within 30 min of step 6."),
    ("add C to main in the last 5 min of cooling", "In the last 5 min of step 6, add the phenoxyethanol to MAIN."),
    ("add side to main", "Add SIDE to MAIN."),
    ("add side at 60 °C to main", "Add SIDE to MAIN, SIDE at 60 °C."),
    ("add half of side to main", "Add half of SIDE to MAIN."),
    ("add side to main, both at 28-32 °C, both within 5 °C of each other", "Add SIDE to MAIN, both at 28–32 °C, within 5 °C of each other."),
    ("add side to main over 5 min with homogeniser, then for 8 min", "Add SIDE to MAIN over 5 min. Keep the homogeniser on for 8 min more."),
    ("add ? to main", "Add the material ____ to MAIN."),
    ("charge C into pail", "Charge the phenoxyethanol into PAIL."),
    ("transfer side to main", "Transfer SIDE to MAIN."),
    ("rinse side with the hold-back into main", "Rinse SIDE into MAIN with the purified water held back."),
    ('discharge main into "drum"', "Discharge MAIN into drum."),
    ("fill main at 20-30 °C", "Fill MAIN at 20–30 °C."),
    ("heat main to 75-80 °C", "Heat MAIN to 75–80 °C."),
    ("heat main to above 75 °C", "Heat MAIN to above 75 °C."),
    ("heat main to ? °C", "Heat MAIN to ____ °C."),
    ("heat main to 75 °C until melted", "Heat MAIN to 75 °C until melted."),
    ("cool main to 45 °C or lower", "Cool MAIN to 45 °C or below."),
    ("cool main quickly", "Cool MAIN quickly."),
    ("hold main at 75-80 °C for 20 min", "Hold MAIN at 75–80 °C for 20 min."),
    ("stop heating main", "Stop heating MAIN."),
    ("mix main for 10 min without air", "Mix MAIN for 10 min without drawing in air."),
    ("stir main for 15 min or until uniform", "Stir MAIN for 15 min or until uniform, whichever comes first."),
    ("stir main for 15 min until uniform", "Stir MAIN for 15 min and until uniform."),
    ("stir main by hand every 30 min", "Stir MAIN by hand every 30 min."),
    ("homogenise main for 5 min, keeping 60-64 °C", "Homogenise MAIN for 5 min, keeping 60–64 °C."),
    ("mill main for 20 min until fineness at most 15 µm", "Mill MAIN for 20 min and until the fineness is 15 µm or less."),
    ('recirculate main through "in-line homogeniser" for 3 passes', "Recirculate MAIN through the in-line homogeniser for 3 passes."),
    ('pass main through "colloid mill" into pail', "Pass MAIN through the colloid mill into PAIL."),
    ("shake main for 1 min", "Shake MAIN for 1 min."),
    ('disperse "glycerin" in main until dispersed', "Disperse the glycerin in MAIN."),
    ('dissolve "glycerin" in main until clear', "Dissolve the glycerin in MAIN until clear."),
    ("hydrate main for 30 min", "Hydrate MAIN for 30 min."),
    ("hydrate main for 15-30 min or until hydrated", "Hydrate MAIN for 15–30 min or until hydrated, whichever comes first."),
    ("hydrate main until hydrated", "Hydrate MAIN."),
    ("melt main on a water bath until melted", "Melt MAIN on a water bath."),
    ("emulsify side into main over 5 min", "Emulsify SIDE into MAIN over 5 min."),
    ("neutralise main with D slowly", "Neutralise MAIN with the citric acid 20 % solution slowly."),
    ('react main until "a trail stays on the surface"', "Let MAIN react until a trail stays on the surface."),
    ("deaerate main for 10 min under vacuum at -0.5 bar", "Deaerate MAIN for 10 min."),
    ("evacuate main to -0.6 bar", "Evacuate MAIN to −0.6 bar."),
    ("vent main slowly", "Vent MAIN slowly."),
    ("blanket main with nitrogen", "Blanket MAIN with nitrogen."),
    ("close main at once", "Close MAIN at once."),
    ("adjust main to pH 5.0-5.5 with D, in portions, each for 5 min",
     "Adjust MAIN to pH 5.0–5.5 with D1, citric acid 20 % solution, in portions, 5 min after each."),
    ("adjust main to viscosity 9000-14000 mPa.s with D", "Adjust MAIN to a viscosity of 9000–14 000 mPa·s with D1, citric acid 20 % solution."),
    ('make up main with "purified water" to 100 %', "Make up MAIN to 820.0 g net with the purified water."),
    ('replace loss in main with "purified water"', "Replace the loss in MAIN with the purified water."),
    ("check main pH 5.0-5.5", "Check the pH of MAIN."),
    ('check main assay of "glycerin" 4-6 %', "Check the assay of glycerin in MAIN."),
    ('sample main 200 g for "microbiology"', "Sample 200 g of MAIN for microbiology."),
    ("sample main", "Sample MAIN."),
    ("strain main through 200 µm", "Strain MAIN through 200 µm."),
    ("rest main for 12 h covered", "Rest MAIN for 12 h."),
    ("set aside main", "Set MAIN aside."),
    ("wait 30 min", "Wait 30 min."),
    ('wait for "release by the laboratory"', "Wait for release by the laboratory."),
    ("compare main top and bottom", "Compare top and bottom of MAIN."),
    ('prepare main "Drain the jacket."', "Prepare MAIN. Drain the jacket."),
    ('prepare "Cut the wax"', "Cut the wax."),
    ('do "Photograph a drop."', "Photograph a drop."),
])
def test_a_step_in_words(line, said):
    """The sentence of a step."""
    assert sentence(line).replace("\u2009", " ") == said


@source("by hand", "the table of verbs")
def test_every_verb_has_a_sentence():
    """Each verb's own example can be printed: it begins with a capital and ends with a full stop."""
    for verb in VERBS:
        if verb.name in ("note", "caution"):
            continue
        text = method(PHASES, f"{BEFORE}\n    {verb.example}", vessels="main side pail pigment tank bars pan")
        printed = words(steps_of(lay_out(compiled(text)))[-1].sentence)
        assert printed[0].isupper() and printed.endswith("."), (verb.name, printed)


HOSTS = ("add C to main", "stir main", "cool main to 20 °C", "deaerate main", "check main appearance \"white\"", "heat main to 90 °C", "rest main")
NAMED = BEFORE + "".join(f"\n    stir main for 5 min called {name}" for name in ("milling", "emulsified", "emulsifying")) + "\n    wait 1 min"


def hosted(kind: str, phrase: str):
    """A step that takes a clause, as written and as printed, beside the same step without it."""
    for host in HOSTS:
        texts = [method(PHASES, f"stage First\n{NAMED}\nstage Second\n    {host} {end}".rstrip(), vessels="main side pail") for end in ("", phrase)]
        bare, full = map(compiled, texts)
        step = full.batch.method.steps()[-1] if full.batch else None
        if bare.batch and step is not None and step.has(kind):
            return step, *(next(one for one in steps_of(lay_out(made)) if one.number == str(step.number)) for made in (bare, full))
    raise AssertionError(f"no step takes {phrase}")


@source("by hand", "the table of clauses, each with its own example")
@pytest.mark.parametrize("clause", [clause for clause in CLAUSES if clause.example and clause.kind != "called"], ids=lambda clause: clause.kind)
def test_no_clause_is_lost(clause):
    """The figures and words of every clause stand somewhere in its step."""
    step, _, printed = hosted(clause.kind, clause.example)
    said = " ".join(strings(printed))
    assert all(figure in said for figure in figures(step))


@source("by hand", "the table of phrases")
@pytest.mark.parametrize(("kind", "phrase"), [(kind, phrases[0]) for kind, phrases, _, _ in PHRASES])
def test_no_phrase_is_lost(kind, phrase):
    """Every phrase changes what is printed."""
    _, bare, printed = hosted(kind, phrase)
    assert [*strings(bare)] != [*strings(printed)]


def beside(line: str) -> list[str]:
    """Set-points and cues of a step."""
    found = step(line)
    cues = [f"{each.head}: {words(each.words)}".replace("\u00a0", " ") for each in found.cues]
    return [f"{each.name} {each.value} {each.unit}".strip() for each in found.settings] + cues


@source("by hand", "design of the sheet: what is set stands below the sentence, what is seen and what stops it below that")
@pytest.mark.parametrize(("line", "said"), [
    ("stir main with anchor at 30 rpm", "anchor 30 rpm"),
    ("stir main with anchor", "anchor  rpm"),
    ("stir main with homogeniser at 12 m/s", "tip speed 12 m/s"),
    ("stir main with homogeniser at setting 5", "homogeniser 5 on its dial"),
    ("stir main with sweep or paddle", "sweep or paddle  rpm"),
    ("stir main stirring gently", "stirring slow"),
    ("stir main at low shear or medium shear", "shear low or medium"),
    ("stir main at 200 rpm", "stirrer 200 rpm"),
    ("add C to main without stirring", "stirrer off"),
    ("stir main under nitrogen", "cover nitrogen"),
    ("stir main covered", "lid closed"),
    ("cool main to 20 °C at 0.5-1 °C/min", "cooling 0.5–1 °C/min"),
    ("cool main to 20 °C jacket not below 10 °C", "jacket ≥ 10 °C"),
    ("add side to main at 5 kg/min", "rate 5 kg/min"),
    ("deaerate main under vacuum at -0.5 bar", "vacuum −0.5 bar"),
    ("adjust main to pH 5 on 10 % dilution with D", "measure on 10 % in water"),
    ("adjust main to pH 5 with D", "in all, at most 3.00 g"),
    ("adjust main to pH 5 with D", "expect about 1.0 g"),
    ("neutralise main with D", "in all, at most 3.00 g"),
    ("neutralise main with D", "expect about 1.0 g"),
    ("homogenise main at 3000 rpm", "homogeniser 3000 rpm"),
    ("homogenise main", "homogeniser  rpm"),
    ("mill main with pestle", "tool pestle"),
    ("check main viscosity 9000 mPa.s at 25 °C", "measure at 25 °C"),
    ("stir main until melted", "Look for: all liquid, nothing solid left."),
    ("stir main never above 60 °C", "Stop if: MAIN passes 60 °C."),
    ('check main appearance "smooth", if not "stir 4 min more"', "If not: Stir 4 min more."),
    ('stir main because "trial 41"', "Why: Trial 41."),
    ("stir main  -- until the hour strikes", "Note: Until the hour strikes."),
    ("? stir main", "Open point: Is this step right? Confirm it before making."),
    ("add C to main in the order listed, one at a time, sprinkled, into the vortex, below the surface, over 10 min",
     "How: Sprinkled into the vortex."),
])
def test_what_stands_beside_the_sentence(line, said):
    """A set-point or a hint of a step."""
    assert said in beside(line)


def box_row(line: str) -> str:
    return "".join(boxes(step(line).boxes)).replace("\u00a0", " ")


@source("by hand", "design of the sheet: the limit stands in the box where the value is written; a plain temperature carries 2 °C")
@pytest.mark.parametrize(("line", "said"), [
    ("heat main to 75 °C", "[end °C 73–77]"),
    ("heat main to 75-80 °C", "[end °C 75–80]"),
    ("add C to main below 40 °C", "[start °C < 40]"),
    ("add C to main at most 40 °C", "[start °C ≤ 40]"),
    ("hold main at 75-80 °C for 5 min", "[lowest °C ≥ 75] [highest °C ≤ 80]"),
    ("stir main never above 60 °C", "[highest °C ≤ 60]"),
    ("fill main at room temperature", "[start °C 20–25]"),
    ("add side at 60 °C to main", "[SIDE °C 58–62]"),
    ("add side to main, both at 28-32 °C, both within 5 °C of each other",
     "[MAIN °C 28–32] [SIDE °C 28–32] [apart °C ≤ 5] [done by] [[checked by, second person]]"),
    ("check main pH 5.0-5.5", "[time] [pH 5.0–5.5] [done by]"),
    ("check main drop size at most 10 µm", "[drop size, µm ≤ 10]"),
    ('check main appearance "white, glossy, no grains"', "[appearance white, glossy, no grains]"),
    ("adjust main to pH 5.0-5.5 with D, double-checked", "[end pH 5.0–5.5] [D1 used, g ≤ 3.00] [done by] [[checked by, second person]]"),
    ('make up main with "purified water" to 100 %', "[before, g net] [after, g net 820.0]"),
    ("deaerate main under vacuum at -0.5 bar", "[bar, read −0.5]"),
    ("neutralise main with D until pH 5.0-5.5", "[D1 used, g ≤ 3.00] [pH 5.0–5.5]"),
    ("add side to main, both within 9 °F of each other", "[apart °F ≤ 9]"),
    ("add C to main if needed", "[done: yes / no]"),
    ("? stir main", "[[step confirmed by, date]]"),
    ("stir main with sweep or paddle", "[which, used]"),
    ("rest main for 12 h", "[start, date, time] [end, date, time]"),
])
def test_boxes_hold_their_limits(line, said):
    """The boxes of a step."""
    assert said in box_row(line)


@source("by hand", "`in 3 portions` is three columns; a walk to a target begins before the first portion")
def test_portions_have_a_grid():
    """Portions are written down one by one."""
    assert step("add C to main in 3 portions").portions.heads == ("portion 1", "portion 2", "portion 3")
    walk = step("adjust main to pH 5.0-5.5 with D, in portions, each for 5 min").portions
    assert walk.heads[0] == "before" and walk.rows[0].cells[0] == "none" and [row.label for row in walk.rows] == ["D1 added, g", "pH after 5 min"]


@source("by hand", "the verb is told at full heat only where nothing slows it")
@pytest.mark.parametrize(("line", "told"), [("heat main to 90 °C", True), ("heat main to 90 °C slowly", False), ("heat main to 90 °C on a water bath", False)])
def test_slowly_goes_without_the_full_jacket(line, told):
    """A step that goes slowly, or in a bath, has neither the jacket at its hottest nor the time that would take."""
    text = method(PHASES, f"stage First\n{BEFORE}\nstage Second\n    {line}")
    printed = steps_of(lay_out(compiled(text, Request(Order(mass=40), RECIPES / "plants" / "pilot.plant"))))[-1]
    assert ({"takes about", "jacket"} <= {setting.name for setting in printed.settings}) == told


@source("by hand", "105 °F to 113 °F is 40.6 to 45 °C; a tolerance of 2 °C is 3.6 °F, a jacket of 95 °C is 203 °F, a room of 20-25 °C is 68-77 °F")
def test_a_method_in_fahrenheit_is_printed_in_fahrenheit():
    """Sentence, box, jacket, room and caution have the scale of the method."""
    steps = "    charge A into main\n    heat main to 170 °F\n    cool main to room temperature\n    fill main at 105-113 °F"
    found = lay_out(compiled(method(PHASES, steps), Request(Order(mass=40), RECIPES / "plants" / "pilot.plant")))
    said = " ".join(strings(found.making)).replace("\u00a0", " ")
    assert "170 °F" in said and "166–174" in said and "203 °F" in said and "68–77" in said and "105–113" in said and "°C" not in said
    assert any("203" in line for line in found.before.checks)


@source("by hand", "names of the formula: one with a comma, one of seven words")
@pytest.mark.parametrize(("name", "said"), [("purified water, boiled and cooled", "Charge A1 purified water into MAIN."), ("olive oil", "Charge the olive oil into MAIN."),
                                            ("potassium cetyl phosphate and hydrogenated palm glycerides", "Charge A1 potassium cetyl phosphate into MAIN.")])
def test_a_single_material_is_named(name, said):
    """A phase of one material is told by its name; a name that breaks up the sentence by its code and how it begins."""
    text = method(f"phase A: a\n    to 100 %  {name}", "    charge A into main\n    fill main", vessels="main")
    assert words(steps_of(lay_out(compiled(text)))[0].sentence) == said
