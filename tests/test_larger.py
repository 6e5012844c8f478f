"""What a larger kettle does to a batch that was fine on the bench: it is hot for longer, and a rule speaks that did not."""

from pathlib import Path

from procsheet.pipeline import Request, compile_method
from procsheet.plan.plan import Order
from procsheet.source import source as text
from tests.made import method, told
from tests.sources import source

BENCH = "plant Bench\nutilities hot 95 °C, cold 15 °C, room 20-25 °C\nvessel B2\n    main kettle\n    working 0.5-2 L\n    jacket 0.08 m2, 400 W/m2/K\n    anchor 0.1 m, 10-200 rpm\n"
HALL = "plant Hall\nutilities hot 95 °C, cold 15 °C, room 20-25 °C\nvessel K1000\n    main kettle\n    working 100-1000 L\n    jacket 3 m2, 250 W/m2/K\n    anchor 0.9 m, 5-40 rpm\n"
HOUSE = 'material tender gum\n    kind polyol\n    at most 20 min above 60 °C from "house trial" (practice)\n'
PHASES = "phase A: water\n    to 100 %  purified water\n    2 %  tender gum"
STEPS = "    charge A into main\n    heat main to 75 °C with anchor\n    cool main to 30 °C with anchor\n    mix main for 20 min with anchor\n    fill main"


@source("by hand", "75 to 60 °C with a jacket of 15 °C: M cp/(U A) ln(60/45); 1 kg: 4180/32 x 0.288 = 38 s; 800 kg: 3 344 000/750 x 0.288 = 21 min, and heating adds to it")
def test_a_rule_speaks_that_did_not_on_the_bench(tmp_path):
    """The same method: fine at 1 kg, too long above its limit at 800 kg."""
    for name, words in (("bench.plant", BENCH), ("hall.plant", HALL), ("house.materials", HOUSE)):
        (tmp_path / name).write_text(words, encoding="utf-8")
    written = method(PHASES, STEPS).replace("basis", 'materials "house.materials"\nproven on "bench.plant"\nbasis', 1)
    small = compile_method(text("a.method", written), tmp_path)
    large = compile_method(text("a.method", written), tmp_path, Request(order=Order(mass=800), plant=tmp_path / "hall.plant"))
    assert "heat-sensitive" not in told(small) and "heat-sensitive" in told(large)


@source("by hand", "alkali of ten times the batch: the water is less than nothing")
def test_a_formula_far_over_the_whole_ends_in_findings():
    """What does not add up is told; the heat of a lye that cannot be is not worked out."""
    made = compile_method(text("a.method", method("phase A: water\n    to 100 %  purified water\nphase B: base\n    900 %  sodium hydroxide pellets", "    charge A into main\n    add B to main\n    fill main")),
                          Path("."))
    assert made.stops and "formula-total" in told(made)
