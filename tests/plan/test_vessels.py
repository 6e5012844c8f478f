"""What the planned kettle cannot do: speeds, tools, room."""

import pytest

from procsheet.pipeline import Request
from procsheet.plan.plan import Order
from tests.made import RECIPES, compiled, method, told
from tests.sources import source

PILOT = RECIPES / "plants" / "pilot.plant"
PHASES = "phase A: water\n    to 100 %  purified water\n    5 %       glycerin"


def found(line: str, name: str = "speed-outside") -> list[str]:
    made = compiled(method(PHASES, f"    charge A into main\n    {line}\n    fill main"), Request(Order(mass=55), PILOT))
    return [finding.title for finding in made.findings if finding.name == name]


# K60: anchor 10-60 rpm; homogeniser 0.07 m, 500-5400 rpm; 25 m/s / (pi x 0.07 m) x 60 = 6821 rpm

@source("by hand", "plant file of the pilot bay: the anchor turns 10-60 rpm, the homogeniser of 0.07 m 500-5400 rpm")
@pytest.mark.parametrize(("line", "said"), [
    ("stir main with anchor at 90 rpm", "the anchor of K60 turns 10–60 rpm; 90 rpm is asked for: set to 60 rpm"),
    ("homogenise main at 9000 rpm", "the homogeniser of K60 turns 500–5400 rpm; 9000 rpm is asked for: set to 5400 rpm"),
    ("homogenise main for 5 min with homogeniser and anchor at 25 m/s",
     "the homogeniser of K60 turns 500–5400 rpm; 25 m/s, which is 6821 rpm here, is asked for: set to 5400 rpm"),
    ("stir main with anchor at 30 rpm\n    stir main at 200 rpm", "the anchor of K60 turns 10–60 rpm; 200 rpm is asked for: set to 60 rpm"),
])
def test_a_speed_that_the_tool_does_not_turn_is_told(line, said):
    """The tool's range and what is asked for, a tip speed as rpm at the tool's diameter."""
    assert [title.replace("\u00a0", " ") for title in found(line)] == [said]


@source("by hand", "the same ranges")
@pytest.mark.parametrize("line", ["stir main with anchor at 60 rpm", "stir main with anchor at 50-90 rpm", "stir main with anchor at ? rpm",
                                  "homogenise main at 15 m/s with anchor", "stir main with sweep at 300 rpm"])
def test_a_speed_that_can_be_set_is_not(line):
    """At the edge, a range that can be met, an open figure, and a tool that the kettle has not: nothing is said of the speed."""
    assert found(line) == []


@source("by hand", "the page of manual pages")
def test_it_has_a_manual_page():
    """`explain speed-outside` has something to say."""
    from procsheet.pages import pages
    assert "rpm" in pages()["speed-outside"] and "speed-outside" in told(
        compiled(method(PHASES, "    charge A into main\n    stir main with anchor at 90 rpm\n    fill main"), Request(Order(mass=55), PILOT)), "WARN")


@source("by hand", "the tank for flammables of the pilot bay has neither homogeniser nor vacuum")
def test_all_that_a_kettle_lacks_for_a_step_is_told():
    """A bare `homogenise` asks for the homogeniser, and what else the step wants stands in the same finding."""
    text = method(PHASES, "    charge A into main\n    homogenise main under vacuum\n    fill main")
    made = compiled(text, Request(Order(mass=40, vessels=(("main", "T50"),)), PILOT))
    assert [finding.title for finding in made.findings if finding.name == "vessel-lacks"] == ["T50, planned for main, has no homogeniser and no vacuum"]


@source("by hand", "T50 holds 50 L; 55 kg of water with glycerin are about 54 L")
def test_a_kettle_named_by_hand_must_hold_the_batch():
    """Whoever names a kettle that is too small is stopped."""
    made = compiled(method(PHASES, "    charge A into main\n    stir main with anchor\n    fill main"), Request(Order(mass=55, vessels=(("main", "T50"),)), PILOT))
    assert "vessel-too-small" in told(made, "STOP")
