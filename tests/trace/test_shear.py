"""What turns in a step, and what it is to what lies in the vessel."""

from procsheet.intervals import BEYOND, STRADDLES, UNDECIDED, WITHIN, Interval, point
from procsheet.pipeline import Request
from procsheet.trace.trace import HIGH, LOW, MEDIUM, Shear
from tests.made import compiled, method
from tests.sources import source

WATER = "phase A: water\n    to 100 %  purified water\n"


def moments(steps: str, phases: str = WATER, kind: str = "gel"):
    return compiled(method(phases, steps, kind=kind), Request()).batch.trace.moments


@source("by hand", "15 m/s is no speed of an anchor, 30 rpm none of a homogeniser")
def test_a_speed_goes_with_the_tool_it_can_be_meant_for():
    """Of two tools named together the fast speed is the head's, and the anchor runs on without it."""
    sheared, after = moments("    charge A into main\n    stir main with homogeniser and anchor at 15 m/s\n    mix main for 5 min\n    fill main\n")[1:3]
    assert sheared.shear.tip == Interval(15, 15)
    assert after.shear.tools == ("anchor",) and after.shear.tip is None


@source("by hand", "a mill mills, whichever it is")
def test_an_open_mill_is_high_shear():
    """`mill` and `homogenise` are high shear even where the tool is left open."""
    assert moments("    charge A into main\n    mill main with ? for 5 min\n    fill main\n")[1].shear.is_high


@source("by hand", "a speed without a tool may be anything's")
def test_a_speed_without_a_tool_leaves_the_shear_open():
    """`at 3500 rpm` alone may be a stirrer or a head."""
    rank = moments("    charge A into main\n    stir main at 3500 rpm for 5 min\n    fill main\n")[1].shear.rank
    assert (rank.low, rank.high) == (LOW, HIGH) and rank.missing


@source("by hand", "5 portions of 3 min are 15 min")
def test_each_for_counts_the_portions():
    """`in 5 portions, each for 3 min` takes 15 min."""
    made = moments("    charge A into main\n    add B to main in 5 portions, each for 3 min\n    fill main\n", WATER + "phase B: b\n    2 %  glycerin\n")
    assert made[1].duration == Interval(900, 900)


@source("by hand", "the meaning of each verdict")
def test_how_a_tool_lies_to_a_tip_speed():
    """A high-shear head passes any tip speed, an unknown tool may, a stirrer is judged by its tip."""
    assert Shear(point(HIGH), Interval(2, 2)).beyond(3) == BEYOND
    assert Shear(Interval(LOW, HIGH, "the tool")).beyond(3) == UNDECIDED
    assert Shear(Interval(MEDIUM, HIGH)).beyond(3) == STRADDLES
    assert Shear(point(LOW), Interval(4, 4)).beyond(3) == BEYOND
    assert Shear(point(LOW), Interval(3, 3)).beyond(3) == WITHIN
    assert Shear(point(LOW)).beyond(3) == WITHIN


@source("by hand", "20 g of 1 kg")
def test_what_a_step_adds():
    """A step adds what its vessel did not hold before."""
    made = moments("    charge A into main\n    add B to main\n    fill main\n", WATER + "phase B: b\n    2 %  glycerin\n")
    assert made[1].added == {"B1": 0.02}


@source("by hand", "a base neutralises a carbomer, however little of it is written")
def test_open_doses_neutralise_all_the_same():
    """Where no amount is written yet, a base in the vessel still swells the carbomer."""
    made = moments("    charge A into main\n    neutralise main with B\n    fill main\n", "phase A: gel\n    ? %  water\n    ? %  carbomer\nphase B: base\n    ? %  triethanolamine\n")
    assert made[1].facts.neutralised and not made[0].facts.neutralised
