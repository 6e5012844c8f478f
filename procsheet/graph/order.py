"""The order of a course's steps: that of the file, but for after, just before, before and during."""

from typing import NamedTuple

from procsheet.findings import Finding, Label
from procsheet.model.method import Step


class Placed(NamedTuple):
    """A step, or a part of one that others stand inside."""

    step: Step
    part: int
    parts: int
    inside: int | None


def order(steps: tuple[Step, ...]) -> tuple[list[Placed], list[Finding]]:
    """The steps and parts of steps in the order they are done; a circle is a finding and its steps stay where they were."""
    named = {step.name: step for step in steps if step.name}
    findings = circles(steps, named)
    if findings:
        return [Placed(step, 0, 1, None) for step in steps], findings
    inside: dict[str, list[Step]] = {}
    line: list[Step] = []
    for step in steps:
        host = host_of(step)
        if host in named and named[host] is not step:
            inside.setdefault(host, []).append(step)
        else:
            line.append(step)
    line = _moved(line, named)
    return [placed for step in line for placed in _with_inside(step, inside, None)], []


def host_of(step: Step) -> str:
    """The name of the step it stands inside, '' for none."""
    if step.has("during"):
        return step.value("during")
    return step.value("last of")[1] if step.has("last of") else ""


def _with_inside(step: Step, inside: dict[str, list[Step]], host: int | None) -> list[Placed]:
    guests = inside.get(step.name, []) if step.name else []
    if not guests:
        return [Placed(step, 0, 1, host)]
    out = [Placed(step, 0, len(guests) + 1, host)]
    for part, guest in enumerate(guests, 1):
        out += _with_inside(guest, inside, step.number)
        out.append(Placed(step, part, len(guests) + 1, host))
    return out


def _moved(line: list[Step], named: dict[str, Step]) -> list[Step]:
    """Steps that stand before a step they must follow are put behind it, and the other way round."""
    out = list(line)
    for step in line:
        for kind, behind in (("after", True), ("just before", False), ("before step", False)):
            other = named.get(step.value(kind)) if step.has(kind) else None
            if other is None or other not in out or step not in out:
                continue
            at, there = out.index(step), out.index(other)
            if (behind and at < there) or (not behind and at > there) or kind == "just before" and at != there - 1:
                out.remove(step)
                out.insert(out.index(other) + (1 if behind else 0), step)
    return out


def circles(steps: tuple[Step, ...], named: dict[str, Step]) -> list[Finding]:
    """Steps that wait for each other, shown as their path."""
    waits = {step.number or -index: [] for index, step in enumerate(steps)}
    by_key = {step.number or -index: step for index, step in enumerate(steps)}
    key = {id(step): step.number or -index for index, step in enumerate(steps)}
    for step in steps:
        for other, first in _relations(step, named):
            (waits[key[id(step)]] if first else waits[key[id(other)]]).append(key[id(other)] if first else key[id(step)])
    for start in waits:
        path = _path(start, waits)
        if path:
            return [_circle([by_key[one] for one in path])]
    return []


def _relations(step: Step, named: dict[str, Step]):
    """(other step, whether the other comes first)."""
    for kind, first in (("after", True), ("during", True), ("just before", False), ("before step", False)):
        if step.has(kind) and step.value(kind) in named:
            yield named[step.value(kind)], first
    if step.has("last of") and step.value("last of")[1] in named:
        yield named[step.value("last of")[1]], True


def _path(start: int, waits: dict[int, list[int]]) -> list[int]:
    """A way from a step back to itself, [] for none."""
    stack = [(start, [start])]
    seen = set()
    while stack:
        now, path = stack.pop()
        for following in waits[now]:
            if following == start:
                return path
            if following not in seen:
                seen.add(following)
                stack.append((following, [*path, following]))
    return []


def _circle(steps: list[Step]) -> Finding:
    numbers = " → ".join(f"step {step.number}" for step in [*steps, steps[0]])
    title = "a step waits for itself" if len(steps) == 1 else f"these steps wait for each other: {numbers}"
    return Finding("STOP", "steps-in-a-circle", title, Label(steps[0].span, "waits"), tuple(Label(step.span, "waits too") for step in steps[1:]),
                   "None of them can begin.", "Take out one of the words during, after or before.", step=steps[0].number, cannot_be_accepted=True)
