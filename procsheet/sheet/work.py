"""All that a page is written from: the method as it is printed, and what plan and trace know of each step."""

import re
from typing import NamedTuple

from procsheet.graph.courses import choices
from procsheet.model import quantities
from procsheet.model.method import Method, Row, Step
from procsheet.plan.plan import Line, Plan
from procsheet.plan.plant import Kettle, Plant
from procsheet.sheet.figures import UNITS, warmth_in
from procsheet.sheet.model import Caution, Run
from procsheet.sheet.pieces import line, sentence
from procsheet.sheet.places import bars, shown
from procsheet.sheet.sections import Section, Task, sections, tasks
from procsheet.trace.trace import Moment


class Work(NamedTuple):
    """numbers: of the steps, by name; guests: the steps inside one, by its name; before: those that are done just before one, by its name."""

    compiled: object                    # pipeline.Compiled
    sections: tuple[Section, ...]
    bars: dict[str, str]
    moments: dict[int, tuple[Moment, ...]]
    lines: dict[int, tuple[Line, ...]]
    numbers: dict[str, int]
    guests: dict[str, tuple[Step, ...]]
    before: dict[str, tuple[Step, ...]]
    cautions: dict[int, tuple[Caution, ...]]
    notes: dict[int, tuple[str, ...]]
    degree: str = "°C"                  # in which the method has its temperatures
    fixed: dict[int, int] = {}          # number of a step -> that of the one it must not be moved before

    @property
    def plan(self) -> Plan:
        return self.compiled.batch.plan

    @property
    def method(self) -> Method:
        return self.plan.method

    @property
    def plant(self) -> Plant:
        return self.plan.plant

    @property
    def tasks(self) -> list[Task]:
        return tasks(part for section in self.sections for part in section.parts)

    @property
    def steps(self) -> list[Step]:
        """The steps that are printed, in order."""
        return [task.step for task in self.tasks]


def work(compiled) -> Work:
    """Read a compiled method once. Without a batch nothing can be printed: a ValueError."""
    if compiled.batch is None:
        raise ValueError("a method that could not be followed to its end has no sheet")
    method = compiled.batch.method
    printed = sections(method, _decided(compiled))
    steps = [task.step for section in printed for task in tasks(section.parts)]
    numbers = {step.name: step.number for step in method.steps() if step.name}
    before = _by_name(steps, lambda step: step.value("just before") or "")
    return Work(compiled, printed, bars(compiled.batch.plan), _moments(compiled), _lines(compiled), numbers, _by_name(steps, _host), before,
                _cautions(compiled, _degree(steps)), _notes(compiled), _degree(steps), compiled.fixed)


def _degree(steps: list[Step]) -> str:
    """°F only where every temperature of the steps is written so."""
    values = [value for step in steps for value in (*step.written.slots.values(), *(clause.value for clause in step.written.clauses))]
    units = {UNITS.get(value.unit, value.unit) for value in values if quantities.dimension(value) == "temperature"} - {"room"}
    return "°F" if units == {"°F"} else "°C"


def _decided(compiled) -> dict[int, int]:
    """The line of each block that has one branch left -> that branch."""
    out = {}
    for fork in choices(compiled.batch.method):
        ways = {batch.graph.course.taken.get(fork.key) for batch in compiled.batches}
        if fork.key[0] == "block" and len(ways) == 1 and fork.by != "day":
            out[fork.key[1]] = ways.pop()
    return out


def _moments(compiled) -> dict[int, tuple[Moment, ...]]:
    """Each step's moments in the first course that has it."""
    out: dict[int, tuple[Moment, ...]] = {}
    for batch in compiled.batches:
        found: dict[int, list[Moment]] = {}
        for moment in batch.trace.moments:
            found.setdefault(moment.step.number, []).append(moment)
        out = {number: tuple(moments) for number, moments in found.items()} | out
    return out


def _lines(compiled) -> dict[int, tuple[Line, ...]]:
    """What is weighed for each step, in the first course that has it."""
    out: dict[int, tuple[Line, ...]] = {}
    for batch in compiled.batches:
        found: dict[int, list[Line]] = {}
        for one in batch.plan.lines:
            found.setdefault(one.step, []).append(one)
        out = {number: tuple(lines) for number, lines in found.items()} | out
    return out


def _host(step: Step) -> str:
    return step.value("during") or (step.value("last of")[1] if step.has("last of") else "")


def _by_name(steps: list[Step], name_of) -> dict[str, tuple[Step, ...]]:
    out: dict[str, tuple[Step, ...]] = {}
    for step in steps:
        if name := name_of(step):
            out[name] = (*out.get(name, ()), step)
    return out


def _cautions(compiled, degree: str) -> dict[int, tuple[Caution, ...]]:
    out: dict[int, tuple[Caution, ...]] = {}
    for finding in compiled.findings:
        if finding.level == "CAUTION":
            said = Caution(warmth_in(degree, told(finding, compiled)), warmth_in(degree, on_paper(line(finding.why, finding.fix), compiled)))
            out[finding.step] = (*out.get(finding.step, ()), said)
    return out


def _notes(compiled) -> dict[int, tuple[str, ...]]:
    out: dict[int, tuple[str, ...]] = {}
    for finding in compiled.findings:
        if finding.level == "NOTE" and finding.step:
            out[finding.step] = (*out.get(finding.step, ()), told(finding, compiled))
    return out


def told(finding, compiled) -> str:
    """The fact of a finding, as a sentence, with the vessels in capitals."""
    names = "|".join(map(re.escape, compiled.batch.plan.kettles)) or "(?!)"
    title = re.sub(rf"\b(?<=in |of |to )({names})\b|\b(?<=into |from )({names})\b|\b({names})(?= (?:is|at|holds|has|was)\b)",
                   lambda match: shown(match[0]), finding.title)
    return on_paper(sentence(title), compiled)


def on_paper(text: str, compiled) -> str:
    """A finding speaks of lines of the file, the paper of steps."""
    steps = {step.span.line: step.number for step in compiled.batch.method.steps() if step.number}
    return re.sub(r"\bline (\d+)\b", lambda match: f"step {steps[int(match[1])]}" if int(match[1]) in steps else "the method", text)


class Job(NamedTuple):
    """One step on its page. narrow: in a lane; compared: the gate above it has compared the two vessels."""

    work: Work
    task: Task
    narrow: bool = False
    compared: bool = False

    @property
    def step(self) -> Step:
        return self.task.step

    @property
    def number(self) -> int:
        return self.step.number

    @property
    def plan(self) -> Plan:
        return self.work.plan

    @property
    def plant(self) -> Plant:
        return self.work.plant

    @property
    def moments(self) -> tuple[Moment, ...]:
        return self.work.moments.get(self.number, ())

    @property
    def lines(self) -> tuple[Line, ...]:
        return self.work.lines.get(self.number, ())

    @property
    def kettle(self) -> Kettle | None:
        return self.plan.kettles.get(self.vessel)

    @property
    def vessel(self) -> str:
        """The vessel or place that it works on, or puts things into; '' for none."""
        step = self.step
        into = step.into if step.into in self.work.bars else ""
        return into if into and step.verb in ("rinse", "transfer", "pass", "strain") else step.vessel or into

    @property
    def sources(self) -> tuple[str, ...]:
        """The vessels that are poured from."""
        step = self.step
        poured = [take.vessel for take in (*step.what, *step.down) if take.vessel]
        return tuple(dict.fromkeys([*poured, *([step.vessel] if step.vessel and step.vessel != self.vessel else [])]))

    @property
    def rows(self) -> list[Row]:
        """What the vessel holds at the step."""
        codes = self.moments[-1].contents if self.moments else {}
        return [row for row in self.work.method.rows if row.code in codes]

    @property
    def correctors(self) -> list[Row]:
        """What a step adds until the value is right, not a dose: up first, then down."""
        return [row for take in (*self.step.what, *self.step.down) for row in take.rows if row.kind == "corrector"]

    def words(self, place: str) -> Run:
        return Run(shown(place), "vessel")
