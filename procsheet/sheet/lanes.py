"""Which steps stand side by side: those of vessels that have nothing to do with each other until one is poured into the other."""

from typing import NamedTuple

from procsheet.sheet.sections import Fork, Task, tasks
from procsheet.sheet.work import Work

LEAST = 2       # steps that make a lane worth its room
EVEN = 3        # times as many in the longest lane: more would leave the other column empty


class SideBySide(NamedTuple):
    """Groups of parts, each in its own order, by the first step of each."""

    groups: tuple[tuple[Task | Fork, ...], ...]


def arranged(parts: tuple[Task | Fork, ...], work: Work) -> list[Task | Fork | SideBySide]:
    """The longest run of parts that falls into groups goes side by side; all else stands over the whole width."""
    out: list = []
    start = 0
    while start < len(parts):
        end = next((end for end in range(len(parts), start + 2 * LEAST - 1, -1) if _parallel(parts[start:end], work)), None)
        if end is None:
            out.append(parts[start])
            start += 1
        else:
            out.append(SideBySide(tuple(groups(parts[start:end], work))))
            start = end
    return out


def _parallel(parts: tuple[Task | Fork, ...], work: Work) -> bool:
    if not all(vessels(part, work) for part in parts):
        return False                    # everybody waits, or it is about no vessel
    found = groups(parts, work)
    counts = [len(tasks(group)) for group in found]
    return len(found) > 1 and min(counts) >= LEAST and max(counts) <= EVEN * min(counts)


def groups(parts: tuple[Task | Fork, ...], work: Work) -> list[tuple[Task | Fork, ...]]:
    """Parts that share a vessel, directly or by way of others."""
    found: list[tuple[set[str], list[int]]] = []
    for index, part in enumerate(parts):
        names, members = set(vessels(part, work)), [index]
        apart = []
        for group in found:
            if group[0] & names:
                names |= group[0]
                members = group[1] + members
            else:
                apart.append(group)
        found = [*apart, (names, members)]
    return [tuple(parts[index] for index in sorted(members)) for _, members in sorted(found, key=lambda group: min(group[1]))]


def vessels(part: Task | Fork, work: Work) -> set[str]:
    """The vessels and places a part has to do with. A part without any stands in no lane."""
    found = [_of_step(task.step, work) for task in tasks([part])]
    return set().union(*found) if all(found) else set()


def _of_step(step, work: Work) -> set[str]:
    names = {step.vessel, step.into, *(take.vessel for take in (*step.what, *step.down))}
    return {name for name in names if name in work.bars}


def lane_vessel(group: tuple[Task | Fork, ...], work: Work) -> str:
    """The vessel a lane is called after: the one that holds what the lane has made, at its end."""
    from procsheet.sheet.work import Job
    return Job(work, tasks(group)[-1]).vessel
