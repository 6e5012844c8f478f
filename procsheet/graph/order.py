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
    line = _moved([step for step in steps], named)
    parts: dict[str, list[Step]] = {}
    for step in line:
        if (host := _stands_in(step, named)) is not None:
            parts.setdefault(host.name, []).append(step)
    return [placed for step in line for placed in _placed(step, line, named, parts)], []


def _stands_in(step: Step, named: dict[str, Step]) -> Step | None:
    """The step it stands inside, where both work on the same vessel."""
    host = named.get(host_of(step))
    return host if host is not None and host is not step and _vessels(step) & _vessels(host) else None


def _vessels(step: Step) -> set[str]:
    return {step.vessel, step.into, *(take.vessel for take in (*step.what, *step.down))} - {""}


def _placed(step: Step, line: list[Step], named: dict[str, Step], parts: dict[str, list[Step]]) -> list[Placed]:
    """A step where it is written, and behind one that stands inside another the next part of that other."""
    host = named.get(host_of(step))
    guests = parts.get(step.name, []) if step.name and named.get(step.name) is step else []
    out = [Placed(step, 0, len(guests) + 1, host.number if host is not None and host is not step else None)]
    around = _stands_in(step, named)
    if around is not None:
        mates = parts[around.name]
        out.append(Placed(around, mates.index(step) + 1, len(mates) + 1, None))
    return out


def host_of(step: Step) -> str:
    """The name of the step it stands inside, '' for none."""
    if step.has("during"):
        return step.value("during")
    return step.value("last of")[1] if step.has("last of") else ""


def _moved(line: list[Step], named: dict[str, Step]) -> list[Step]:
    """Steps that stand before a step they must follow are put behind it, and the other way round."""
    out = list(line)
    for step in line:
        for kind, behind in (("after", True), ("during", True), ("just before", False), ("before step", False)):
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
