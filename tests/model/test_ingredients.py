"""The ingredient list: names merged, shares added, order and the group below 1 %."""

import json
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from procsheet.cli import main
from procsheet.model.composition import composition
from procsheet.model.ingredients import ingredients, label
from procsheet.syntax import tree
from tests.made import compiled, method
from tests.sources import source

FORMULA = """phase A: water
    to 100 %  purified water
    5 %  glycerin 86.5 %
    2 %  sodium hydroxide 20 % solution
phase B: oils
    4 %  cetearyl alcohol
    3 %  emulsifying wax BP
    0.5 %  tocopherol
phase C: more
    1 %  glycerin
"""
STEPS = "    charge A into main\n    add B to main\n    add C to main\n    fill main"
LINE = tree.Entry("composed of", (), "", None, tree.NOWHERE if hasattr(tree, "NOWHERE") else None, None)


def listed(formula=FORMULA):
    return ingredients(compiled(method(formula, STEPS)).method)


@source("by hand", "5 x 0.86 + 1 of glycerin; 2 x 0.20 of alkali; 3 x 0.9 + 4 of fatty alcohol, from the blends' own lines")
def test_blends_and_solutions_are_taken_apart():
    """What several rows bring of one name stands once, with its whole share."""
    shares = {one.name: float(one.share) * 100 for one in listed()}
    assert shares["Glycerin"] == pytest.approx(5 * 0.86 + 1, abs=0.06)
    assert shares["Sodium Hydroxide"] == pytest.approx(0.4)
    assert shares["Cetearyl Alcohol"] == pytest.approx(4 + 3 * 0.9)


@source("published", "EU 1223/2009, article 19 (1) g: descending order of weight; ingredients below 1 % in any order behind those above")
def test_the_order_is_descending():
    """The largest first; those that may stand in any order are the ones below 1 %."""
    found = listed()
    assert [one.share for one in found] == sorted((one.share for one in found), reverse=True)
    assert {one.name for one in found if one.any_order} == {one.name for one in found if one.share < Fraction(1, 100)}
    assert label(found).startswith("Aqua, Cetearyl Alcohol, Glycerin")


@source("by hand", "a law: the parts make the whole")
@given(st.lists(st.sampled_from(["glycerin", "sorbitol 70 %", "emulsifying wax BP", "sodium lactate 60 %", "cetearyl alcohol", "xanthan gum", "unheard-of stuff"]),
                min_size=1, max_size=6, unique=True), st.integers(1, 12))
def test_the_list_holds_the_whole_batch(names, percent):
    """The shares of all ingredients together are the batch, whatever the formula is made of."""
    formula = "phase A: water\n    to 100 %  purified water\n" + "".join(f"    {percent} %  {name}\n" for name in names)
    found = ingredients(compiled(method(formula, "    charge A into main\n    fill main")).method)
    assert float(sum(one.share for one in found)) == pytest.approx(1)


@source("by hand", "commas inside a name have no blank behind them")
@pytest.mark.parametrize("text, parts", [("Water 62 %, Sorbitol 38 %", (("Water", 0.62), ("Sorbitol", 0.38))), ("1,2-Hexanediol 40-60 %, Aqua 50 %", (("1,2-Hexanediol", 0.5), ("Aqua", 0.5))),
                                         ("CI 77499 50 %, Butylene Glycol 50 %", (("CI 77499", 0.5), ("Butylene Glycol", 0.5))), ("Water, Sorbitol 38 %", ())])
def test_a_composition_is_read(text, parts):
    """Name and share of each part; nothing where a part has no figure."""
    assert tuple((name, float(share)) for name, share in composition((LINE._replace(text=text),))) == parts


@source("by hand", "the command is a view of the same list")
def test_the_command_prints_the_list(tmp_path, capsys):
    """`ingredients --json` gives the list for machines, the plain form the line of the label."""
    file = tmp_path / "a.method"
    file.write_text(method(FORMULA, STEPS), encoding="utf-8")
    assert main(["ingredients", str(file), "--json"]) == 0
    assert [one["name"] for one in json.loads(capsys.readouterr().out)] == [one.name for one in listed()]
    assert main(["ingredients", str(file)]) == 0
    told = " ".join(capsys.readouterr().out.split())
    assert label(listed()) in told and "below 1 %" in told and "no legal advice" in told
