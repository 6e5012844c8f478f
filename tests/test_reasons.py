"""Why one step follows another: found by turning neighbours round."""

from procsheet.cli import main
from procsheet.reasons import FLOW, FREE, RULE, fixed, neighbours, reasons
from tests.made import RECIPES, compiled, method
from tests.sources import source

PHASES = """phase A: water
    to 100 %  purified water
phase B: polyol
    5 %  glycerin
phase C: gum
    0.3 %  xanthan gum
phase D: late
    0.5 %  fragrance
"""
STEPS = """    charge A into main
    charge B into pail
    disperse C in pail by hand until lump-free
    add pail to main over 3 min with propeller
    stir main for 30 min with propeller until hydrated
    heat main to 75 °C covered with anchor
    cool main to 30 °C with anchor
    add D to main with anchor
    mix main for 10 min with anchor
    fill main"""


def told():
    made = compiled(method(PHASES, STEPS))
    return {(one.step, one.before): one for one in reasons(made.batch)}


@source("by hand", "perfume belongs behind the cooling: common practice, no source")
def test_a_rule_is_the_reason():
    """Perfume added before the cooling would be too hot: that rule, and its material, is the reason."""
    one = told()[8, 7]
    assert (one.kind, one.rule, one.material) == (RULE, "fragrance-temp", "fragrance")


@source("by hand", "the pail cannot be poured before it is filled")
def test_flow_is_the_reason():
    """What a step works on has to be there."""
    assert told()[4, 3].kind == FLOW and told()[10, 9].kind == FLOW


@source("by hand", "two charges of liquids that do nothing to each other")
def test_free_neighbours_may_be_swapped():
    """Nothing changes where two liquids of one phase change places; and only then it is called free."""
    made = compiled(method("phase A: water\n    to 100 %  purified water\nphase B: polyol\n    5 %  glycerin\nphase C: other\n    5 %  propylene glycol",
                           "    charge A into main\n    add B to main with anchor\n    add C to main with anchor\n    mix main for 15 min with anchor\n    fill main"))
    assert {(one.step, one.before): one.kind for one in reasons(made.batch)}[3, 2] == FREE


@source("by hand", "pairs of the method above that share a vessel")
def test_neighbours_share_a_vessel():
    """A step's neighbour is the last before it at the same vessel."""
    steps = compiled(method(PHASES, STEPS)).batch.graph.course.steps
    assert [(one.number, other.number, vessel) for one, other, vessel in neighbours(steps)][:4] == [(2, 3, "pail"), (3, 4, "pail"), (4, 5, "main"), (5, 6, "main")]


@source("by hand", "the graph is made before and not touched")
def test_the_graph_stays_as_it_was():
    """Looking for reasons changes nothing in the batch."""
    made = compiled(method(PHASES, STEPS))
    before = repr(made.batch.graph)
    assert fixed(reasons(made.batch)) and repr(made.batch.graph) == before


@source("by hand", "the command prints each pair")
def test_the_command_tells_why(capsys):
    """`graph --why` has a line for each pair of neighbours, and writes no picture."""
    assert main(["graph", str(RECIPES / "harbour-hand-cream.method"), "--why"]) == 0
    out = capsys.readouterr().out
    assert "flow: " in out and "may be swapped" in out and all(" after " in line for line in out.splitlines())
