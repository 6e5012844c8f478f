"""Size, rounding, balances and kettles."""

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from procsheet.formulas.minimum_weight import minimum_weight
from procsheet.pipeline import Request
from procsheet.plan.plan import Order
from procsheet.plan.size import read_size
from procsheet.plan.weighing import decimals, to_reading
from tests.made import HAND_CREAM, RECIPES, compiled, method, told
from tests.sources import source

PILOT = RECIPES / "plants" / "pilot.plant"
TINY = method("phase A: water\n    to 100 %  purified water\nphase B: b\n    0.001 %  citric acid\n", "    charge A into main\n    add B to main\n    fill main")


def lines(text, **how):
    made = compiled(text, Request(**how))
    return made.batch.plan.lines


@source("by hand", "1 kg to 0.01 g: 785.37, 15.00, 40.00, 2.00, 2.63, 50.00, 60.00, 30.00, 9.00, 3.00; the acid up to its cap of 3.00")
def test_the_hand_cream_is_weighed_to_the_gram():
    """The weighing list of 1 kg is the table of the language page."""
    shown = [f"{float(line.target * 1000):.{line.decimals}f}" for line in lines(HAND_CREAM) if line.use != "make-up"]
    assert shown == ["785.37", "15.00", "40.00", "2.00", "2.63", "50.00", "60.00", "30.00", "9.00", "3.00", "3.00"]


@source("published", "USP 41 chapter on balances, as the handbook computes it: 820 d at 0.1 %, 1640 d x 0.1 at 0.5 % (usp41_minimum_weight.csv)")
@pytest.mark.parametrize("reads, spread, tolerance, least", [(1e-4, 8e-5, 1e-3, 0.16), (1e-4, 2e-5, 1e-3, 0.082), (0.01, 0.006, 1e-3, 12.0), (0.1, 0.03, 1e-3, 82.0),
                                                             (10, 0, 1e-3, 8200.0), (10, 0, 5e-3, 1640.0), (10, 0, 1e-2, 820.0), (50, 20, 1e-3, 41000.0)])
def test_least_weights(reads, spread, tolerance, least):
    """The least weight of a balance is the pharmacopoeia's."""
    assert minimum_weight(reads=reads, repeatability=spread, tolerance=tolerance) == pytest.approx(least)


@source("by hand", "scaling commutes: a batch of n basis batches weighs n times as much before rounding")
@settings(max_examples=20)
@given(st.integers(1, 500))
def test_scaling_is_linear(count):
    """Before rounding, every line of n basis batches is n times that of one."""
    one = lines(HAND_CREAM)
    many = lines(HAND_CREAM, order=Order(mass=Fraction(count)))
    assert [line.exact for line in many] == [line.exact * count for line in one]


@source("by hand", "a law: rounding closes")
@settings(max_examples=40)
@given(st.integers(10, 60000))
def test_rounding_closes(decigrams):
    """What is weighed out makes the batch, to within half of what the water's balance reads."""
    size = Fraction(decigrams, 10)
    found = lines(HAND_CREAM, order=Order(mass=size))
    charged = sum(line.target for line in found if line.use in ("", "part", "hold-back"))
    exact = sum(line.exact for line in found if line.use in ("", "part", "hold-back"))
    water = next(line for line in found if line.row.kind == "closing" and line.use == "")
    reads = Fraction(1, 10 ** water.decimals) * (1 if water.unit == "kg" else Fraction(1, 1000))
    assert abs(charged - exact) <= reads / 2


@source("by hand", "half goes up")
@given(st.fractions(0, 1000), st.sampled_from([Fraction(1, 1000), Fraction(1, 20), Fraction(5)]))
def test_a_reading_is_a_multiple(value, reads):
    """A rounded figure is a multiple of what the balance reads, no further off than half of it."""
    shown = to_reading(value, reads)
    assert (shown / reads).denominator == 1
    assert abs(shown - value) <= reads / 2


@source("by hand", "0.1 g needs one digit, 0.05 g two, 5 g none")
def test_digits_of_a_reading():
    """A reading is printed with the digits the balance shows."""
    assert [decimals(Fraction(1, 10)), decimals(Fraction(1, 20)), decimals(Fraction(5))] == [1, 2, 0]


@source("by hand", "0.001 % of 20 kg is 0.2 g; the finest balance of the pilot bay weighs from more than that")
def test_too_little_to_weigh_proposes_a_premix():
    """An amount under every balance's least weight is told, with a premix that can be weighed."""
    made = compiled(TINY, Request(order=read_size("12 kg"), plant=PILOT))
    found = [finding for finding in made.findings if finding.name == "under-least-weight"]
    assert len(found) == 1
    assert "premix" in found[0].fix


@source("by hand", "2000 packs x 75 mL x 1 g/mL / 0.97 = 154.64 kg")
def test_a_number_of_packs():
    """A batch for packs is packs x content x density / lowest yield."""
    made = compiled(HAND_CREAM, Request(order=Order(units=2000)))
    assert float(made.batch.plan.mass) == pytest.approx(154.639, abs=0.001)
    assert "product-density" in told(made, "OPEN")


@source("by hand", "the largest main kettle of the pilot bay is far smaller than 5 t")
def test_a_batch_too_large_stops():
    """A batch that no kettle holds stops, and says what the largest holds."""
    assert "vessel-too-small" in told(compiled(HAND_CREAM, Request(order=read_size("5000 kg"), plant=PILOT)), "STOP")


@source("by hand", "sizes a person types")
@pytest.mark.parametrize("text, mass, volume", [("120 kg", 120, None), ("50 L", None, Fraction(1, 20)), ("1.5 kg", Fraction(3, 2), None), ("500 g", Fraction(1, 2), None)])
def test_sizes(text, mass, volume):
    """A size is a weight or a volume."""
    assert read_size(text) == Order(mass=mass, volume=volume)


@source("by hand", "what is no size")
@pytest.mark.parametrize("text", ["120", "kg", "-3 kg", "0 kg", "5 °C", "twelve kilos", ""])
def test_what_is_no_size(text):
    """What is neither weight nor volume is refused."""
    assert read_size(text) is None


@source("by hand", "a vessel by its tag")
def test_a_vessel_is_named_by_hand():
    """`--vessel main=TAG` overrides the match, and a tag the plant has not is told."""
    tag = next(kettle.tag for kettle in compiled(HAND_CREAM, Request(plant=PILOT)).plant.kettles if kettle.main)
    made = compiled(HAND_CREAM, Request(order=Order(mass=Fraction(30), vessels=(("main", tag),)), plant=PILOT))
    assert made.batch.plan.kettles["main"].tag == tag
    assert "vessel-named" in told(compiled(HAND_CREAM, Request(order=Order(vessels=(("main", "X99"),)), plant=PILOT)), "STOP")



@source("by hand", "proven at 1 kg: 5 kg is five times, 50 kg fifty times as large")
@pytest.mark.parametrize("mass, marked", [(1, False), (5, False), (50, True), (Fraction(1, 20), True)])
def test_what_only_holds_where_it_was_proven_is_marked(mass, marked):
    """Ten times larger or smaller, the steps that are written in minutes are named."""
    written = method("phase A: a\n    to 100 %  purified water", "    charge A into main\n    homogenise main for 5 min\n    stir main until clear\n    fill main").replace("basis", "proven at 1 kg\nbasis", 1)
    made = compiled(written, Request(Order(mass=Fraction(mass))))
    found = [finding for finding in made.findings if finding.name == "proven-at"]
    assert bool(found) == marked and all("step 2 holds there only" in finding.title for finding in found)
