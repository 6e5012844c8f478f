"""The making pages: stages, steps, lanes with their gate, branches that are decided on the day."""

from procsheet.sheet.figures import digits
from procsheet.sheet.lanes import SideBySide, arranged, lane_vessel
from procsheet.sheet.lay_out_step import lay_out_step
from procsheet.sheet.model import Box, Branch, Gate, Lane, Lanes, Making, Run, Stage, Step, Words
from procsheet.sheet.phrases import number, until
from procsheet.sheet.pieces import numbered, spoken
from procsheet.sheet.places import shown
from procsheet.sheet.sections import Fork, Section, Task, tasks
from procsheet.sheet.runs import merged
from procsheet.sheet.step_boxes import CHECKED, DONE, compared
from procsheet.sheet.temperatures import aimed
from procsheet.sheet.work import Job, Work
from procsheet.syntax import tree

ROUNDS = 6      # to tick, where the method gives no most


def lay_out_making(work: Work) -> Making:
    arranged_sections = [(section, arranged(section.parts, work)) for section in work.sections]
    gates = _gates([part for _, parts in arranged_sections for part in parts])
    named = any(section.title for section in work.sections)
    stages = tuple(_stage(section, parts, place, named, gates, work) for place, (section, parts) in enumerate(arranged_sections, 1))
    read = f"{numbered([step.number for step in work.steps])} read through: second person"
    return Making(stages, (Box("making started, date, time", width=5), Box("making ended, date, time", width=5), Box(read, width=8, second=True)))


def _stage(section: Section, parts: list, place: int, named: bool, gates: dict, work: Work) -> Stage:
    return Stage(f"Stage {place}" if named else "", section.title, _parts(parts, False, gates, work))


def _parts(parts, narrow: bool, gates: dict, work: Work) -> tuple[Step | Branch | Lanes, ...]:
    return tuple(one for part in parts for one in _part(part, narrow, gates, work))


def _part(part, narrow: bool, gates: dict, work: Work) -> list[Step | Branch | Lanes]:
    if isinstance(part, Task):
        return [lay_out_step(Job(work, part, narrow, part.step.number in gates.values() and _meets(part)))]
    if isinstance(part, SideBySide):
        return [_lanes(part, gates, work)]
    return [_branch(part, place, narrow, gates, work) for place in range(len(part.branches))]


# ---- branches

def _branch(fork: Fork, place: int, narrow: bool, gates: dict, work: Work) -> Branch:
    way = fork.branches[place]
    rounds = _rounds(fork.block.written.times) if fork.block.kind == "repeat" else 0
    notes = (Run(" ".join(way.notes)),) if way.notes else ()
    return Branch(_head(fork, place, way.name), _parts(way.parts, narrow, gates, work), rounds, notes)


def _rounds(times: tree.Quantity | None) -> int:
    return int(times.high) if times is not None and not times.is_open else ROUNDS


def _head(fork: Fork, place: int, name: str) -> Words:
    block = fork.block
    if block.kind == "repeat":
        return _repeat(block.written)
    if block.kind == "choose":
        return (Run(f"{'Either' if not place else 'Or'} {spoken(name)}, if ticked before issue:"),)
    if block.kind == "where":
        return (Run(f"If the plant has {block.head}:" if not place else "Otherwise:"),)
    return (Run(f"If {block.head}:" if not place else "Otherwise:"),)


def _repeat(block: tree.Block) -> Words:
    """`Repeat at most 4 times until MAIN is clear:`"""
    runs = [Run("Repeat")]
    if block.times is not None and block.times.is_open:
        runs += [Run(" at most "), Run("times", "blank")]
    elif block.times is not None:
        runs += [Run(" at most "), Run(digits(block.times), "number"), Run(" times")]
    if block.until is not None:
        runs += [Run(" until it is " if isinstance(block.until, tree.States) else " until "), *until(block.until)]
    return merged([*runs, Run(":")])


# ---- lanes

def _lanes(part: SideBySide, gates: dict, work: Work) -> Lanes:
    lanes = tuple(_lane(group, place, gates, work) for place, group in enumerate(part.groups))
    return Lanes(lanes, _gate(part, gates, work))


def _lane(group, place: int, gates: dict, work: Work) -> Lane:
    vessel = lane_vessel(group, work)
    kettle = work.plan.kettles.get(vessel)
    return Lane(work.bars[vessel], shown(vessel), f"kettle {kettle.tag}" if kettle else "", "at the same time" if place else "",
                _parts(group, True, gates, work))


def _gates(parts: list) -> dict[int, int]:
    """The last step of the first lane of each run -> the step that follows the lanes."""
    followed = [(part, tasks([following])) for part, following in zip(parts, parts[1:]) if not isinstance(following, SideBySide)]
    return {_last(part.groups[0]): then[0].step.number for part, then in followed if isinstance(part, SideBySide) and then}


def _last(group) -> int:
    """The step a lane ends with: one that stands inside another ends with that."""
    step = tasks(group)[-1].step
    host = next((task.step.number for task in tasks(group) if task.step.name and task.step.name == step.value("during")), 0)
    return host or step.number


def _meets(task: Task) -> bool:
    return task.step.has("both at", "both within")


def _gate(part: SideBySide, gates: dict, work: Work) -> Gate:
    lasts = [_last(group) for group in part.groups]
    head = f"When {numbered(lasts)} are done:"
    following = gates.get(lasts[0], 0)
    task = next((task for task in work.tasks if task.step.number == following), None)
    if task is None:
        return Gate(head, (Run("go on."),))
    job = Job(work, task)
    if not _meets(task):
        return Gate(head, (Run(f"step {following}."),))
    both, within = task.step.value("both at"), task.step.value("both within")
    said = [Run("both at "), aimed(both, job)] if both is not None else []
    said += [Run(" and " if said else ""), Run("within "), number(within), Run(" of each other")] if within is not None else []
    told = merged([Run(f"compare. Go on with step {following} only if they are "), *said, Run(".")])
    return Gate(head, told, (*compared(job), DONE, CHECKED))
