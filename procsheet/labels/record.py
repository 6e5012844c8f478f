"""The making pages as entries in reading order: each step, each gate, with every box that a hand fills in."""

from collections.abc import Iterator
from typing import NamedTuple

from procsheet.sheet.model import Addition, Box, Branch, Gate, Lanes, Making, Portions, Step
from procsheet.sheet.pieces import line
from procsheet.sheet.text import BLANK, words

AND = "; "


class Entry(NamedTuple):
    """A step, or a gate between steps, whose number is ''. when: on what it depends."""

    number: str
    when: str
    stage: str
    vessel: str
    sentence: str
    settings: str = ""
    mind: str = ""                      # cautions, and what to look for
    second: bool = False
    boxes: tuple[Box, ...] = ()


def entries(making: Making) -> Iterator[Entry]:
    for stage in making.stages:
        yield from _parts(stage.parts, line(stage.number, stage.title), "")
    if making.closing:
        yield Entry("", "", "", "", "At the end.", boxes=making.closing)


def _parts(parts, stage: str, when: str) -> Iterator[Entry]:
    read = {Step: _step, Branch: _branch, Lanes: _lanes}
    for part in parts:
        yield from read[type(part)](part, stage, when)


def _step(step: Step, stage: str, when: str) -> Iterator[Entry]:
    settings = AND.join(line(one.name, one.value or BLANK, one.unit) for one in step.settings)
    mind = (*(line(one.danger, one.advice) for one in step.cautions), *(f"{cue.head}: {words(cue.words)}" for cue in step.cues))
    boxes = (*map(_going_in, step.additions), *_portions(step.portions), *step.boxes)
    yield Entry(step.number, line(when, step.inside, by=AND), stage, step.vessel, words(step.sentence), settings, " ".join(mind), step.second, boxes)


def _going_in(one: Addition) -> Box:
    return Box(f"in: {one.code} {one.name}", line(one.amount or BLANK, one.unit), second=one.second)


def _portions(grid: Portions | None) -> tuple[Box, ...]:
    rows = grid.rows if grid else ()
    return tuple(Box(f"{head}: {row.label}", filled=cell) for row in rows for head, cell in zip(grid.heads, row.cells))


def _branch(branch: Branch, stage: str, when: str) -> Iterator[Entry]:
    head = line(when, words(branch.head).rstrip(":"), by=AND)
    if branch.rounds:
        yield Entry("", when, stage, "", words(branch.head), boxes=tuple(Box(f"round {n}, time, by") for n in range(1, branch.rounds + 1)))
    yield from _parts(branch.parts, stage, head)
    if branch.end:
        yield Entry("", head, stage, "", words(branch.end))


def _lanes(lanes: Lanes, stage: str, when: str) -> Iterator[Entry]:
    for lane in lanes.lanes:
        yield from _parts(lane.parts, stage, line(when, lane.note, by=AND))
    if lanes.gate:
        yield _gate(lanes.gate, stage, when)


def _gate(gate: Gate, stage: str, when: str) -> Entry:
    return Entry("", when, stage, "", line(gate.head, words(gate.words)), boxes=gate.boxes)
