"""What a vessel and its content live through."""

from math import exp

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from procsheet.formulas.wetted_wall import wetted_share
from procsheet.intervals import Interval, hull, meet, point, weighted_mean
from procsheet.pipeline import Request
from procsheet.plan.size import read_size
from procsheet.trace import trace as nouns
from procsheet.trace.heat import mixed
from tests.made import HAND_CREAM, RECIPES, compiled, method, told
from tests.sources import source

WATER = "phase A: water\n    to 100 %  purified water\n"
B = WATER + "phase B: b\n    20 %  glycerin\n"


def moments(text, **how):
    return compiled(text, Request(**how)).batch.trace.moments


def celsius(value: Interval) -> tuple[float, float]:
    return round(value.low - 273.15, 2), round(value.high - 273.15, 2)


@source("by hand", "800 g of water at 80 °C (4.18 kJ/kg/K) and 200 g of glycerin at 20-25 °C: (0.8*4.18*80 + 0.2*c*T)/(0.8*4.18 + 0.2*c)")
def test_what_is_added_cools_the_vessel():
    """A cold addition takes the vessel to the temperature of the heat balance."""
    made = moments(method(B, "    charge A into main\n    heat main to 80 °C\n    add B to main\n    fill main"))
    water, glycerin = (row.material.heat_capacity()[0] for row in compiled(method(B, "    charge A into main\n    add B to main\n    fill main")).method.rows)
    low, high = (round((0.8 * water * 80 + 0.2 * glycerin * cold) / (0.8 * water + 0.2 * glycerin), 2) for cold in (20, 25))
    assert celsius(made[2].end) == (low, high)


@source("by hand", "a mean never leaves the range of what was mixed")
@given(st.lists(st.tuples(st.floats(0.01, 100), st.floats(500, 5000), st.floats(270, 380), st.floats(0, 20)), min_size=1, max_size=5))
def test_a_mixture_stays_within_what_was_mixed(parts):
    """The temperature of a mixture lies within the temperatures of its parts."""
    given_parts = [(mass, capacity, Interval(low, low + width)) for mass, capacity, low, width in parts]
    found = mixed(given_parts)
    whole = hull(part for _, _, part in given_parts)
    assert whole.low - 1e-6 <= found.low <= found.high <= whole.high + 1e-6


@source("by hand", "wider parts give a wider mean")
@given(st.lists(st.tuples(st.floats(0.1, 10), st.floats(270, 380), st.floats(0, 20), st.floats(0, 10)), min_size=1, max_size=4))
def test_an_interval_only_widens(parts):
    """A vaguer part never narrows the mixture."""
    tight = weighted_mean([(mass, Interval(low, low + width)) for mass, low, width, _ in parts])
    loose = weighted_mean([(mass, Interval(low - more, low + width + more)) for mass, low, width, more in parts])
    assert loose.low <= tight.low + 1e-9 and tight.high <= loose.high + 1e-9


@source("by hand", "what both allow lies in both, where they touch")
@given(st.floats(0, 100), st.floats(0, 50), st.floats(0, 100), st.floats(0, 50))
def test_meet_lies_in_both(one, wide, other, broad):
    """The meeting of two intervals that touch lies in both."""
    first, second = Interval(one, one + wide), Interval(other, other + broad)
    found = meet(first, second)
    assert found.within(first)
    assert found.within(second) or not first.touches(second)


@source("independent", "stepping the heat balance second by second: dT = U A (Tj - T) / (m c) dt")
def test_heating_time_agrees_with_stepping():
    """The time a jacket takes agrees with a heat balance stepped second by second, to within a second in a thousand."""
    made = compiled(HAND_CREAM, Request(order=read_size("40 kg"), plant=RECIPES / "plants" / "pilot.plant"))
    step = next(moment for moment in made.batch.trace.moments if moment.step.verb == "heat" and moment.vessel == "main")
    plan, plant = made.batch.plan, made.plant
    kettle = plan.kettles["main"]
    capacity = sum(mass * plan.graph.rows[code].material.heat_capacity()[0] for code, mass in step.contents.items())
    volume = sum(mass / float(plan.graph.rows[code].material.density) for code, mass in step.contents.items())
    conductance = kettle.coefficient * kettle.jacket_area * wetted_share(volume=volume, full=kettle.working.high, diameter=kettle.diameter)
    temperature, seconds = step.start.low, 0
    while temperature < step.end.high:
        temperature += conductance * (plant.hot - temperature) / capacity
        seconds += 1
    assert step.duration.high == pytest.approx(seconds, rel=0.002, abs=2)
    assert exp(-conductance * seconds / capacity) == pytest.approx((plant.hot - step.end.high) / (plant.hot - step.start.low), rel=0.01)


@source("by hand", "gates as the meaning of the language states them")
@pytest.mark.parametrize("before, gate, verdict", [
    ("cool main to 25 °C", "below 25 °C", "met"), ("cool main to 30 °C", "below 25 °C", "missed"), ("cool main to 26 °C", "below 25 °C", "met"),
    ("heat main to 75-80 °C", "at 75 °C", "met"), ("heat main to 75-80 °C", "at 60 °C", "missed"), ("heat main to 35-45 °C", "below 40 °C", "straddles"),
    ("heat main to 75 °C", "above 70 °C", "met"), ("heat main to 60 °C", "above 70 °C", "missed"), ("heat main to 70 °C\n    rest main for 12 h", "below 40 °C", "undecided")])
def test_gates(before, gate, verdict):
    """A temperature before a step is met, straddled, undecided or missed; the plant's 2 °C are given."""
    text = method(B, f"    charge A into main\n    heat main to 80 °C\n    {before}\n    add B to main {gate}\n    fill main")
    assert [one.verdict for moment in moments(text) for one in moment.gates] == [verdict]


@source("by hand", "the glycerin of the pail is 20-25 °C")
def test_a_gate_of_what_is_added():
    """A temperature before `to main` is asked of the vessel that is added."""
    text = method(B, "    charge A into main\n    charge B into side\n    heat side to 60 °C\n    add side at 60 °C to main\n    fill main")
    found = [one for moment in moments(text) for one in moment.gates]
    assert [(one.which, one.verdict) for one in found] == [("added", "met")]


@source("by hand", "the steps in between")
def test_during_stands_at_its_own_temperature():
    """What is added during cooling meets the batch at the temperature it asks for, not at the start or the end of the cooling."""
    text = method(B, "    charge A into main\n    heat main to 80 °C\n    cool main to 25 °C called cooling\n    add B to main below 40 °C during cooling\n    fill main")
    made = moments(text)
    added = next(moment for moment in made if moment.step.verb == "add")
    assert added.start.high <= 313.15 + 0.01
    assert made[-1].start.high <= 298.15 + 0.01


@source("by hand", "a stirrer runs on; a high-shear tool stops with its step")
def test_what_runs_on():
    """A stirrer runs on until another is named; a high-shear tool stops with its step."""
    text = method(B, "    charge A into main\n    stir main for 1 min with anchor\n    homogenise main for 5 min with homogeniser\n    add B to main\n    stop stirring main\n    rest main for 1 h\n    fill main")
    ranks = [moment.shear.rank for moment in moments(text)]
    assert ranks[1] == point(nouns.LOW)
    assert ranks[2] == point(nouns.HIGH)
    assert ranks[3] == point(nouns.LOW)
    assert ranks[5] == point(nouns.NONE)


@source("by hand", "pi x 0.07 m x 3000/60 1/s = 10.996 m/s")
def test_tip_speed_from_the_plants_tool():
    """A speed in rpm becomes a tip speed with the tool of the kettle it runs in."""
    plant = RECIPES / "plants" / "pilot.plant"
    text = method(B, "    charge A into main\n    add B to main\n    homogenise main for 5 min with homogeniser at 3000 rpm\n    fill main")
    made = compiled(text, Request(order=read_size("40 kg"), plant=plant))
    diameter = made.batch.plan.kettles["main"].tool("homogeniser").diameter
    assert made.batch.trace.moments[2].shear.tip.high == pytest.approx(3.14159265 * diameter * 50, rel=1e-6)


@source("by hand", "what is outside follows the emulsifier")
@pytest.mark.parametrize("kind, emulsifier, outside", [("oil-in-water emulsion", "cetearyl glucoside", "water"), ("water-in-oil emulsion", "PEG-30 dipolyhydroxystearate", "oil"),
                                                       ("oil-in-water emulsion", "no such emulsifier", "water")])
def test_what_is_outside(kind, emulsifier, outside):
    """When the phases meet they are emulsified, and the emulsifier decides what is outside."""
    text = method(WATER + f"phase B: oils\n    20 %  caprylic/capric triglyceride\n    3 %  {emulsifier}\n", "    charge A into main\n    charge B into side\n"
                  "    add side to main with homogeniser\n    fill main", kind=kind)
    made = moments(text)
    assert not made[1].facts.emulsified
    assert (made[2].facts.emulsified, made[2].facts.outside, made[2].facts.met) == (True, outside, 2)


@source("by hand", "the order of independent steps changes nothing")
def test_independent_steps_may_change_places():
    """Steps in two vessels may be written in either order: every state is the same."""
    one = method(B, "    charge A into main\n    heat main to 70 °C\n    charge B into side\n    heat side to 60 °C\n    add side to main\n    fill main")
    two = method(B, "    charge B into side\n    heat side to 60 °C\n    charge A into main\n    heat main to 70 °C\n    add side to main\n    fill main")
    first, second = ([(moment.vessel, moment.end, moment.contents) for moment in moments(text)][-2:] for text in (one, two))
    assert [(vessel, end) for vessel, end, _ in first] == [(vessel, end) for vessel, end, _ in second]
    assert first[-1][2] == pytest.approx(second[-1][2])


@source("by hand", "scaling changes masses, not shares")
@settings(max_examples=15)
@given(st.integers(1, 2000))
def test_scaling_leaves_compositions(half_kilograms):
    """At any size from 0.5 to 1000 kg every vessel state has the same composition."""
    one, many = moments(HAND_CREAM), moments(HAND_CREAM, order=read_size(f"{half_kilograms / 2} kg"))
    assert [moment.node for moment in one] == [moment.node for moment in many]
    for small, large in zip(one, many):
        assert {code: mass * half_kilograms / 2 for code, mass in small.contents.items()} == pytest.approx(large.contents)


@source("by hand", "what the emulsion lives through after the capsules are in")
def test_exposures_are_views_along_the_way():
    """A portion's exposure is the way from where it goes in to the product, through every transfer."""
    text = method(B + "phase C: c\n    1 %  fragrance\n", "    charge B into pail\n    add C to pail\n    charge A into main\n    heat main to 80 °C\n    add pail to main\n"
                  "    homogenise main for 5 min\n    fill main")
    trace = compiled(text).batch.trace
    perfume = next(one for one in trace.exposures if one.row.code == "C1")
    assert [moment.step.verb for moment in trace.path(perfume.moment)] == ["add", "add", "homogenise", "fill"]
    assert trace.strongest_from(perfume.moment).step.verb == "homogenise"
    assert trace.hottest_from(perfume.moment).step.verb == "add"


@source("by hand", "no plant: heating times are unknown")
def test_without_a_plant_times_are_unknown():
    """Without a plant only written times are known."""
    made = moments(method(B, "    charge A into main\n    heat main to 80 °C\n    stir main for 10 min\n    add B to main\n    fill main"))
    assert made[1].duration is None
    assert made[2].duration == point(600.0)
    assert "temperature-not-reached" not in told(compiled(HAND_CREAM))
