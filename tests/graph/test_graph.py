"""Order, courses, accounts and what is lost on the way."""

from fractions import Fraction

import networkx
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from procsheet.graph.courses import choices, courses
from procsheet.graph.picture import columns, draw
from tests.made import HAND_CREAM, compiled, grams, method, told
from tests.sources import source

TWO = "phase A: water\n    to 100 %  purified water\nphase B: b\n    10 %  glycerin\n    5 %  propylene glycol\n"


def graph(text):
    return compiled(text).batch.graph


@source("by hand", "803.37 less the guide-and-cap room of 3.00 less the hold-back of 15.00 is 785.37 g; the rinse is 15.00 g; 1 kg in the end")
def test_the_closing_row_is_shared_to_the_gram():
    """The hand cream charges 785.37 g of water, rinses with 15.00 g, and closes to exactly 1 kg."""
    made = graph(HAND_CREAM)
    water = [(portion.use, round(grams(portion.mass), 2)) for node in made.nodes for portion in node.entering if portion.row.code == "A1"]
    assert water == [("", 785.37), ("hold-back", 15.0), ("make-up", 2.0)]
    assert sum(made.states[made.product[0]].contents.values()) == 1


@source("by hand", "without a make up the water is charged less the guide of 1.00 g: 803.37 - 15.00 - 1.00 = 787.37 g")
def test_without_make_up_room_is_left_for_the_guide():
    """Without a make up the closing row leaves room for the correctors' guides only."""
    made = graph(HAND_CREAM.replace('    make up main with "purified water" to 100 %\n', ""))
    water = [round(grams(portion.mass), 2) for node in made.nodes for portion in node.entering if portion.row.code == "A1"]
    assert water == [787.37, 15.0]


@source("by hand", "a law: what goes in comes out")
@given(st.lists(st.sampled_from(["add half of B to main", 'add "glycerin" to main', "charge B into side\n    add side to main", "add the rest of B to main"]), min_size=1, max_size=3))
@settings(max_examples=60)
def test_mass_closes_or_something_is_said(steps):
    """Either the product holds the whole batch, or a finding says what is missing or double."""
    text = method(TWO, "    charge A into main\n" + "\n".join(f"    {step}" for step in steps) + "\n    fill main")
    made = compiled(text)
    total = sum(made.batch.graph.states[made.batch.graph.product[0]].contents.values(), Fraction(0))
    assert total == 1 or made.stops


@source("by hand", "each line names what is wrong with it")
@pytest.mark.parametrize("steps, name", [
    ("charge A into main\n    add B to main\n    add B to main\n    fill main", "used-twice"),
    ("charge A into main\n    fill main", "never-added"),
    ('charge A into main\n    add "glycerin" to main\n    fill main', "never-added"),
    ("charge A into main\n    add half of B to main\n    fill main", "never-added"),
    ("charge A into main\n    charge B into side\n    fill main", "content-lost"),
    ("charge A into main\n    add B to main\n    add pail to main\n    fill main", "empty-vessel"),
    ("charge A into main\n    add B to main\n    heat side to 40 °C\n    fill main", "empty-vessel"),
    ("charge A into main\n    add B to main\n    rinse side with the hold-back into main\n    fill main", "hold-back"),
    ("charge A into main after mixing called first\n    add B to main\n    stir main for 5 min after first called mixing\n    fill main", "steps-in-a-circle"),
])
def test_structure_is_told(steps, name):
    """What is added twice, never, or into nothing is a finding that stops."""
    assert name in told(compiled(method(TWO, "    " + steps)), "STOP")


@source("by hand", "during splits a step: cooling, what is added, cooling again")
def test_during_splits_a_step():
    """A step that another stands inside is split in two, and the other stands between."""
    made = graph(method(TWO, "    charge A into main\n    heat main to 70 °C\n    cool main to 25 °C called cooling\n    add B to main below 40 °C during cooling\n    fill main"))
    assert [(node.step.verb, node.part) for node in made.nodes] == [("charge", 0), ("heat", 0), ("cool", 0), ("add", 0), ("cool", 1), ("fill", 0)]


@source("by hand", "after a later step, a step is done later")
def test_after_moves_a_step():
    """A step that must come after a later one is done after it."""
    made = graph(method(TWO, "    charge A into main\n    add B to main after warming\n    heat main to 40 °C called warming\n    fill main"))
    assert [node.step.verb for node in made.nodes] == ["charge", "heat", "add", "fill"]


@source("by hand", "2 x 3 ways are 6; of 2^6 = 64 ways each is taken once against the first of the others: 7")
def test_courses_are_counted():
    """Every way is taken up to 32; above that each option once against the first of the others."""
    two = "".join(f"    choose one\n    option {name}-a\n        stir main for 1 min\n    option {name}-b\n        stir main for 2 min\n    end\n" for name in "pqrstu")
    small = method(TWO, "    charge A into main\n    add B to main\n" + two[: two.index("    choose one", 5)] + "    stir main with anchor or propeller or paddle\n    fill main")
    assert len(courses(compiled(small).method)) == 6
    large = compiled(method(TWO, "    charge A into main\n    add B to main\n" + two + "    fill main")).method
    assert len(choices(large)) == 6
    assert len(courses(large)) == 7


@source("by hand", "the finding arises only where step 3 is left out")
def test_a_finding_names_its_course():
    """A finding that not every course has names the way in which it arises."""
    text = method(TWO, "    charge A into main\n    add B to main\n    heat main to 70 °C\n    cool main to 30 °C optional\n    stir main at most 40 °C for 5 min\n    fill main")
    found = [finding for finding in compiled(text).findings if finding.name == "temperature-not-reached"]
    assert [finding.courses for finding in found] == [("without step 4",)]


@source("independent", "networkx: the file's order is a topological order of the needs, and the longest path counts the columns")
def test_the_order_is_topological():
    """Every node stands behind those it needs, as networkx sees it too."""
    made = graph(HAND_CREAM)
    flow = networkx.DiGraph([(need, node.index) for node in made.nodes for need in node.needs])
    assert networkx.is_directed_acyclic_graph(flow)
    assert all(need < node.index for node in made.nodes for need in node.needs)
    assert max(columns(made).values()) + 1 >= 3


@source("by hand", "every material of the formula stands on the picture")
def test_the_picture_names_every_material():
    """The flow picture names every material and numbers every step that works on a vessel."""
    made = graph(HAND_CREAM)
    picture = draw(made)
    assert all(row.name.replace("&", "&amp;") in picture for row in made.method.rows)
    assert all(f">{node.step.number}<" in picture for node in made.nodes if node.place and node.step.number)


@source("by hand", "90 + 10 parts; the 4 mL of water boil off")
def test_drying_drives_the_water_off():
    """`dry` takes the water out of the vessel; what is left is the product."""
    text = method("phase A: a\n    90 g  cetostearyl alcohol\n    10 g  sodium lauryl sulfate\n    4 mL  purified water",
                  '    charge A into main\n    heat main to 115 °C\n    dry main until "the frothing ceases"\n    fill main', kind="anhydrous", basis="the sum")
    made = graph(text)
    assert sum(made.states[made.product[0]].contents.values()) == Fraction(1, 10)


@source("by hand", "an open share takes nothing known; the make-up takes all that is left")
def test_an_open_share_takes_nothing_known():
    """`? %` of a material is a blank on paper, and the rest of it stays for the make-up."""
    text = method("phase A: a\n    to 100 %  purified water\n    10 %  glycerin", '    charge "glycerin" into main\n    rinse side with ? % of "purified water" into main\n'
                  '    make up main with "purified water" to 100 %\n    fill main')
    made = graph(text)
    assert [(portion.use, portion.mass) for node in made.nodes for portion in node.entering][1:] == [("part", 0), ("make-up", Fraction(9, 10))]


@source("by hand", "a vessel with a dose that is not known yet, forgotten")
def test_an_open_dose_left_behind_is_lost_too():
    """What stands in a vessel and never reaches the product is told, whether its amount is written or open."""
    made = compiled(method("phase A: water\n    to 100 %  purified water\nphase B: more\n    ? %  glycerin", "    charge A into main\n    charge B into side\n    fill main"))
    assert "content-lost" in told(made)
