"""The courses a method can take: options, the plant's own branches, what the operator decides on the day.

Each course is the list of its steps in the order of the file. Above 32 courses each option is taken once against the first of the others.
"""

from itertools import product
from typing import NamedTuple

from procsheet.model.method import Block, Method, Step
from procsheet.syntax import tree

MOST = 32


class Choice(NamedTuple):
    """A place where the method forks. labels: what a person would call each way; by: 'papers', 'plant' or 'day'."""

    key: tuple
    labels: tuple[str, ...]
    by: str
    wants: str = ""                     # what the plant must have for the first way


class Course(NamedTuple):
    """One way through the method. taken: the way chosen at each fork, by the fork's key; name: those that are not the first."""

    steps: tuple[Step, ...]
    taken: dict
    name: tuple[str, ...]
    left_out: frozenset[int] = frozenset()     # numbers of steps that this course does without


def choices(method: Method) -> list[Choice]:
    """Every fork of a method, in order."""
    return list(_choices(method.items))


def _choices(items):
    for item in items:
        if isinstance(item, Block):
            if item.kind != "repeat":
                yield _of_block(item)
            for _, branch in item.branches:
                yield from _choices(branch)
        elif isinstance(item, Step):
            yield from _of_step(item)


def _of_block(block: Block) -> Choice:
    key = ("block", block.written.span.line)
    if block.kind == "choose":
        return Choice(key, tuple(name for name, _ in block.branches), "papers")
    if block.kind == "where":
        return Choice(key, (f"with {block.head}", f"without {block.head}"), "plant", block.head)
    return Choice(key, (f"if {block.head}", f"otherwise, in line {block.written.span.line}"), "day")


def _of_step(step: Step):
    if step.has("optional"):
        yield Choice(("step", step.number), (f"with step {step.number}", f"without step {step.number}"), "papers")
    elif step.has("if needed", "if"):
        yield Choice(("step", step.number), (f"with step {step.number}", f"without step {step.number}"), "day")
    for index, clause in enumerate(step.written.clauses):
        if clause.kind == "tool" and clause.value.joined == "or":
            yield Choice(("tool", step.number, index), tuple(f"with {name}" for name in clause.value.names), "day")
        elif clause.either and clause.kind.endswith("shear"):
            yield Choice(("shear", step.number, index), ("the first shear", f"{clause.kind} in step {step.number}"), "day")


def courses(method: Method, fixed: dict | None = None) -> list[Course]:
    """All courses, or one against the rest where they are more than 32. `fixed` holds what is decided already: key -> index of the way."""
    fixed = fixed or {}
    forks = choices(method)
    ways = [[fixed[fork.key]] if fork.key in fixed else list(range(len(fork.labels))) for fork in forks]
    count = 1
    for way in ways:
        count *= len(way)
    picks = product(*ways) if count <= MOST else _one_at_a_time(ways)
    made, seen = [], set()
    for pick in picks:
        taken = {fork.key: index for fork, index in zip(forks, pick)}
        steps = tuple(_walk(method.items, taken))
        mark = tuple((step.number, step.span.line, step.written) if step.number else step.span for step in steps)
        mark = tuple(map(id, (step.written for step in steps))) if not any(key[0] in ("tool", "shear") for key in taken) else tuple(map(repr, mark))
        if mark not in seen:
            seen.add(mark)
            name = tuple(fork.labels[index] for fork, index in zip(forks, pick) if index and fork.key not in fixed)
            out = frozenset(fork.key[1] for fork, index in zip(forks, pick) if fork.key[0] == "step" and index)
            made.append(Course(steps, taken, name, out))
    return made


def _one_at_a_time(ways: list[list[int]]):
    first = [way[0] for way in ways]
    yield tuple(first)
    for place, way in enumerate(ways):
        for other in way[1:]:
            yield tuple(first[:place] + [other] + first[place + 1:])


def _walk(items, taken: dict):
    for item in items:
        if isinstance(item, Step):
            if taken.get(("step", item.number)) != 1:
                yield _with_choice(item, taken)
        elif isinstance(item, Block):
            if item.kind == "repeat":
                branch = 0
            else:
                branch = taken.get(("block", item.written.span.line), 0)
            if branch < len(item.branches):
                yield from _walk(item.branches[branch][1], taken)


def _with_choice(step: Step, taken: dict) -> Step:
    """The step with the tool that this course uses where it names several."""
    clauses = list(step.written.clauses)
    changed = False
    for index, clause in enumerate(step.written.clauses):
        if ("tool", step.number, index) in taken:
            name = clause.value.names[taken[("tool", step.number, index)]]
            clauses[index] = clause._replace(value=tree.Tools((name,), "and", clause.value.span))
            changed = True
        elif ("shear", step.number, index) in taken:
            drop = "either" if taken[("shear", step.number, index)] == 0 else "first"
            clauses = [one for one in clauses if not (one.kind.endswith("shear") and one.either == (drop == "either"))]
            changed = True
    return step._replace(written=step.written._replace(clauses=tuple(clauses))) if changed else step
