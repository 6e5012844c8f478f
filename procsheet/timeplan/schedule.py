"""When each task begins: the earliest time at which what it needs is done, and a person and a balance are free."""

from typing import NamedTuple

from procsheet.timeplan.tasks import Task

DAY = 86400.0
TINY = 1e-6


class Slot(NamedTuple):
    """start, end [s from midnight of the first day]; slack: how much later it might begin without making the whole later, people left aside [s]."""

    task: Task
    start: float
    end: float
    slack: float


class Schedule(NamedTuple):
    slots: tuple[Slot, ...]
    begins: float
    ends: float
    longest: float                      # s of the longest way, as if there were people and balances enough
    is_open: bool                       # some task has no time: the end is a bound only

    def slot(self, index: int) -> Slot:
        return self.slots[index]


def schedule(tasks: tuple[Task, ...], *, operators: int | None = None, begin: float = 0.0, shift: float | None = None) -> Schedule:
    """The plan of tasks in an order that respects their needs.

    operators  people at once, None for enough;  begin [s after midnight];  shift [s] a day from `begin` in which people are there, None for always.
    The critical ones go first where people are short: a serial schedule by longest remaining way.
    """
    remaining, ways = _remaining(tasks), _earliest(tasks)
    longest = max((ways[task.index] + remaining[task.index] for task in tasks), default=0.0)
    placed: dict[int, Slot] = {}
    waiting = set(range(len(tasks)))
    while waiting:
        ready = [tasks[index] for index in waiting if all(need in placed for need in tasks[index].needs)]
        task = max(ready, key=lambda one: (remaining[one.index], -one.index))
        early = max([begin, *(placed[need].end for need in task.needs)])
        start = _first_free(task, early, list(placed.values()), operators, begin, shift)
        placed[task.index] = Slot(task, start, start + task.time, longest - ways[task.index] - remaining[task.index])
        waiting.remove(task.index)
    slots = tuple(placed[index] for index in range(len(tasks)))
    return Schedule(slots, begin, max((slot.end for slot in slots), default=begin), longest, any(task.is_open for task in tasks))


def _earliest(tasks: tuple[Task, ...]) -> list[float]:
    out: list[float] = []
    for task in tasks:
        out.append(max((out[need] + tasks[need].time for need in task.needs), default=0.0))
    return out


def _remaining(tasks: tuple[Task, ...]) -> list[float]:
    """The longest way from the beginning of each task to the end of all."""
    out = [task.time for task in tasks]
    for task in reversed(tasks):
        for need in task.needs:
            out[need] = max(out[need], tasks[need].time + out[task.index])
    return out


def _first_free(task: Task, early: float, placed: list[Slot], operators: int | None, begin: float, shift: float | None) -> float:
    """The first time from `early` on at which it can be done."""
    others = [slot for slot in placed if slot.end > early + TINY]
    for start in sorted({early, *(slot.end for slot in others)}):
        start = _in_shift(task, start, begin, shift)
        if _balance_free(task, start, placed) and _people_free(task, start, placed, operators):
            return start
    return _in_shift(task, max([early, *(slot.end for slot in placed)]), begin, shift)


def _in_shift(task: Task, start: float, begin: float, shift: float | None) -> float:
    """What needs somebody begins in a shift that it can end in; what is longer than a shift begins with one."""
    if shift is None or not task.attended or shift >= DAY:
        return start
    since = (start - begin) % DAY
    fits = since + min(task.time, shift) <= shift + TINY
    return start if fits else start - since + DAY


def _balance_free(task: Task, start: float, placed: list[Slot]) -> bool:
    return not task.weighing or not any(slot.task.weighing and slot.task.at == task.at and _overlap(slot, start, task.time) for slot in placed)


def _people_free(task: Task, start: float, placed: list[Slot], operators: int | None) -> bool:
    if operators is None or not task.attended or not task.time:
        return True
    busy = [slot for slot in placed if slot.task.attended and _overlap(slot, start, task.time)]
    moments = [start, *(slot.start for slot in busy if slot.start > start)]
    return all(sum(slot.start <= moment + TINY < slot.end - TINY + TINY and slot.end > moment + TINY for slot in busy) < operators for moment in moments)


def _overlap(slot: Slot, start: float, lasts: float) -> bool:
    return slot.start < start + lasts - TINY and slot.end > start + TINY
