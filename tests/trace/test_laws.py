"""Laws that hold for every method."""

import csv
from fractions import Fraction
from math import exp
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from procsheet.formulas.jacket_time import jacket_time
from procsheet.intervals import INFINITY, Interval, point
from procsheet.pipeline import Request
from procsheet.trace.flash import flammable
from procsheet.trace.heat import mixed
from tests.made import compiled, method
from tests.methods import methods
from tests.sources import source

DATA = Path(__file__).parents[1] / "published" / "data"
ROWS = "phase A: water\n    to 100 %  purified water\nphase B: b\n    20 %  glycerin\nphase C: c\n    5 %  mineral oil\n"


def holds(wide: Interval | None, narrow: Interval | None) -> bool:
    """Whether one interval holds another; None is anything at all."""
    return wide is None or narrow is not None and wide.low <= narrow.low + 1e-6 and narrow.high <= wide.high + 1e-6


def weighed(portions) -> Fraction:
    return sum((one.mass for some in portions for one in some), Fraction(0))


def left_over(graph) -> Fraction:
    """kg of one basis batch in all that is not used any more: the product, and what is left in other vessels."""
    used = {state for one in graph.states for state in one.parents}
    assert not used & set(graph.product)
    return sum((sum(state.contents.values(), Fraction(0)) for state in graph.states if state.index not in used), Fraction(0))


@source("by hand", "what goes in stays in, whatever the method")
@settings(max_examples=40)
@given(methods())
def test_mass_is_kept(text):
    """In every method that can be walked each vessel holds what it held and what was brought, and a step's range holds its start and end."""
    for batch in compiled(text).batches:
        assert weighed(node.entering for node in batch.graph.nodes) == left_over(batch.graph) or any(node.step.verb == "dry" for node in batch.graph.nodes)
        for moment in batch.trace.moments:
            node = batch.graph.nodes[moment.node]
            brought = sum(float(one.mass) for one in node.entering) * float(batch.plan.factor)
            brought += sum(float(sum(batch.graph.states[state].contents.values()) * share) for state, share in node.poured) * float(batch.plan.factor)
            whole = sum(moment.before.values()) + brought
            assert moment.mass == pytest.approx(whole) or moment.step.verb == "dry" and moment.mass < whole
            assert holds(moment.throughout, moment.start) and holds(moment.throughout, moment.end)
            assert min(moment.contents.values(), default=0) >= 0


# each step as exact as can be, and vaguer and vaguer
STEPS = (
    ("charge A into main at 22 °C", "charge A into main at 20-25 °C"),
    ("heat main to 70 °C with anchor", "heat main to 65-75 °C with anchor", "heat main to ? °C with anchor"),
    ("stir main for 10 min with propeller", "stir main for 5-20 min with propeller", "stir main with ?"),
    ("charge B into side at 20 °C", "charge B into side"),
    ("add side to main over 5 min", "add side to main over 2-10 min", "add side to main"),
    ("cool main to 35 °C", "cool main to 30-40 °C", "cool main to ? °C"),
    ("mix main for 10 min with anchor", "mix main for 10-30 min with anchor", "mix main with anchor"),
    ("fill main",),
)


@source("by hand", "to say less is to know less")
@settings(max_examples=80)
@given(st.data())
def test_vaguer_is_wider(data):
    """Where a statement is made vaguer, no interval of any step gets narrower."""
    exact = [data.draw(st.integers(0, len(step) - 1)) for step in STEPS]
    vaguer = [data.draw(st.integers(one, len(step) - 1)) for one, step in zip(exact, STEPS)]
    texts = (method(ROWS, "\n".join(f"    {step[one]}" for one, step in zip(chosen, STEPS))) for chosen in (exact, vaguer))
    narrow, wide = (compiled(text).batch.trace.moments for text in texts)
    for one, other in zip(narrow, wide):
        assert holds(other.start, one.start) and holds(other.end, one.end) and holds(other.throughout, one.throughout), one.step.verb
        assert holds(other.shear.rank, one.shear.rank)
        assert holds(other.duration, one.duration)


LANES = (("charge A into main", "heat main to 70 °C", "stir main for 10 min with propeller"), ("charge B into side", "heat side to 60 °C"), ("charge C into pail", "stir pail with whisk"))
JOIN = "    add side to main\n    add pail to main\n    fill main"


@source("by hand", "steps of different vessels do not touch each other")
@settings(max_examples=40)
@given(st.permutations([0, 0, 0, 1, 1, 2, 2]))
def test_the_order_of_independent_steps_changes_nothing(order):
    """However the steps of three vessels are mixed in the file, every state is the same."""
    left = [list(lane) for lane in LANES]
    mixed_up = "\n".join(f"    {left[lane].pop(0)}" for lane in order)
    plain = "\n".join(f"    {step}" for lane in LANES for step in lane)
    found = [{(moment.vessel, moment.step.verb): (moment.start, moment.end, moment.shear, {code: round(mass, 9) for code, mass in moment.contents.items()}, moment.facts._replace(met=None))
              for moment in compiled(method(ROWS, f"{steps}\n{JOIN}")).batch.trace.moments} for steps in (mixed_up, plain)]
    assert found[0] == found[1]


@source("independent", "a stream of 0.1 kg a second mixed in second by second")
@given(st.floats(1, 500), st.floats(290, 370), st.floats(280, 370), st.floats(1500, 4200), st.floats(1500, 4200))
def test_mixing_agrees_with_a_stream(mass, warm, cold, one, other):
    """The heat balance of what is added all at once is that of a stream added over time."""
    held, temperature = mass * one, warm
    for _ in range(100):
        temperature = (temperature * held + cold * 0.1 * other) / (held + 0.1 * other)
        held += 0.1 * other
    found = mixed([(mass, one, point(warm)), (10.0, other, point(cold))])
    assert found.low == found.high == pytest.approx(temperature)
    assert min(warm, cold) - 1e-9 <= found.low <= max(warm, cold) + 1e-9


@source("published", "heat worked through in a table: 60 kg of water at 80 °C and 20 kg of oil at 75 °C; 20 kg of water at 20 °C into 80 kg of cream at 70 °C "
        "(jacket_heating.csv, rows mix temperature and cold-water quench, closed form)")
@pytest.mark.parametrize("parts, celsius", [([(60, 4197, 80), (20, 2200, 75)], 79.256), ([(20, 4180, 20), (80, 3400, 70)], 58.239)])
def test_worked_mixtures(parts, celsius):
    """Two mixtures come to the temperatures worked out elsewhere."""
    found = mixed([(mass, capacity, point(warm + 273.15)) for mass, capacity, warm in parts])
    assert found.low - 273.15 == pytest.approx(celsius, abs=0.02)


@source("independent", "dT = U A (Tj - T) / (m c) dt, stepped second by second")
@settings(max_examples=25)
@given(st.floats(50, 1000), st.floats(100, 600), st.floats(0.5, 4))
def test_the_jacket_agrees_with_stepping(mass, coefficient, area):
    """The closed form of the jacket is the stepped heat balance."""
    temperature, seconds, rate = 293.15, 0, coefficient * area / (mass * 3500)
    while temperature < 343.15:
        temperature += rate * (368.15 - temperature)
        seconds += 1
    found = jacket_time(mass=mass, heat_capacity=3500, coefficient=coefficient, area=area, start=293.15, target=343.15, jacket=368.15)
    assert seconds == pytest.approx(found, rel=0.02, abs=2)


@source("independent", "the heat balance stepped ten times a second: of the jacket's water m cp dT/dA = U (T - Tj) along the wall, so that it takes up w cp (1 - exp(-U A/(w cp)))")
@pytest.mark.parametrize("flow, step", [("10 L/min", "heat main to 70 °C"), ("60 L/min", "heat main to 70 °C"), ("10 L/min", "cool main to 16 °C")])
def test_a_flowing_jacket_agrees_with_stepping(flow, step, tmp_path):
    """Where the plant says how much water runs through a jacket, a step takes as long as the stepped balance of batch and water does."""
    plant = tmp_path / "small.plant"
    plant.write_text(f"plant Small\nutilities hot 90 °C, cold 10 °C, room 20-20 °C\nvessel K\n    main kettle\n    working  5-25 L\n    jacket   0.5 m2, 400 W/m2/K, {flow}\n", encoding="utf-8")
    found = compiled(method("phase A: water\n    to 100 %  purified water\n", f"    charge A into main\n    {step}\n    fill main", basis="20 kg"), Request(plant=plant)).batch
    moment, row = found.trace.moments[1], found.graph.rows["A1"].material
    carried, medium = float(flow.split()[0]) / 60 * 4186, 363.15 if "heat" in step else 283.15
    wetted = 0.5 * min(20 / float(row.density) / 0.025, 1)
    rate = carried * (1 - exp(-400 * wetted / carried)) / (20 * row.heat_capacity()[0])
    temperature, seconds = moment.start.high, 0.0
    while (moment.end.high - temperature) * (medium - temperature) > 0:
        temperature += 0.1 * rate * (medium - temperature)
        seconds += 0.1
    assert moment.duration.high == pytest.approx(seconds, rel=0.005)


def lit():
    with (DATA / "flash_mixtures.csv").open(encoding="utf-8", newline="") as file:
        return [pytest.param(row["alcohol"].split()[0], float(row["wt_pct"]), float(row["published_C"] or row["dortmund_pure12_C"]), id=f"{row['alcohol']} {row['wt_pct']}")
                for row in csv.DictReader(file) if row["how_known"] == "read" and float(row["wt_pct"]) < 93 or row["alcohol"] == "isopropanol (model only)"]


@source("published", "flash_mixtures.csv: a table of ethanol and water by a public encyclopaedia; of isopropanol, where none was found, a model by thermo 0.6.1")
@pytest.mark.parametrize("alcohol, percent, celsius", lit())
def test_a_vessel_flashes_where_its_mixture_does(alcohol, percent, celsius):
    """What a vessel of alcohol and water is judged by lies no more than 1 K above the listed flash point, and no more than 6 K below it."""
    name, assay = ("ethanol 96 %", 0.938) if alcohol == "ethanol" else ("isopropanol", 0.998)
    text = method(f"phase A: a\n    to 100 %  purified water\n    {percent / assay:.3f} %  {name}\n", "    charge A into main\n    fill main", kind="hydroalcoholic")
    trace = compiled(text).batch.trace
    found = next(flammable(trace, trace.moments[0]))
    assert celsius - 6 < found.limit - 273.15 < celsius + 1


@source("by hand", "no end is no end in any course")
@settings(max_examples=25)
@given(methods())
def test_every_method_is_walked_or_told(text):
    """Whatever is written, the trace is made or the reason is told; temperatures are figures."""
    made = compiled(text, Request())
    assert made.batches or made.findings
    for batch in made.batches:
        for moment in batch.trace.moments:
            assert all(abs(end) < INFINITY for one in (moment.start, moment.end, moment.throughout) for end in one[:2])
