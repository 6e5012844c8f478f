"""The method in the order it is printed: stages, steps with the notes beside them, and the forks that are not decided yet."""

from typing import NamedTuple, Union

from procsheet.model.method import Block, Method, Step
from procsheet.sheet.model import Caution
from procsheet.sheet.pieces import numbered
from procsheet.syntax import tree


ADDING = ("charge", "add", "disperse", "dissolve", "emulsify", "neutralise", "activate")


class Task(NamedTuple):
    """A numbered step, and what the method says beside it. left_out: steps that are not printed, because a fork before it is decided."""

    step: Step
    notes: tuple[str, ...] = ()
    cautions: tuple[Caution, ...] = ()
    left_out: tuple[str, ...] = ()


class Way(NamedTuple):
    """A branch of a fork; notes: what it says where it has no step to say it beside."""

    name: str
    parts: tuple[Union[Task, "Fork"], ...]
    notes: tuple[str, ...] = ()


class Fork(NamedTuple):
    block: Block
    branches: tuple[Way, ...]


class Section(NamedTuple):
    title: str
    parts: tuple[Task | Fork, ...]


def sections(method: Method, decided: dict) -> tuple[Section, ...]:
    """decided: the line of a block -> the index of the branch that is taken."""
    out, title, items = [], "", []
    for item in (*_taken(method.items, decided), tree.Stage("", None)):
        if isinstance(item, tree.Stage):
            out += [Section(title, _tasks(items)[0])] if items else []
            title, items = item.title, []
        else:
            items.append(item)
    return tuple(out)


def tasks(parts) -> list[Task]:
    """All steps of some parts, in order."""
    return [task for part in parts for task in ([part] if isinstance(part, Task) else tasks(one for way in part.branches for one in way.parts))]


# ---- forks that are decided

class _LeftOut(NamedTuple):
    text: str


def _taken(items, decided: dict) -> list:
    """The items, with the branch that is taken in the place of its block."""
    out = []
    for item in items:
        index = decided.get(item.written.span.line) if isinstance(item, Block) else None
        if isinstance(item, Block) and index is not None:
            out += _branch(item, index, decided)
        elif isinstance(item, Block):
            out.append(item._replace(branches=tuple((name, tuple(_taken(inner, decided))) for name, inner in item.branches)))
        elif isinstance(item, Step) and _nothing_left(item):
            out.append(_LeftOut(f"{numbered([item.number])}, of a material that is left out."))
        else:
            out.append(item)
    return out


def _nothing_left(step: Step) -> bool:
    """Whether all that it adds is left out of this batch."""
    there = any(take.rows or take.vessel or take.hold_back or take.open for take in step.what)
    return step.verb in ADDING and bool(step.what) and not there


def _branch(block: Block, index: int, decided: dict) -> list:
    others = [(name, step.number) for at, (name, inner) in enumerate(block.branches) if at != index
              for step in _steps(inner) if step.number]
    mark = [_LeftOut(_why(block, others))] if others else []
    return mark + (_taken(block.branches[index][1], decided) if index < len(block.branches) else [])


def _why(block: Block, others: list[tuple[str, int]]) -> str:
    numbers = numbered([number for _, number in others])
    if block.kind == "choose":
        return f"{numbers}, option {' and '.join(dict.fromkeys(name for name, _ in others))}."
    with_it = all(name != "otherwise" for name, _ in others)
    return f"{numbers}, for plants {'with' if with_it else 'without'} {block.head}."


def _steps(items):
    for item in items:
        if isinstance(item, Step):
            yield item
        elif isinstance(item, Block):
            for _, inner in item.branches:
                yield from _steps(inner)


# ---- what stands beside a step

def _tasks(items) -> tuple[tuple[Task | Fork, ...], Task]:
    """A note stands beside the step that follows it, a caution before it; at the end of a branch, beside the last step.

    Returns what is left over where there is no step, too.
    """
    out: list = []
    beside = Task(None)
    for item in items:
        if isinstance(item, _LeftOut):
            beside = beside._replace(left_out=(*beside.left_out, item.text))
        elif isinstance(item, Step) and item.verb == "note":
            beside = beside._replace(notes=(*beside.notes, words_of(item)))
        elif isinstance(item, Step) and item.verb == "caution":
            beside = beside._replace(cautions=(*beside.cautions, caution(words_of(item))))
        else:
            made = Task(item) if isinstance(item, Step) else Fork(item, tuple(_way(name, inner) for name, inner in item.branches))
            out.append(_placed(made, beside, 0))
            beside = Task(None)
    if out and beside != Task(None):
        out[-1], beside = _placed(out[-1], beside, -1), Task(None)
    return tuple(out), beside


def _way(name: str, items) -> Way:
    parts, left = _tasks(items)
    return Way(name, parts, (*(f"{caution.danger} {caution.advice}".strip() for caution in left.cautions), *left.notes))


def _with(task: Task, beside: Task) -> Task:
    return Task(task.step, (*beside.notes, *task.notes), (*beside.cautions, *task.cautions), (*beside.left_out, *task.left_out))


def _placed(part, beside: Task, at: int):
    """Put it beside the first or last step of a part."""
    if isinstance(part, Task):
        return _with(part, beside) if at == 0 else _with(beside._replace(step=part.step), part)
    places = [index for index, way in enumerate(part.branches) if way.parts]
    if not places:
        return part
    branches = list(part.branches)
    within = list(branches[places[at]].parts)
    within[at] = _placed(within[at], beside, at)
    branches[places[at]] = branches[places[at]]._replace(parts=tuple(within))
    return part._replace(branches=tuple(branches))


def words_of(step: Step) -> str:
    """The words in quotes of a note, caution, prepare, do, sample or wait step; '' for none."""
    value = step.written.slots.get("text")
    return value.items[0].what.text if value is not None else ""


def caution(text: str) -> Caution:
    """The danger is its first sentence, what to do the rest."""
    danger, point, advice = text.partition(". ")
    return Caution(danger + ("." if point else ""), advice)
