"""Figures as they are printed."""

from fractions import Fraction

import pytest

from procsheet.intervals import INFINITY, Interval
from procsheet.plan.plant import NO_PLANT
from procsheet.sheet import figures
from procsheet.sheet.pieces import numbered
from procsheet.source import NOWHERE
from procsheet.syntax.tree import Quantity
from tests.sources import source


def quantity(low: str, high: str, unit: str, bound: str = "", about: bool = False) -> Quantity:
    return Quantity(low, high, unit, bound, about, NOWHERE)


@source("by hand", "digits as typed; a no-break blank before the unit; a thin space from 10 000 on; a minus sign")
@pytest.mark.parametrize(("given", "said"), [
    (("75", "80", "°C"), "75–80 °C"), (("8.0", "8.0", "%"), "8.0 %"), (("-0.5", "-0.5", "bar"), "−0.5 bar"),
    (("-0.6", "-0.4", "bar"), "−0.6 to −0.4 bar"),
    (("9000", "14000", "mPa.s"), "9000–14 000 mPa·s"), (("40", "40", "C", "below"), "below 40 °C"),
    (("40", "40", "°C", "at most"), "40 °C or below"),
    (("15", "15", "µm", "at most"), "15 µm or less"), (("25", "25", "°C", "", True), "about 25 °C"), (("1", "1", "passes"), "1 pass"),
])
def test_a_written_figure(given, said):
    """It keeps its digits."""
    assert figures.written(quantity(*given)).replace("\u00a0", " ").replace("\u2009", " ") == said


@source("by hand", "a tolerance of 2 °C where no plant is named")
@pytest.mark.parametrize(("given", "said"), [
    (("75", "75", "°C"), "73–77"), (("75", "80", "°C"), "75–80"), (("40", "40", "°C", "below"), "< 40"), (("5.0", "5.5", ""), "5.0–5.5"),
    (("25", "25", "°C", "", True), "23–27"), (("room", "room", "room"), "20–25"), (("?", "?", "°C"), ""),
])
def test_a_limit_in_a_box(given, said):
    """A plain temperature carries the tolerance, `about` its own two degrees; ranges and bounds stand as written; an open one is left blank."""
    assert figures.limit(quantity(*given), NO_PLANT).replace("\u00a0", " ") == said


@source("by hand", "1.08 kg on a balance that reads 0.1 g; 117.8 kg on one that reads 100 g")
def test_a_weight_reads_as_its_balance_shows_it():
    """Trailing zeros stay."""
    assert figures.reading(Fraction(108, 100), "kg", 4) == "1.0800"
    assert figures.reading(Fraction(1178, 10), "kg", 1) == "117.8"
    assert figures.reading(Fraction(12345, 1), "g", 0) == "12\u2009345\u2009000"


@source("by hand", "digits of a batch, of a volume that must fit, of a drive")
def test_worked_figures_are_told_with_the_digits_they_deserve():
    """Four digits of a batch, three of a volume and never too few, tens of rpm above 200."""
    assert [figures.four(Fraction(mass), "kg") for mass in ("150", "40", "2345.6", "12")] == ["150.0", "40.00", "2346", "12.00"]
    assert [figures.litres(volume).replace("\u00a0", " ") for volume in (0.15112, 0.0234, 0.000713)] == ["152 L", "23.4 L", "713 mL"]
    assert [figures.turns(Interval(turn, turn)) for turn in (31.83, 0.5, 4.78)] == ["1910", "30", "290"]
    assert figures.turns(Interval(0.5, 1)) == "30–60"


@source("by hand", "seconds to minutes: one figure where the two are near each other")
def test_a_time_nobody_sets():
    """Near each other they are one, apart they are a range, long ones are hours."""
    assert [figures.duration(Interval(*ends)) for ends in ((1859, 2394), (300, 720), (8400, 9000))] == [
        ("36", "min"), ("5–12", "min"), ("2\u00a0h\u00a020", "min")]


@source("by hand", "bounds that have one end")
def test_an_open_range():
    """Below and above."""
    assert (figures.kelvins(Interval(-INFINITY, 313.15)), figures.kelvins(Interval(338.15, INFINITY))) == ("≤ 40", "≥ 65")


@source("by hand", "packs rounded down")
@pytest.mark.parametrize(("number", "said"), [(10.5, "10"), (326.9, "320"), (1893, "1800"), (12345, "12 300")])
def test_packs_are_counted_cautiously(number, said):
    """Never more than there will be."""
    assert figures.count(number).replace("\u2009", " ") == said


@source("by hand", "runs of three and more")
@pytest.mark.parametrize(("steps", "said"), [
    ([5], "step 5"), ([5, 7], "steps 5 and 7"), ([5, 6], "steps 5 and 6"), ([5, 6, 7, 10], "steps 5 to 7 and 10"),
    ([1, 2, 4, 5, 9], "steps 1, 2, 4, 5 and 9")])
def test_steps_are_told_in_runs(steps, said):
    """As a person would."""
    assert numbered(steps) == said
