"""What fits a plant: the smallest and largest batch, what stands against more, and how an order is split."""

from functools import cache
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from procsheet.cli import main
from procsheet.pipeline import Request, compile_method
from procsheet.plan.fit import fit, split
from procsheet.source import source as text
from tests.made import RECIPES, method
from tests.sources import source

PLANT = """plant Bay
vessel K100
    main kettle
    working 20-100 L
    homogeniser 0.1 m, 500-3000 rpm, covered from 30 L
vessel K400
    main kettle
    working 120-400 L
    homogeniser 0.1 m, 500-3000 rpm, covered from 150 L
vessel S40
    side kettle
    working 10-40 L
    jacket 0.5 m2, 300 W/m2/K
"""
HALF_OIL = "phase A: water\n    70 %  purified water\nphase B: more\n    30 %  water for the side"
STEPS = """    charge A into main
    homogenise main for 5 min with homogeniser
    charge B into side
    heat side to 60 °C
    add side to main with homogeniser
    fill main"""


def graph_and_plant(tmp_path: Path, steps: str = STEPS, plant: str = PLANT):
    (tmp_path / "bay.plant").write_text(plant, encoding="utf-8")
    made = compile_method(text("a.method", method(HALF_OIL, steps)), tmp_path, Request(plant=tmp_path / "bay.plant"))
    return made.batch.graph, made.plant


@source("by hand", "70 % water must cover the head: 30 L / 0.7 = 42.9 kg, 100 L full; 30 % in the side kettle: 10 L / 0.3 and 40 L / 0.3")
def test_each_stage_sets_an_end(tmp_path):
    """The head must be covered by the first charge, the side vessel be within its working volume, the kettle not run over."""
    found = fit(*graph_and_plant(tmp_path))
    (low, high), *more = found.ranges
    assert low.mass == pytest.approx(30 / 0.7, rel=0.002) and low.against[0].name == "tool-uncovered"
    assert high.mass == pytest.approx(100, rel=0.002)
    assert {name: kettle.tag for name, kettle in high.kettles.items() if kettle} == {"main": "K100", "side": "S40"}


@source("by hand", "a rotor covered from 150 L needs 150 / 0.7 = 214 kg in the larger kettle")
def test_what_lies_between_two_kettles_does_not_fit(tmp_path):
    """Too much for one kettle and too little for the next: the range has a gap."""
    graph, plant = graph_and_plant(tmp_path)
    found = fit(graph, plant)
    assert not found.holds(150) and found.holds(90)
    assert all(low.mass > 210 for low, _ in found.ranges[1:])


@source("by hand", "an order of 250 kg where 100 kg is the most: three batches of 83.3 kg")
def test_a_large_order_is_split_evenly(tmp_path):
    """The fewest equal batches that fit."""
    graph, plant = graph_and_plant(tmp_path, plant=PLANT.split("vessel K400")[0] + "vessel S40" + PLANT.split("vessel S40")[1])
    parts = split(fit(graph, plant), 250)
    assert (parts.count, parts.mass) == (3, pytest.approx(250 / 3))


@source("by hand", "a law: equal parts make the whole, and each of them fits")
@given(mass=st.floats(1, 5000))
def test_the_parts_make_the_order(mass):
    """Whatever is ordered: the parts add up to it and fit, or it is not split at all."""
    found = hand_cream()
    parts = split(found, mass)
    assert parts is None or parts.count * parts.mass == pytest.approx(mass) and found.holds(parts.mass)


@cache
def hand_cream():
    """What fits the filler's hall, worked out once."""
    made = compile_method(text("a.method", (RECIPES / "harbour-hand-cream.method").read_text(encoding="utf-8")), RECIPES, Request(plant=RECIPES / "plants" / "filler.plant"))
    return fit(made.batch.graph, made.plant)


@source("by hand", "no kettle of 1 L holds what a method needs twice of")
def test_what_does_not_fit_says_why(tmp_path, capsys):
    """A plant without a main kettle for it: the reason is told, and the code says so."""
    (tmp_path / "small.plant").write_text("plant Shelf\nvessel S1\n    side kettle\n    working 0.1-1 L\n", encoding="utf-8")
    (tmp_path / "a.method").write_text(method(HALF_OIL, STEPS), encoding="utf-8")
    assert main(["fit", str(tmp_path / "a.method"), "--plant", str(tmp_path / "small.plant")]) == 1
    assert "no batch" in capsys.readouterr().out


@source("by hand", "the hand cream in the filler's hall")
def test_the_command_tells_both_ends(capsys):
    """`fit` prints the smallest and the largest, the step that stands against more, and the split of a larger order."""
    assert main(["fit", str(RECIPES / "harbour-hand-cream.method"), "--plant", str(RECIPES / "plants" / "filler.plant"), "--batch", "1200 kg"]) == 0
    out = capsys.readouterr().out
    assert "smallest" in out and "largest" in out and "line" in out and "3 equal batches of 400 kg" in out
    assert main(["fit", str(RECIPES / "harbour-hand-cream.method")]) == 2
