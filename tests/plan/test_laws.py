"""Laws of scale: there and back, two batches of one, rounding inside its range, and no figure a plant cannot run without a word."""

from fractions import Fraction

from hypothesis import given, settings
from hypothesis import strategies as st

from procsheet.pipeline import Request, compile_method
from procsheet.plan.draw_up import draw_up
from procsheet.plan.plan import Order
from procsheet.source import source as text
from tests.made import RECIPES
from tests.sources import source

NAMES = sorted(path.stem for path in RECIPES.glob("*.method") if path.stem != "five-mistakes")
PLANTS = sorted(path.stem for path in (RECIPES / "plants").glob("*.plant"))
KEPT: dict = {}
SIZES = st.fractions(Fraction(1, 20), 3000, max_denominator=1000)


def graph_and_plant(name: str, plant: str = "filler"):
    """The graph of a recipe and a plant, read once."""
    if (name, plant) not in KEPT:
        file = RECIPES / f"{name}.method"
        made = compile_method(text(file.name, file.read_text(encoding="utf-8")), RECIPES, Request(plant=RECIPES / "plants" / f"{plant}.plant"))
        KEPT[name, plant] = made.batch.graph, made.plant
    return KEPT[name, plant]


def exact(name: str, mass: Fraction) -> dict:
    """What is weighed of each row in each use, before rounding."""
    found: dict = {}
    for line in draw_up(graph_and_plant(name)[0], graph_and_plant(name)[1], Order(mass=mass)).lines:
        found[line.row.code, line.use, line.step] = found.get((line.row.code, line.use, line.step), Fraction(0)) + line.exact
    return found


@source("by hand", "a law: amounts are exact fractions of the batch")
@settings(max_examples=25)
@given(st.sampled_from(NAMES), SIZES, SIZES)
def test_there_and_back_is_the_identity(name, one, other):
    """Scaled to another size and back, every amount is what it was."""
    small, large = exact(name, one), exact(name, other)
    assert {key: value * one / other for key, value in large.items()} == small


@source("by hand", "a law: two of a batch")
@settings(max_examples=25)
@given(st.sampled_from(NAMES), SIZES)
def test_twice_the_batch_is_two_batches(name, size):
    """A batch of twice the size takes twice of everything."""
    assert exact(name, 2 * size) == {key: 2 * value for key, value in exact(name, size).items()}


@source("by hand", "a law: what is weighed makes the batch, but for what the closing row's balance cannot show")
@settings(max_examples=25)
@given(st.sampled_from(NAMES), SIZES)
def test_the_weighings_make_the_batch(name, size):
    """All exact amounts together, with what makes up, are the batch; correctors stand aside."""
    graph, plant = graph_and_plant(name)
    plan = draw_up(graph, plant, Order(mass=size))
    whole = sum((line.exact for line in plan.lines if line.use != "corrector"), Fraction(0))
    correctors = sum(((row.guide or row.cap or Fraction(0)) * plan.factor for row in graph.method.rows if row.kind == "corrector"), Fraction(0))
    caps = sum(((row.cap or row.guide or Fraction(0)) * plan.factor for row in graph.method.rows if row.kind == "corrector"), Fraction(0))
    assert plan.mass - caps <= whole <= plan.mass - min(correctors, caps) + Fraction(1, 10 ** 9) or whole == plan.mass


@source("by hand", "a law: a rounded figure lies where it may")
@settings(max_examples=40)
@given(st.sampled_from(NAMES), st.sampled_from(PLANTS), SIZES)
def test_rounding_stays_inside_the_acceptance_range(name, plant, size):
    """The target a balance shows lies inside its own range, and every line but the one that closes is the nearest reading."""
    graph, bay = graph_and_plant(name, plant)
    balances = {balance.tag: balance for balance in bay.balances}
    for line in draw_up(graph, bay, Order(mass=size)).lines:
        if line.low is not None and line.exact > 0:
            assert line.low <= line.target <= line.high
            reads = balances[line.balance].reads
            if line.row.kind != "closing":
                assert abs(line.target - line.exact) <= reads / 2


@source("by hand", "a law: the plant's own ranges, or a warning")
@settings(max_examples=30, deadline=None)
@given(st.sampled_from(NAMES), st.sampled_from(PLANTS), st.fractions(1, 700, max_denominator=10))
def test_every_figure_lies_in_the_plant_or_is_told(name, plant, size):
    """Speeds, volumes and weights of a plan lie within the plant's ranges, or a finding of that name says so."""
    file = RECIPES / f"{name}.method"
    made = compile_method(text(file.name, file.read_text(encoding="utf-8")), RECIPES, Request(order=Order(mass=size), plant=RECIPES / "plants" / f"{plant}.plant"))
    told = {one.name for finding in (*made.findings, *(signed.finding for signed in made.signed)) for one in (finding, *finding.folded)}
    plan = made.batch.plan
    for vessel, kettle in plan.kettles.items():
        if kettle is not None and kettle.working is not None and plan.volumes[vessel][1] > 0:
            most = plan.volumes[vessel][1]
            assert most <= kettle.working.high + 1e-9 or "vessel-too-small" in told
            assert most >= kettle.working.low - 1e-9 or "vessel-too-empty" in told
    for moment in made.batch.trace.moments:
        kettle = plan.kettles.get(moment.vessel)
        for running in moment.turning if kettle is not None else ():
            tool = kettle.tool(running.tool)
            if tool is not None and tool.speed is not None and running.speed is not None:
                assert tool.speed.low - 1e-6 <= running.speed.low and running.speed.high <= tool.speed.high + 1e-6
    for line in plan.lines:
        balance = next((one for one in made.plant.balances if one.tag == line.balance), None)
        if balance is not None and line.use == "" and line.exact > 0:
            assert line.exact <= balance.capacity * line.containers or line.containers > 1 or line.exact > max(one.capacity for one in made.plant.balances)
            assert balance.least is None or line.exact >= balance.least or "under-least-weight" in told


