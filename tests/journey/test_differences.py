"""The list of what differs between two plants, from their traces."""

import json
from math import pi
from pathlib import Path

import pytest

from procsheet.cli import main
from procsheet.journey.differences import LEAST, MOST, differences
from procsheet.model.files import Files
from procsheet.pipeline import Request, compile_method, proven
from procsheet.plan.size import read_size
from procsheet.source import source as text
from tests.made import RECIPES, method
from tests.sources import source

BENCH = """plant Bench
utilities hot 95 °C, cold 15 °C, room 20-25 °C
vessel B2
    main kettle
    working 0.5-2 L
    jacket 0.05 m2, 300 W/m2/K
    homogeniser 0.03 m, 1000-20000 rpm, pumps 0.4 m3/h, power number 2
"""
HALL = """plant Hall
utilities hot 95 °C, cold 15 °C, room 20-25 °C
vessel K1000
    main kettle
    working 100-1000 L
    jacket 4 m2, 300 W/m2/K
    homogeniser 0.15 m, 300-6000 rpm, pumps 12 m3/h, power number 2
"""
PHASES = "phase A: water\n    to 100 %  purified water"
STEPS = "    charge A into main\n    heat main to 75 °C\n    homogenise main for 10 min with homogeniser at 9000 rpm\n    fill main"


def pair(tmp_path: Path, size: str = "900 kg", steps: str = STEPS):
    (tmp_path / "bench.plant").write_text(BENCH, encoding="utf-8")
    (tmp_path / "hall.plant").write_text(HALL, encoding="utf-8")
    written = method(PHASES, steps).replace("basis", 'proven on "bench.plant"\nbasis', 1)
    made = compile_method(text("a.method", written), tmp_path, Request(order=read_size(size), plant=tmp_path / "hall.plant"))
    return {(one.step, one.what): one for one in differences(proven(made.written, Files(tmp_path), made.tree), made.batch)}


@source("by hand", "n = Q t / V at 75 °C (water 0.975): 0.4/60 x 10 / 0.001026 = 65; 12/60 x 10 / 0.923 = 2.17; 65 of them take 300 min")
def test_passes_and_the_time_for_as_many(tmp_path):
    """The larger head turns the batch over far less often in the same time, and the list says how long as many would take."""
    one = pair(tmp_path)[3, "passes"]
    assert one.proven.high == pytest.approx(65, rel=0.02) and one.here.high == pytest.approx(2.17, rel=0.02)
    assert one.marked and one.advice == "as many passes take 300 min"


@source("by hand", "pi x 0.03 x 150 = 14.1 m/s on both; equal power for each volume with one power number: 9000 x (0.03/0.15)^(2/3) = 3078 rpm")
def test_tip_speed_is_kept_and_equal_power_offered(tmp_path):
    """The tip speed is that of the bench; the speed at equal power for each volume stands beside it where both power numbers are known."""
    one = pair(tmp_path)[3, "tip speed"]
    assert one.proven.high == pytest.approx(pi * 0.03 * 150, rel=1e-3) and one.ratio == pytest.approx(1, rel=5e-3) and not one.marked
    assert one.advice == "equal power for each volume: 3078 rpm"


@source("by hand", "t = M cp/(U A) ln((95-T1)/(95-75)) at the same U: (900/4) / (1/0.05) = 11.25 times as long, less what of the jacket is not wetted")
def test_heating_takes_longer(tmp_path):
    """Mass grows faster than jacket: the ratio is that of mass to area."""
    one = pair(tmp_path)[2, "heating"]
    assert one.ratio == pytest.approx(11.25, rel=0.5) and one.marked


@source("by hand", "the same batch in the same plant differs by nothing")
def test_a_plant_does_not_differ_from_itself(tmp_path):
    """Every ratio is 1 where nothing changed."""
    (tmp_path / "bench.plant").write_text(BENCH, encoding="utf-8")
    written = method(PHASES, STEPS).replace("basis", 'proven on "bench.plant"\nbasis', 1)
    made = compile_method(text("a.method", written), tmp_path)
    found = differences(proven(made.written, Files(tmp_path), made.tree), made.batch)
    assert found and all(one.ratio is None or one.ratio == pytest.approx(1) for one in found)


@source("by hand", "ratios outside 0.7 to 1.4 are marked: mistakes seen in scale-up; common practice, no source")
def test_the_command_marks_what_lies_outside(capsys):
    """A `!` stands where a ratio lies outside, and nothing is called equivalent."""
    asked = ["differ", str(RECIPES / "harbour-hand-cream.method"), "--plant", str(RECIPES / "plants" / "filler.plant"), "--batch", "150 kg"]
    assert main([*asked, "--json"]) == 0
    rows = json.loads(capsys.readouterr().out)
    assert {row["what"] for row in rows} >= {"tip speed", "passes", "heating", "cooling", "addition", "fill level"}
    assert all(row["marked"] == (row["ratio"] is not None and not LEAST <= row["ratio"] <= MOST) for row in rows)
    assert main(asked) == 0
    out = capsys.readouterr().out
    assert "!" in out and "no equivalence" in out
