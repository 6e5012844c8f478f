"""The time plan: longest way, people, balances, shifts, and what waits too long."""

from pathlib import Path
from xml.etree import ElementTree

import networkx
import pytest
from hypothesis import given
from hypothesis import strategies as st

from procsheet.cli import main
from procsheet.intervals import INFINITY, Interval
from procsheet.timeplan.picture import clock_time
from procsheet.timeplan.schedule import DAY, schedule
from procsheet.timeplan.tasks import Task, tasks
from tests.made import RECIPES, compiled, method
from tests.sources import source

HOUR = 3600.0


def task(index: int, minutes: float, needs=(), attended: bool = True, weighing: bool = False, at: str = "main") -> Task:
    return Task(index, f"{index} stir", index, at, Interval(minutes * 60, minutes * 60), attended, tuple(needs), weighing)


@st.composite
def networks(draw) -> tuple[Task, ...]:
    """Tasks in an order that respects their needs."""
    out = []
    for index in range(draw(st.integers(1, 14))):
        needs = draw(st.sets(st.integers(0, index - 1), max_size=3)) if index else set()
        weighing = draw(st.booleans()) and not needs
        out.append(task(index, draw(st.integers(0, 90)), sorted(needs), weighing or draw(st.booleans()), weighing, draw(st.sampled_from(["L1", "L15"])) if weighing else "main"))
    return tuple(out)


@source("independent", "networkx 3: the longest path of the same network, each edge weighted with the time of the task it leaves")
@given(networks())
def test_the_longest_way_is_that_of_networkx(made):
    """With people enough the plan is as long as the longest path of the graph, where no balance is in the way."""
    graph = networkx.DiGraph()
    for one in made:
        graph.add_edge(one.index, "end", weight=one.time)
        graph.add_weighted_edges_from((need, one.index, made[need].time) for need in one.needs)
    plan = schedule(made)
    assert plan.longest == pytest.approx(networkx.dag_longest_path_length(graph))
    alone = all(not one.weighing for one in made)
    assert plan.ends >= plan.longest - 1e-6 and (not alone or plan.ends == pytest.approx(plan.longest))


@source("by hand", "laws of a schedule: needs first, no more people than there are, one weighing at a balance")
@given(networks(), st.integers(1, 3), st.sampled_from([None, 8 * HOUR, 12 * HOUR]))
def test_a_schedule_breaks_no_law(made, operators, shift):
    """What a task needs is done before; people and balances are never shared; attended work lies in a shift; nothing is left out."""
    plan = schedule(made, operators=operators, begin=6 * HOUR, shift=shift)
    assert [slot.task for slot in plan.slots] == list(made)
    for slot in plan.slots:
        assert slot.end - slot.start == pytest.approx(slot.task.time)
        assert all(plan.slots[need].end <= slot.start + 1e-3 for need in slot.task.needs)
        busy = [other for other in plan.slots if other.task.attended and other.task.time and other.start <= slot.start + 1e-3 < other.end - 1e-3]
        assert len(busy) <= operators
        same = [other for other in busy if other.task.weighing and slot.task.weighing and other.task.at == slot.task.at and slot.task.time]
        assert len(same) <= 1
        if shift and slot.task.attended:
            assert (slot.start - 6 * HOUR) % DAY + slot.task.time <= shift + 1e-3


@source("by hand", "three tasks of 60 min side by side: one person 3 h, two 2 h, three 1 h")
@pytest.mark.parametrize("operators, hours", [(1, 3), (2, 2), (3, 1), (None, 1)])
def test_fewer_people_take_longer(operators, hours):
    """People bound the plan."""
    assert schedule((task(0, 60), task(1, 60), task(2, 60)), operators=operators).ends == hours * HOUR


@source("by hand", "shift 06:00 to 14:00; five hours, then four that do not fit any more: they begin at 06:00 of the next day")
def test_what_does_not_fit_the_shift_waits_for_the_next():
    """Attended work is not broken over night; what runs alone goes on."""
    plan = schedule((task(0, 300), task(1, 240, [0]), task(2, 24 * 60, [0], attended=False)), begin=6 * HOUR, shift=8 * HOUR)
    assert [clock_time(slot.start) for slot in plan.slots] == ["06:00", "day 2 06:00", "11:00"]


@source("by hand", "the slack of a task is how much later it may begin")
def test_slack_is_what_may_be_lost():
    """The shorter of two ways may wait; the longer may not."""
    plan = schedule((task(0, 60), task(1, 20), task(2, 10, [0, 1])))
    assert [slot.slack for slot in plan.slots] == [0, 40 * 60, 0]


@source("by hand", "a step without a time only bounds the plan")
def test_a_step_without_a_time_only_bounds():
    """It adds nothing to the least, and the end is told as a bound."""
    made = compiled(method("phase A: water\n    to 100 %  purified water", "    charge A into main\n    stir main until clear\n    rest main for 2 h\n    fill main"))
    plan = schedule(tasks(made.batch))
    assert plan.is_open and plan.ends == pytest.approx(2 * HOUR)
    assert any(one.lasts is None or one.lasts.high == INFINITY for one in tasks(made.batch))


@source("by hand", "the bulk keeps 2 h; the rest is written as 1 h, and the filling waits for the morning")
def test_bulk_that_stands_too_long_is_told(tmp_path: Path, capsys):
    """Filling that falls into the next shift is told where the bulk does not keep so long."""
    (tmp_path / "small.plant").write_text("plant Small\noperators 1\nshift 2 h\nbalance L15 to 15 kg, reads 1 g\nvessel K20\n    main kettle\n    working 0.5-20 L\n", encoding="utf-8")
    written = method("phase A: water\n    to 100 %  purified water", "    charge A into main\n    rest main for 3 h\n    add 1/2 of A to main for 5 min\n    fill main for 30 min", basis="10 kg")
    written = written.replace("    add 1/2 of A to main for 5 min\n", "").replace("basis", "bulk keeps 2 h at 15-25 °C in \"drum\"\nbasis", 1)
    (tmp_path / "a.method").write_text(written, encoding="utf-8")
    assert main(["timeplan", str(tmp_path / "a.method"), "--plant", str(tmp_path / "small.plant")]) == 0
    out = capsys.readouterr().out
    assert "waits-too-long" in out and "day 2 06:00" in out


@source("by hand", "the hand cream in the filler's hall")
def test_the_command_prints_and_draws(tmp_path: Path, capsys):
    """Every step and weighing has its line; the picture is SVG with a bar for each."""
    asked = ["timeplan", str(RECIPES / "harbour-hand-cream.method"), "--plant", str(RECIPES / "plants" / "filler.plant"), "--batch", "150 kg", "--start", "07:30"]
    assert main(asked) == 0
    out = capsys.readouterr().out
    assert "begins 07:30" in out and "weigh A1" in out and "23 fill" in out
    assert main([*asked, "-o", str(tmp_path / "plan.svg")]) == 0
    drawn = ElementTree.fromstring((tmp_path / "plan.svg").read_text(encoding="utf-8"))
    assert len([one for one in drawn.iter() if one.tag.endswith("rect")]) > 30
    assert main([*asked[:-1], "7 o'clock"]) == 2
