"""A method carried to another plant: turns become the tip speed they had where it was proven."""

from pathlib import Path

import pytest

from procsheet.pipeline import Request, compile_method
from procsheet.source import source as text
from tests.made import method
from tests.sources import source

BENCH = "plant Bench\nvessel B5\n    main kettle\n    working 0.5-5 L\n    homogeniser 0.032 m, 1000-12000 rpm\n    anchor 0.14 m, 10-150 rpm\n"
HALL = "plant Hall\nvessel K200\n    main kettle\n    working 50-200 L\n    homogeniser 0.150 m, 300-3000 rpm\n    anchor 0.62 m, 8-45 rpm\n"
PHASES = "phase A: water\n    to 100 %  purified water"
STEPS = "    charge A into main\n    homogenise main for 5 min with homogeniser at {speed}\n    stir main for 5 min with anchor at {slow}\n    fill main"


def turning(tmp_path: Path, speed: str = "8000 rpm", slow: str = "60 rpm", plant: str = "hall", proven: str = "bench"):
    for name, lines in (("bench", BENCH), ("hall", HALL)):
        (tmp_path / f"{name}.plant").write_text(lines, encoding="utf-8")
    written = method(PHASES, STEPS.format(speed=speed, slow=slow)).replace("basis 1 kg", f'basis 2 kg\nproven on "{proven}.plant"' if proven else "basis 2 kg", 1)
    order = Request(plant=tmp_path / f"{plant}.plant")
    made = compile_method(text("a.method", written), tmp_path, order)
    return {running.tool: running for moment in made.batch.trace.moments for running in moment.turning}, made


@source("published", "rotor-stator sizing page: 32 mm at 8000 rpm is 13.4 m/s; trade table of scale-up: with a rotor of 150 mm 1707 rpm")
def test_turns_become_the_tip_speed_of_the_bench(tmp_path):
    """The larger rotor turns slower, at the tip speed it had on the bench."""
    head = turning(tmp_path)[0]["homogeniser"]
    assert head.tip.high == pytest.approx(13.4, abs=0.05) and head.speed.high * 60 == pytest.approx(1707, rel=0.003)


@source("by hand", "on the bench itself nothing is carried; nor where it was proven nowhere")
def test_nothing_changes_where_it_was_proven(tmp_path):
    """In the plant it was proven on, and where none is named, a speed stays as it is written."""
    assert turning(tmp_path, plant="bench")[0]["homogeniser"].speed.high * 60 == pytest.approx(8000)
    assert turning(tmp_path, speed="1200 rpm", slow="30 rpm", proven="")[0]["homogeniser"].speed.high * 60 == pytest.approx(1200)


@source("by hand", "a speed in m/s is one already: 12 / (pi x 0.15) x 60 = 1528 rpm")
def test_a_tip_speed_is_one_already(tmp_path):
    """What is written in m/s is turned at that tip speed everywhere."""
    assert turning(tmp_path, speed="12 m/s")[0]["homogeniser"].speed.high * 60 == pytest.approx(1528, abs=1)


@source("by hand", "12 000 rpm of 32 mm is 20.1 m/s: 2560 rpm; an anchor of 0.14 m at 10 rpm is 0.073 m/s: 2.3 rpm, and the least is 8")
def test_what_the_drive_does_not_turn_is_clipped_and_told(tmp_path):
    """Outside the range of the drive the nearest is set, and a warning says so."""
    running, made = turning(tmp_path, speed="12000 rpm", slow="10 rpm")
    assert running["homogeniser"].speed.high * 60 == pytest.approx(2560, rel=0.01)
    assert running["anchor"].speed.high * 60 == pytest.approx(8)
    told = [finding for finding in made.findings if finding.name == "speed-outside"]
    assert len(told) == 1 and told[0].level == "WARN" and "set to 8 rpm" in told[0].title.replace("\u00a0", " ")
