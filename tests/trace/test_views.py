"""The views of the trace where several things come together: waits, vessels that are shared out, acids in pails, fats that meet."""

from math import log, pi

import pytest

from procsheet.formulas.evaporation import evaporation
from procsheet.intervals import INFINITY, Interval
from procsheet.trace import contents
from procsheet.trace.acidity import acidity
from procsheet.trace.clock import between, clock
from procsheet.trace.fats import fats
from procsheet.trace.flash import flammable
from procsheet.trace.life import life
from procsheet.trace.loss import evaporated, left_behind, losses, surface
from tests.made import compiled, method
from tests.sources import source

WATER = "phase A: water\n    to 100 %  purified water\n"
TWO = WATER + "phase B: b\n    20 %  glycerin\n"
WAX = "phase A: a\n    to 100 %  mineral oil\nphase B: b\n    20 %  white beeswax\n"


def trace(phases: str, *steps: str, **more):
    return compiled(method(phases, "\n".join(f"    {step}" for step in (*steps, "fill main")), **more)).batch.trace


def alive(made, code: str):
    return [life(made, one) for one in made.exposures if one.row.code == code]


# ---- time


@source("by hand", "two vessels side by side, 20 and 30 min; what stands below the wait of 2 h begins after 150 min, after 170 where one crew does it all")
def test_a_wait_holds_up_everything():
    """A wait begins when all above it is done, whatever the vessel, and nothing below it begins before it is over."""
    made = trace(TWO, "charge A into main for 0 min", "stir main for 20 min", "charge B into side for 0 min", "stir side for 30 min", "wait 2 h", "stir main for 5 min", "add side to main")
    begins = [begin for begin, _ in clock(made)]
    assert begins[3] == Interval(0, 1200)
    assert begins[4] == Interval(9000, 10200)


@source("by hand", "a note is read, not done: 10 min all told")
def test_a_note_takes_no_time():
    """A note between two steps leaves their times as they are."""
    made = trace(WATER, "charge A into main for 10 min", 'note "All floats."', "stir main for 5 min")
    assert clock(made)[1] == (Interval(600, 600), Interval(900, 900))


@source("by hand", "its own steps take 5 + 3 + 2 min, with the 30 min of the main kettle in between 40")
def test_a_life_counts_the_time_it_stands_about():
    """From going in to the pack counts what is done elsewhere in between at the most, and its own steps at the least."""
    made = trace(TWO, "charge B into pail for 5 min", "charge A into main for 30 min", "add pail to main for 3 min", "stir main for 2 min")
    first, last = made.moments[0], made.moments[3]
    assert between(made, first, last) == Interval(600, 2400)
    glycerin, = alive(made, "B1")
    assert glycerin.lasts == Interval(600, INFINITY, f"how long line {made.moments[-1].span.line} takes")


@source("by hand", "of 15 min only the 5 at 60 °C are certainly hotter than 40 °C; the fill at 60 °C takes nobody knows how long")
def test_time_above_a_limit():
    """A step counts for certain where it is hotter throughout, at most where any of it is; a step without a time leaves the most open."""
    made = trace(WATER, "charge A into main", "heat main to 60 °C for 5 min", "stir main for 5 min", "cool main to 30 °C for 5 min")
    assert alive(made, "A1")[0].above(313.15) == Interval(300, 900)
    hot = trace(WATER, "charge A into main", "heat main to 60 °C for 5 min")
    assert alive(hot, "A1")[0].above(313.15) == Interval(0, INFINITY, f"how long line {hot.moments[-1].span.line} takes")


@source("by hand", "half of the glycerin is in the pail with the perfume from the start, the other at 70 °C in the main kettle until the pail comes")
def test_two_portions_have_two_lives():
    """Each portion of a material is hottest, coldest and in company where it goes itself."""
    made = trace(TWO + "phase C: c\n    1 %  fragrance\n", 'charge half of "glycerin" into pail', "add C to pail with whisk", "charge A into main", "heat main to 70 °C with anchor",
                 'add the rest of "glycerin" to main', "cool main to 30 °C", "add pail to main with propeller")
    pail, main = alive(made, "B1")
    assert [moment.vessel for moment in pail.path][:2] == ["pail", "pail"] and pail.meets["C1"].step.verb == "add" and pail.meets["C1"].vessel == "pail"
    assert main.meets["C1"].vessel == "main" and main.meets["A1"].step.verb == "add"
    assert main.hottest.throughout.high > 330 > 304 > pail.hottest.throughout.high
    assert pail.coldest.throughout.low == pytest.approx(293.15) and main.coldest.throughout.low > 295
    assert pail.strongest.shear.tools == ("whisk",)


# ---- acid and base


@source("by hand", "pH 5 and pH 7 give something between; of a pH that is not known nothing is known; 6 and less is 0 to 6")
def test_waters_that_meet():
    """Two waters of known pH give what lies between, an unknown one takes the knowledge away, and a bound has an end."""
    steps = ("charge A into main", "check main pH 5", "charge B into side", "check side pH at most 7", "add side to main")
    assert acidity(trace(WATER + "phase B: b\n    30 %  purified water\n", *steps))[4] == Interval(0, 7)
    assert acidity(trace(WATER + "phase B: b\n    30 %  purified water\n", *steps[:3], steps[4]))[3].missing


@source("by hand", "dry citric acid moves the pH it comes to, in whichever vessel it was weighed; glycerin does not")
@pytest.mark.parametrize("what, known", [("citric acid", False), ("sodium hydroxide", False), ("glycerin", True), ("mineral oil", True)])
def test_an_acid_from_a_pail(what, known):
    """An acid or a base that comes from another vessel makes the pH unknown, as it does from the balance."""
    found = acidity(trace(WATER + f"phase B: b\n    1 %  {what}\n", "charge A into main", "check main pH 6", "charge B into pail", "add pail to main"))
    assert found[1] == Interval(6, 6)
    assert bool(found[3].missing) is not known


# ---- what is in it


@source("by hand", "600 g of water take 601.2 mL, 350 g of mineral oil of 0.875 take 400 mL, 50 g of emulsifier of 0.97 take 51.5 mL: 601.2/1052.7")
def test_water_in_drops():
    """In water in oil the drops are the water, by volume."""
    phases = "phase A: a\n    60 %  purified water\nphase B: b\n    35 %  mineral oil\n    5 %  PEG-30 dipolyhydroxystearate\n"
    made = trace(phases, "charge B into main", "charge A into side", "add side to main with homogeniser", kind="water-in-oil emulsion")
    assert made.moments[2].facts.outside == "oil"
    assert contents.internal_phase(made, made.moments[2]) == pytest.approx(0.571, abs=0.002)


@source("by hand", "250 g of ethanol 96 % (93.8 % by mass) in 750 g of water: 23.45 %; 7 g of salt in 700 g of water phase: 1 %, oil left out")
def test_strengths_by_mass():
    """An alcohol brings its own water along, and oil is no part of the water phase."""
    made = trace("phase A: a\n    to 100 %  purified water\n    25 %  ethanol 96 %\n", "charge A into main")
    assert contents.alcohol_strength(made, made.moments[0]) == pytest.approx(0.2345)
    salty = trace("phase A: a\n    69.3 %  purified water\n    0.7 %  magnesium sulfate heptahydrate\n    30 %  mineral oil\n", "charge A into main")
    assert contents.electrolyte_strength(salty, salty.moments[0]) == pytest.approx(0.01)


# ---- fats


@source("by hand", "beeswax melts at 62 to 65 °C by its own data")
@pytest.mark.parametrize("steps, expected", [
    (("heat main to 80 °C", "cool main to 63 °C", "cool main to 40 °C", "heat main to 70 °C"), ["molten", "setting", "set", "molten"]),
    (("heat main to 60 °C", "heat main to 63 °C", "hold main at 63 °C for 20 min until melted", "cool main to 30 °C"), ["solid", "soft", "molten", "set"]),
    (("heat main to 61-70 °C", "stir main for 5 min until melted", "cool main to 30 °C"), ["soft", "molten", "set"])])
def test_a_fat_by_its_melting_range(steps, expected):
    """A fat is soft within its melting range on the way up, setting on the way down, and molten where the crew saw it."""
    made = trace(WAX, "charge A and B into main", *steps, kind="anhydrous")
    assert [found["B1"] for found in fats(made)[1:-1]] == expected


@source("by hand", "a cold half of the wax in a melt of 63 °C is not molten by that")
def test_solid_fat_goes_into_a_melt():
    """What goes in solid is not taken for molten because the other half is."""
    made = trace(WAX, 'charge A into main', 'add half of "white beeswax" to main', "heat main to 80 °C", "cool main to 63 °C", 'add the rest of "white beeswax" to main', kind="anhydrous")
    assert [found.get("B1") for found in fats(made)[:5]] == [None, "solid", "molten", "setting", "soft"]


# ---- what is lost


HOT = ("charge A into main", "heat main to 80 °C")


@source("by hand", "a lid, nitrogen, a cold kettle, and oil keep the water in; the open kettle of the same time does not")
@pytest.mark.parametrize("phases, steps", [(WATER, (*HOT, "hold main at 80 °C for 30 min covered")), (WATER, (*HOT, "hold main at 80 °C for 30 min under nitrogen")),
                                           (WATER, (*HOT, "close main", "hold main at 80 °C for 30 min")), (WATER, ("charge A into main", "stir main for 30 min")),
                                           ("phase A: a\n    to 100 %  mineral oil\n", (*HOT, "hold main at 80 °C for 30 min"))])
def test_what_keeps_water_in(phases, steps):
    """Nothing is lost under a lid, under nitrogen, at room temperature and from what holds no water."""
    made = trace(phases, *steps)
    assert evaporated(made, made.moments[len(steps) - 1]) == Interval(0, 0)
    opened = trace(WATER, *HOT, "hold main at 80 °C for 30 min")
    assert evaporated(opened, opened.moments[2]).low > 0


@source("by hand", "1 kg from 80 °C to 48.3 °C, where water boils at 11 325 Pa (between 9594.4 at 45 and 12 351.3 at 50, water_iapws.csv): 31.7 K x 4180 / 2.3e6 = 0.0577 kg")
def test_vacuum_boils_it_cool():
    """Under vacuum no more boils off than cools the batch to its boiling point; with the heat on there is no such end; cold nothing does."""
    boiling = 45 + 5 * log(11.325 / 9.5944) / log(12.3513 / 9.5944)
    made = trace(WATER, *HOT, "deaerate main for 10 min under vacuum at -0.9 bar")
    assert evaporated(made, made.moments[2])[:2] == pytest.approx((0, (80 - boiling) * 4180 / 2.3e6), rel=2e-3)
    heated = trace(WATER, *HOT, "hold main at 80 °C for 10 min under vacuum at -0.9 bar")
    assert evaporated(heated, heated.moments[2]).high == pytest.approx(1.0)
    cold = trace(WATER, "charge A into main", "deaerate main for 10 min under vacuum at -0.9 bar")
    assert evaporated(cold, cold.moments[1]) == Interval(0, 0)
    unknown = trace(WATER, *HOT, "deaerate main for 10 min under vacuum at ? bar")
    assert evaporated(unknown, unknown.moments[2]) == Interval(0, 1, "how deep the vacuum is")


@source("by hand", "a vessel as high as wide, pi/4 D³ its volume and pi D²/4 its surface, for 30 min at the published rate")
def test_oil_may_hold_the_water_back():
    """With an oil on top the least is nothing and the most is that of open water."""
    made = trace(WATER + "phase B: b\n    10 %  mineral oil\n", "charge A and B into main", "heat main to 80 °C", "stir main for 30 min")
    found = evaporated(made, made.moments[2])
    litre = sum(mass / float(made.plan.graph.rows[code].material.density) for code, mass in made.moments[2].contents.items())
    wide = (4 * litre / pi) ** (1 / 3)
    assert surface(made, made.moments[2]) == pytest.approx(pi * wide ** 2 / 4)
    assert found.low == 0
    assert found.high == pytest.approx(evaporation(surface=353.15, room=293.15)[1] * pi * wide ** 2 / 4 * 1800, rel=1e-6)


@source("by hand", "half of the vessel takes half of what it has lost along; both halves together have lost it once")
def test_a_loss_is_shared_out():
    """A vessel that is shared out shares its loss, and together again it is the loss as it was."""
    made = trace(TWO, "charge A into main", "heat main to 80 °C covered", "hold main at 80 °C for 30 min", "cool main to 20 °C covered", "charge B into side",
                 "add half of main to side covered", "add side to main covered")
    lost = losses(made)
    assert lost[3].low > 0
    assert lost[5][:2] == pytest.approx((lost[3].low / 2, lost[3].high / 2))
    assert lost[6][:2] == pytest.approx(lost[3][:2])


@source("by hand", "what is replaced is no longer missing, in this vessel")
def test_replace_loss_closes_its_own_vessel():
    """`replace loss` puts back what its vessel has lost, and what another lost comes along later."""
    made = trace(TWO, "charge B into side", 'add half of "purified water" to side', "heat side to 80 °C", "hold side at 80 °C for 30 min", "cool side to 20 °C covered", 'charge the rest of "purified water" into main', "heat main to 80 °C",
                 "hold main at 80 °C for 30 min", "cool main to 20 °C covered", 'replace loss in main with "purified water"', "add side to main covered", kind="solution")
    lost = losses(made)
    assert lost[8].low > 0 and lost[9] == Interval(0, 0)
    assert lost[10][:2] == pytest.approx(lost[4][:2])


@source("by hand", "a vessel that keeps half of its content has no emptied wall")
def test_only_an_emptied_wall_keeps_a_film():
    """What is only half poured leaves nothing behind yet; what is emptied does."""
    made = trace(TWO, "charge A into side", "charge B into main", "add half of side to main", "add side to main")
    assert left_behind(made, made.moments[2]) == Interval(0, 0)
    assert left_behind(made, made.moments[3]).low > 0


# ---- what may be lit


@source("independent", "flash_mixtures.csv, UNIFAC by thermo 0.6.1: 80 % by mass of either alcohol in water flashes at 17.9 and 17.8 °C; half of each lies near them")
def test_two_alcohols_flash_together():
    """Ethanol and isopropanol with little water flash where either alone does, within 4 K."""
    made = trace("phase A: a\n    to 100 %  purified water\n    40 %  absolute ethanol\n    40 %  isopropanol\n", "charge A into main", kind="hydroalcoholic")
    found = list(flammable(made, made.moments[0]))
    assert len(found) == 2 and {one.limit for one in found} == {found[0].limit}
    assert found[0].limit - 273.15 == pytest.approx(17.9, abs=4) and "ethanol and isopropanol" in found[0].basis


@source("by hand", "glycerin dissolves and is less than half: dilute; more than half it counts with its own 160 °C; a volatile oil counts from 1 %; isododecane: 45 °C, paper on its mixtures with hexadecane")
@pytest.mark.parametrize("row, limit", [("30 %  glycerin", None), ("60 %  glycerin", 433.15), ("0.5 %  isododecane", None), ("2 %  isododecane", 318.15), ("2 %  absolute ethanol", None)])
def test_what_is_dilute(row, limit):
    """What dissolves counts from half of the vessel, a volatile from one hundredth, an alcohol from three."""
    made = trace(f"phase A: a\n    to 100 %  purified water\n    {row}\n", "charge A into main")
    assert [one.limit for one in flammable(made, made.moments[0]) if one.row.code == "A2"] == ([limit] if limit else [])
