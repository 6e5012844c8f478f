"""The sheets of all recipes: as they were read through, and nothing of the method missing."""

import re

import pytest

from procsheet.sheet.figures import kelvins, reading, rough
from procsheet.sheet.model import Run
from procsheet.sheet.text import BLANK, to_text
from procsheet.sheet.work import Job, work
from procsheet.syntax import tree
from tests.made import RECIPES
from tests.sheet.sheets import EXPECTED, OTHERS, RECORDED, SIZES, STOPPED, figures, made, recorded, sheet, steps_of
from tests.sheet.strings import strings
from tests.sources import source

ALL = [(name, *how) for name in RECORDED for how in SIZES] + [(name, "", "") for name in OTHERS]
each_sheet = pytest.mark.parametrize(("name", "size", "plant"), ALL, ids=["-".join(filter(None, (name, plant))) for name, _, plant in ALL])
FORBIDDEN = ("should", "approximately", "as needed", "gently")


@source("recorded", "read through by a person, as the crew at the kettle would")
@pytest.mark.parametrize("name", [*RECORDED, *OTHERS])
def test_a_sheet_says_what_it_said(name):
    """The sheet of a recipe changes only where somebody has read the change."""
    how = RECORDED.get(name, ("", ""))
    assert to_text(sheet(name, *how)) == (EXPECTED / f"{name}.txt").read_text(encoding="utf-8"), "python -m tests.rewrite, then read the difference"


@source("by hand", "the files in the folder of recipes")
def test_every_recipe_is_kept():
    """Each recipe has its sheet, or is one that is stopped; no sheet is left over."""
    assert {path.stem for path in RECIPES.glob("*.method")} == {*RECORDED, *STOPPED}
    assert {path.stem for path in EXPECTED.glob("*.txt")} == {*RECORDED, *OTHERS} == {*recorded()}
    assert all(made(name).stops for name in STOPPED)


@source("by hand", "the plan's lines beside the printed text")
@each_sheet
def test_no_material_and_no_amount_is_missing(name, size, plant):
    """Every row stands on the sheet by name and code, every line with its target and range as the balance shows them."""
    text = to_text(sheet(name, size, plant))
    for line in made(name, size, plant).batch.plan.lines:
        assert line.row.name[1:] in text and line.row.code in text
        if line.use == "make-up" and line.exact:
            assert f"about {rough(line.exact, line.unit)} {line.unit}" in text
        elif line.exact and not (line.use == "corrector" and line.row.cap is None):
            assert f"{reading(line.target, line.unit, line.decimals)} {line.unit}" in text
        if line.low is not None and line.exact and line.use not in ("make-up", "corrector"):
            assert f"from {reading(line.low, line.unit, line.decimals)} to {reading(line.high, line.unit, line.decimals)}" in text


@source("by hand", "the figures and quoted words of the method's text")
@each_sheet
def test_nothing_that_a_step_says_is_missing(name, size, plant):
    """Each figure and each word in quotes of a step stands among the strings of that step, or in the gate above it."""
    printed, compiled = sheet(name, size, plant), made(name, size, plant)
    by_number = {step.number: step for step in steps_of(printed)}
    whole = " ".join(strings(printed))
    for task in work(compiled).tasks:
        here = " ".join(strings(by_number[str(task.step.number)]))
        for said in figures(task.step):
            if said in speeds(task.step) and any(setting.unit == "rpm" and setting.value for setting in by_number[str(task.step.number)].settings):
                continue                                    # told as the drive is set
            assert said in here or task.step.has("both at", "both within") and said in whole, (task.step.number, said)


def speeds(step) -> set[str]:
    return {end for clause in step.written.clauses if clause.kind == "speed" for end in (clause.value.low, clause.value.high)}


@source("by hand", "the limits of the method's text")
@each_sheet
def test_no_limit_is_missing(name, size, plant):
    """Every limit has its row with name and target."""
    checks = sheet(name, size, plant).checks.checks
    for limit in made(name, size, plant).method.limits:
        target = limit.measure.target
        digits = [end for end in (target.low, target.high) if end != "?"] if isinstance(target, tree.Quantity) else []
        words = [target.text] if isinstance(target, tree.Text) else []
        row = next(check for check in checks if limit.measure.name.lower() in check.name.lower()
                   and all(bare(one) in bare(check.limit) for one in (*digits, *words)))
        assert not limit.remark or limit.remark.text in row.how


def bare(text: str) -> str:
    return text.replace("\u2009", "")


@source("by hand", "a step has one number everywhere: that of the method")
@each_sheet
def test_step_numbers_agree(name, size, plant):
    """The numbers are those of the method less what is left out, each once, and no text speaks of a step that is not there."""
    printed, compiled = sheet(name, size, plant), made(name, size, plant)
    numbers = [int(step.number) for step in steps_of(printed)]
    left_out = {int(number) for step in steps_of(printed) for cue in step.cues if cue.head == "Left out"
                for number in re.findall(r"\d+", cue.words[0].text)}
    assert len(set(numbers)) == len(numbers)
    assert set(numbers) | left_out == {step.number for step in compiled.batch.method.steps() if step.number}
    spoken = re.findall(r"\bsteps? (\d+)", " ".join(text for text in strings(printed) if "for plants with" not in text and "option" not in text))
    assert {int(number) for number in spoken} <= set(numbers)


@source("by hand", "words that the design of the sheet keeps off it")
@each_sheet
def test_words_that_mean_nothing_do_not_occur(name, size, plant):
    """No sentence says should, approximately, as needed or gently."""
    for step in steps_of(sheet(name, size, plant)):
        said = " ".join(run.text for run in step.sentence if run.kind != "blank").lower()
        assert not [word for word in FORBIDDEN if re.search(rf"\b{word}\b", said)]


@source("by hand", "design of the sheet: at most 18 words in a sentence over the whole page, 14 in a lane, each followed by at most one more")
@pytest.mark.parametrize("name", RECORDED)
def test_a_sentence_is_short(name):
    """A shift leader reads it in one go."""
    printed = sheet(name, *RECORDED[name])
    for stage in printed.making.stages:
        for part in stage.parts:
            narrow = hasattr(part, "lanes")
            for step in steps_of(printed._replace(making=printed.making._replace(stages=(stage._replace(parts=(part,)),)))):
                first = words(step.sentence).split(". ")[0]
                assert sum(any(map(str.isalnum, word)) for word in first.split()) <= (14 if narrow else 18), first


def words(runs: tuple[Run, ...]) -> str:
    """A number with its unit, and a vessel, count as one word."""
    return "".join("x" if run.kind in ("number", "vessel", "blank") else run.text for run in runs)


@source("by hand", "the open figures of the method's text")
def test_what_is_open_is_a_blank_on_a_draft():
    """`? °C` is a blank with its unit, a step to be confirmed says so, and the first word of the sheet is draft."""
    text = to_text(sheet("aqueous-cream"))
    assert text.startswith("draft\n")
    assert f"Heat MAIN to {BLANK} °C until melted." in text and "Is this step right?" in text and "[[step confirmed by, date]]" in text


@source("by hand", "the published method leaves the dose of the rinse open")
def test_an_open_share_is_a_blank():
    """`? %` of the water is a blank in the sentence and one behind the material."""
    printed = sheet("calamine-lotion")
    rinse = next(step for step in steps_of(printed) if step.number == "14")
    assert Run("%", "blank") in rinse.sentence and rinse.additions[0].amount == ""
    assert printed.head.draft


@source("by hand", "plant file: temperature 2 °C; the method heats to a plain 75 °C and to 75-80 °C")
def test_a_plain_temperature_carries_the_tolerance_a_range_stands_as_written():
    """75 °C is kept between 73 and 77 in a plant that holds 2 °C; a written range and a bound are the author's own limits."""
    plain = next(step for step in steps_of(sheet("hydrophilic-ointment")) if step.number == "6")
    ranged = next(step for step in steps_of(sheet("harbour-hand-cream", "150 kg", "filler")) if step.number == "7")
    assert [box.limit for box in plain.boxes if "°C" in box.caption] == ["73–77"]
    assert [box.limit for box in ranged.boxes if "°C" in box.caption] == ["75–80"]


@source("by hand", "15 m/s with a rotor of 0.12 m: 15 / (pi x 0.12) x 60 = 2387 rpm, told to ten; 30 rpm of the bench anchor of 0.14 m is 0.22 m/s, "
        "with one of 0.62 m 6.8 rpm: the least it turns is 8")
def test_a_tip_speed_is_told_as_the_drive_is_set():
    """The rotor of the planned kettle turns the tip speed of the method into rpm; the anchor runs on beside it."""
    step = next(step for step in steps_of(sheet("harbour-hand-cream", "150 kg", "filler")) if step.number == "11")
    assert [(setting.name, setting.value, setting.unit) for setting in step.settings] == [
        ("homogeniser", "2390", "rpm"), ("tip speed", "15", "m/s"), ("anchor", "8", "rpm")]


@source("by hand", "trace of the plan: what the jacket takes in all")
def test_a_time_that_the_plant_gives_is_told():
    """Heating says how long it takes about, and with which jacket; a written rate of cooling takes its place."""
    steps = {step.number: step for step in steps_of(sheet("harbour-hand-cream", "150 kg", "filler"))}
    job = next(Job(work(made("harbour-hand-cream", "150 kg", "filler")), task) for task in work(made("harbour-hand-cream", "150 kg", "filler")).tasks
               if task.step.number == 7)
    low, high = (end / 60 for end in job.moments[0].jacket[:2])
    told = {setting.name: setting.value for setting in steps["7"].settings}
    assert low <= int(told["takes about"]) <= high and told["jacket"] == kelvins(type(job.plant.room)(job.plant.hot, job.plant.hot))
    assert "takes about" not in {setting.name for setting in steps["14"].settings}
