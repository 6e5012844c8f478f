"""The views of the trace: time, pH, contents, fats, losses, lives."""

import csv
from fractions import Fraction
from math import pi
from pathlib import Path

import networkx
import pytest

from procsheet.formulas.evaporation import evaporation
from procsheet.formulas.wetted_wall import wetted_wall
from procsheet.intervals import INFINITY, Interval
from procsheet.model.library import Library, material, shipped
from procsheet.pipeline import Request
from procsheet.plan.size import read_size
from procsheet.trace import contents
from procsheet.trace.acidity import acidity
from procsheet.trace.clock import clock
from procsheet.trace.fats import fats
from procsheet.trace.flash import flammable
from procsheet.trace.life import life
from procsheet.trace.loss import evaporated, left_behind, losses
from procsheet.trace.swelling import swelling
from tests.made import HAND_CREAM, RECIPES, compiled, method
from tests.sources import source

DATA = Path(__file__).parents[1] / "published" / "data"
WATER = "phase A: water\n    to 100 %  purified water\n"
OIL = "phase B: oils\n    20 %  caprylic/capric triglyceride\n    3 %  stearyl alcohol\n    3 %  ceteareth-20\n"


def trace(phases: str, steps: str, **more):
    return compiled(method(phases, steps, **more)).batch.trace


@source("independent", "longest path of networkx over what each step needs")
def test_the_least_time_is_the_longest_way():
    """Each step begins no earlier than the longest way of what it needs allows."""
    made = compiled(HAND_CREAM, Request(order=read_size("40 kg"), plant=RECIPES / "plants" / "pilot.plant")).batch.trace
    lasts = {moment.node: moment.duration.low if moment.duration else 0.0 for moment in made.moments}
    flow = networkx.DiGraph()
    for node in made.plan.graph.nodes:
        flow.add_node(node.index)
        flow.add_weighted_edges_from((need, node.index, lasts.get(need, 0.0)) for need in node.needs)
    for moment, (begins, _) in zip(made.moments, clock(made)):
        before = flow.subgraph({*networkx.ancestors(flow, moment.node), moment.node})
        assert begins.low == pytest.approx(networkx.dag_longest_path_length(before))


@source("by hand", "10 min, then 5 to 10 min, then no time")
def test_the_most_time_is_one_after_the_other():
    """The most adds up, and names the first line without a time."""
    made = trace(WATER, "    charge A into main for 10 min\n    stir main for 5-10 min\n    check main appearance \"clear\"\n    fill main")
    times = clock(made)
    assert times[1] == (Interval(600, 600), Interval(900, 1200))
    assert times[3][0].low == 900 and times[3][0].high == INFINITY and "line 16" in times[3][0].missing


@source("by hand", "what the method says of the pH, and what may move it afterwards")
def test_the_pH_is_what_was_said():
    """Adjusted or checked it is known; an acid afterwards makes it unknown, an oil does not."""
    made = trace(WATER + "phase B: b\n    5 %  mineral oil\n    as needed, at most 1 %  citric acid\nphase C: c\n    1 %  lactic acid\n",
                 '    charge A into main\n    adjust main to pH 5.0-5.5 with "citric acid"\n    add "mineral oil" to main\n    add C to main\n    check main pH 3-4\n    fill main')
    found = acidity(made)
    assert found[0].missing and found[3].missing
    assert found[1][:2] == found[2][:2] == (5.0, 5.5)
    assert found[4][:2] == found[5][:2] == (3.0, 4.0)


@source("by hand", "0.74 kg of water at 1.00 and 0.26 kg of oils by their own densities")
def test_what_lies_in_drops():
    """Shares by phase add up to the mass, and the inner phase is that of the oils by volume."""
    made = trace(WATER + OIL, "    charge A into main\n    charge B into side\n    add side to main with homogeniser\n    fill main", kind="oil-in-water emulsion")
    joined = made.moments[2]
    assert sum(contents.by_affinity(made, joined).values()) == pytest.approx(joined.mass)
    rows = made.plan.graph.rows
    volumes = {code: mass / float(rows[code].material.density) for code, mass in joined.contents.items()}
    oils = sum(volume for code, volume in volumes.items() if made.affinities[code] == "oil")
    assert contents.internal_phase(made, joined) == pytest.approx(oils / sum(volumes.values()))
    assert contents.internal_phase(made, made.moments[0]) is None


@source("published", "Kell, J. Chem. Eng. Data 20 (1975) 97: water is 971.8 kg/m³ at 80 °C and 998.2 at 20 °C")
def test_hot_water_takes_more_room():
    """A kilogram of water at 80 °C takes 998.2/971.8 of what it takes at 20 °C."""
    made = trace(WATER, "    charge A into main at 20 °C\n    heat main to 80 °C\n    fill main")
    cold, hot = (contents.volume(made, moment) for moment in made.moments[:2])
    assert hot.high / cold.high == pytest.approx(998.2 / 971.8, rel=1e-4)
    assert hot.low == pytest.approx(hot.high)


@source("by hand", "300 g of 70 % strength: 0.6239 of it by mass pure; 700 g of water; and 1 g of salt in 999 g of water phase")
def test_strengths():
    """Alcohol is counted as pure in alcohol and water, salt in the water phase."""
    made = trace("phase A: a\n    to 100 %  purified water\n    30 %  absolute ethanol\n", "    charge A into main\n    fill main")
    pure = 0.3 * float(made.plan.graph.rows["A2"].material.assay or 1)
    assert contents.alcohol_strength(made, made.moments[0]) == pytest.approx(pure)
    salty = trace("phase A: a\n    to 100 %  purified water\n    1 %  sodium chloride\n", "    charge A into main\n    fill main")
    water = sum(mass for code, mass in salty.moments[0].contents.items() if salty.affinities[code] == "water")
    assert contents.electrolyte_strength(salty, salty.moments[0]) == pytest.approx(0.01 / water)


@source("by hand", "stearyl alcohol melts near 58 °C: solid at room, molten at 80 °C, set at 25 °C")
def test_fats_melt_and_set():
    """A fat is solid, molten, and set once it has cooled."""
    made = trace(OIL.replace("20 %", "to 100 %"), "    charge B into main\n    heat main to 80 °C\n    cool main to 25 °C\n    fill main", kind="anhydrous")
    code = next(code for code, row in made.plan.graph.rows.items() if row.name == "stearyl alcohol")
    assert [found[code] for found in fats(made)[:3]] == ["solid", "molten", "set"]


@source("by hand", "published range for a free surface times the surface of a vessel as high as wide, 30 min at 80 °C")
def test_an_open_hot_vessel_loses_water():
    """Water kept open at 80 °C loses what the correlation says; closed, cold or dry it loses none."""
    made = trace(WATER, "    charge A into main\n    heat main to 80 °C\n    hold main at 80 °C for 30 min\n    fill main")
    held = made.moments[2]
    area = pi * (1e-3 / (2 * pi)) ** (2 / 3)
    room = made.plan.plant.room
    low, high = evaporation(surface=353.15, room=room.high)[0], evaporation(surface=353.15, room=room.low)[1]
    found = evaporated(made, held)
    assert found.low == pytest.approx(low * area * 1800, rel=0.01) and found.high == pytest.approx(high * area * 1800, rel=0.01)
    closed = trace(WATER, "    charge A into main\n    heat main to 80 °C covered\n    hold main at 80 °C for 30 min covered\n    fill main")
    assert evaporated(closed, closed.moments[2]).high == 0
    assert evaporated(made, made.moments[0]).high == 0


@source("by hand", "what is made up is no longer missing")
def test_make_up_closes_the_loss():
    """The loss runs on until the water is made up."""
    made = trace(WATER, '    charge A into main\n    heat main to 80 °C\n    hold main at 80 °C for 30 min\n    cool main to 25 °C\n'
                 '    make up main with "purified water" to 100 %\n    fill main')
    lost = losses(made)
    assert lost[2].low > 0 and lost[3].low >= lost[2].low
    assert lost[4] == lost[5] == Interval(0, 0)


@source("by hand", "a film of 0.05 to 1 mm on the wall that a kilogram wets in a vessel as high as wide")
def test_what_stays_on_the_wall():
    """A vessel that is emptied keeps a film, one that is rinsed keeps nothing."""
    steps = "    charge A into side\n    charge B into main\n    add side to main\n{}    fill main"
    made = trace(WATER + "phase B: b\n    20 %  glycerin\n", steps.format(""))
    wall = wetted_wall(volume=0.8e-3, diameter=(4 * 0.8e-3 / pi) ** (1 / 3))[1]
    found = left_behind(made, made.moments[2])
    assert found.low == pytest.approx(0.05e-3 * wall * 1000, rel=0.01) and found.high == pytest.approx(1e-3 * wall * 1000, rel=0.01)
    rinsed = trace(WATER + "    hold back 5 %\nphase B: b\n    20 %  glycerin\n".replace("\n    hold", "\n        hold"), steps.format("    rinse side with the hold-back into main\n"))
    assert left_behind(rinsed, rinsed.moments[2]).high == 0


@source("by hand", "the way of the perfume through 80 °C and the homogeniser")
def test_a_life():
    """What a portion lives through is read along its own way only."""
    made = trace(WATER + OIL + "phase C: c\n    1 %  fragrance\n", "    charge A into main\n    heat main to 80 °C\n    charge B into side\n    heat side to 85 °C\n"
                 "    add side to main for 2 min with homogeniser\n    cool main to 40 °C\n    add C to main for 5 min with anchor\n    homogenise main for 3 min\n    fill main",
                 kind="oil-in-water emulsion")
    one = life(made, next(one for one in made.exposures if one.row.code == "C1"))
    assert [moment.step.verb for moment in one.path] == ["add", "homogenise", "fill"]
    assert one.hottest.throughout.high <= 313.16
    assert one.strongest.step.verb == one.sheared_after("emulsified").step.verb == "homogenise"
    assert one.above(323.15) == Interval(0, 0)
    assert {code[0] for code in one.meets} == {"A", "B"}
    wax = life(made, next(one for one in made.exposures if one.row.name == "stearyl alcohol"))
    assert wax.hottest.step.verb == "heat" and wax.above(313.16).low >= 120


@source("published", "flash points: ethanol-water list and model, isopropanol-water model (flash_mixtures.csv), 20 % by mass; of others the lowest counts")
@pytest.mark.parametrize("name, low, high", [("absolute ethanol", 30, 34.3), ("isopropanol", 21, 25.6)])
def test_alcohol_in_water(name, low, high):
    """A fifth of alcohol in water flashes far above the pure alcohol, within 3 K of what is known."""
    made = trace(f"phase A: a\n    to 100 %  purified water\n    20 %  {name}\n", "    charge A into main\n    fill main")
    found = next(flammable(made, made.moments[0]))
    assert low <= found.limit - 273.15 <= high and "in the water it meets" in found.basis


@source("by hand", "dilute: below 1 % of the vessel; else the lowest figure known of the material itself")
def test_other_mixtures_take_the_lowest_flash_point():
    """A volatile silicone counts with its own flash point until it is dilute."""
    phases = "phase A: a\n    to 100 %  caprylic/capric triglyceride\n    {} %  cyclopentasiloxane\n"
    much, little = (trace(phases.format(share), "    charge A into main\n    fill main", kind="anhydrous") for share in (10, "0.5"))
    figure = much.plan.graph.rows["A2"].material.figure("flash point")
    found = {one.row.code: one for one in flammable(much, much.moments[0])}
    assert found["A2"].limit == figure.value.low
    assert "A2" not in {one.row.code for one in flammable(little, little.moments[0])}


@source("by hand", "Fraction arithmetic")
def test_mass_is_kept_at_every_step():
    """What a vessel holds after a step is what it held, what goes in and what is poured, exactly."""
    graph = compiled(HAND_CREAM).batch.graph
    for node in graph.nodes:
        if node.after is None:
            continue
        held = sum(graph.states[node.before].contents.values(), Fraction(0)) if node.before is not None else Fraction(0)
        poured = sum((sum(graph.states[state].contents.values()) * share for state, share in node.poured), Fraction(0))
        assert sum(graph.states[node.after].contents.values()) == held + poured + sum((one.mass for one in node.entering), Fraction(0))


@source("by hand", "10 min in water of the 15 that a gum without data of its own gets, then 10 more; and what the crew sees")
def test_a_gum_has_had_its_time():
    """A gum in water is hydrated once its time is up for certain, or where the crew looked."""
    phases = WATER + "phase B: b\n    1 %  xanthan gum\n"
    steps = "    charge A into main\n    disperse B in main for {} with propeller\n    stir main for {} with propeller{}\n    fill main"
    for first, second, look, expected in (("1 min", "1 min", "", [False, False]), ("1 min", "3 h", "", [False, True]), ("1 min", "1 min", " until hydrated", [False, True])):
        made = trace(phases, steps.format(first, second, look))
        assert [one["B1"] for one in swelling(made)[1:3]] == expected


def listed_heats():
    with (DATA / "specific_heats.csv").open(encoding="utf-8", newline="") as file:
        return [row for row in csv.DictReader(file) if row["t_C"] == "25"]


@source("independent", "specific_heats.csv: liquids at 25 °C, thermo 0.6.1 data set; 12 % covers grades, strengths and the change from 20 to 40 °C")
def test_heat_capacities_agree():
    """The heat capacities that the balance uses are those of the data set, for every listed liquid the library has a figure of its own for."""
    library, seen = Library(shipped()), 0
    for row in listed_heats():
        blocks = library.find(row["material"])[0]
        if not blocks:
            continue
        value, assumed = material(row["material"], blocks, library).heat_capacity()
        if not assumed:
            seen += 1
            assert value / 1000 == pytest.approx(float(row["cp_kJ_kgK"]), rel=0.12), row["material"]
    assert seen >= 5


@source("by hand", "what is open may be anything: the room, the boil, any time, any stirrer")
@pytest.mark.parametrize("exact, vaguer", [("hold main at 70 °C for 20 min", "hold main at ? °C for 20 min"), ("mix main for 2 h", "mix main for ? h"),
                                           ("stir main for 5 min with anchor at 30 rpm", "stir main for 5 min with ?")])
def test_what_is_open_is_wider(exact, vaguer):
    """A `?` never knows more than a figure in its place."""
    steps = "    charge A into main\n    heat main to 70 °C with anchor at 30 rpm\n    {}\n    fill main"
    one, other = (trace(WATER, steps.format(step)).moments[2] for step in (exact, vaguer))
    assert other.end.low <= one.end.low and one.end.high <= other.end.high
    assert other.shear.rank.low <= one.shear.rank.low and one.shear.rank.high <= other.shear.rank.high
    assert other.duration is None or other.duration.high >= one.duration.high
