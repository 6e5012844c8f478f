"""What a batch lives through along its way: how long it is hot, what a step's own words allow, what is left open."""

from procsheet.intervals import above
from tests.made import compiled, method
from tests.sources import source

WATER = "phase A: water\n    to 100 %  purified water\n    5 %       glycerin"


def moments(steps: str, phases: str = WATER, **more):
    return compiled(method(phases, steps, **more)).batch.trace


def celsius(value: float) -> float:
    return round(value - 273.15, 1)


@source("independent", "the heat balance of a jacket of 95 °C stepped second by second from 20 to 80 °C: the share of the time above 60 °C")
def test_time_above_follows_the_jacket():
    """Of a heating by a jacket, the part above a temperature is that of the stepped balance, not of an even climb."""
    trace = moments("    charge A into main\n    heat main to 80 °C over 30 min\n    fill main")
    trace = trace._replace(plan=trace.plan._replace(plant=trace.plan.plant._replace(hot=368.15)))
    temperature, above_60, total = 20.0, 0, 0
    while temperature < 80:
        temperature += (95 - temperature) / 3000
        total += 1
        above_60 += temperature > 60
    found = trace.time_above(trace.moments[1], 333.15)
    assert abs(found / 1800 - above_60 / total) < 0.005


@source("by hand", "20 to 80 °C in 30 min: 20 of 60 °C lie above 60 °C, a third of the time")
def test_time_above_is_even_without_a_jacket():
    """Where no jacket is known a heating climbs evenly."""
    trace = moments("    charge A into main\n    heat main to 80 °C over 30 min\n    fill main")
    assert round(trace.time_above(trace.moments[1], 333.15)) == 600


@source("by hand", "below 60 °C, on the way from 80 to 30 °C, begins at 60 °C")
def test_a_step_in_a_cooling_is_allowed_as_soon_as_its_bound_shows():
    """`below 60 °C` while the batch cools may be done at 60 °C."""
    trace = moments("    charge \"purified water\" into main\n    heat main to 80 °C\n    cool main to 30 °C called cooling\n"
                    "    add \"glycerin\" to main below 60 °C during cooling\n    fill main")
    added = next(moment for moment in trace.moments if moment.step.verb == "add")
    assert celsius(added.allowed.low) == celsius(added.allowed.high) == 60
    assert above(added.allowed, 333.15 - 0.1) == "beyond"


@source("by hand", "a range that ends above a ceiling is cut off at the ceiling")
def test_never_above_cuts_the_aim():
    """A ceiling holds throughout the step."""
    trace = moments("    charge A into main\n    heat main to 70-78 °C never above 73 °C\n    fill main")
    assert celsius(trace.moments[1].end.high) == 73


@source("by hand", "22 °C is below 50 °C already")
def test_cooling_below_a_figure_does_not_warm():
    """`cool main to below 50 °C` leaves a cold batch as it is."""
    trace = moments("    charge A into main\n    cool main to below 50 °C\n    fill main")
    assert celsius(trace.moments[1].end.high) == 25


@source("by hand", "an open temperature may be anything from the room to boiling")
def test_an_open_temperature_is_not_guessed():
    """`at ? °C` leaves open how warm the batch is, and says so."""
    trace = moments("    charge \"purified water\" into main\n    add \"glycerin\" to main at ? °C\n    fill main")
    assert trace.moments[1].start.missing == "its temperature"
    assert celsius(trace.moments[1].start.high) > 90


@source("by hand", "a preservative in the oil is no water phase")
def test_a_preservative_in_the_oil_makes_no_emulsion():
    """The phases have met when the water comes, not when the oil phase gets its preservative."""
    trace = moments("    charge B into side\n    stir side\n    charge A into main\n    add side to main with homogeniser\n    fill main",
                    WATER + "\nphase B: oils\n    10 %      caprylic/capric triglyceride\n    2 %       polysorbate 60\n    1 %       phenoxyethanol",
                    kind="oil-in-water emulsion")
    assert [moment.step.verb for moment in trace.moments if moment.facts.met == moment.index] == ["add"]


@source("by hand", "water that replaces a loss is no part of the formula")
def test_replaced_loss_uses_no_row():
    """`replace loss` may name the water of the formula: it is not used twice."""
    made = compiled(method("phase A: water\n    95 %      purified water\n    5 %       glycerin",
                           "    charge A into main\n    replace loss in main with \"purified water\"\n    fill main"))
    assert not [finding for finding in made.findings if finding.name == "used-twice"]
