"""Changes of the method: steps that are new, gone or moved, and what a step says differently."""

import re
from collections.abc import Iterator
from difflib import SequenceMatcher
from typing import NamedTuple

from procsheet.changes.change import Change
from procsheet.model.method import Method, Step
from procsheet.source import Source

ALIKE = 0.6                             # how alike two steps of one verb and vessel must be written to be the same one, changed


class Said(NamedTuple):
    step: Step
    text: str


def said(method: Method, source: Source) -> list[Said]:
    """Every step as it is written, on one line, without remarks."""
    lines = source.lines
    out = []
    for step in method.steps():
        at, indent = step.span.line, _indent(lines[step.span.line - 1])
        words = [lines[at - 1]]
        while at < len(lines) and lines[at].strip() and _indent(lines[at]) > indent:
            words.append(lines[at])
            at += 1
        out.append(Said(step, " ".join(" ".join(re.split(r"\s--\s|\s#", line)[0].split()) for line in words)))
    return out


def changed(old: list[Said], new: list[Said]) -> Iterator[Change]:
    gone, come, kept = _matched(old, new)
    moved = {id(one): other for one in gone for other in come if one.text == other.text}
    for one in gone:
        other = moved.get(id(one))
        if other is not None:
            yield Change("method", _number(other), f"step {one.step.number}", f"step {other.step.number}", f"`{other.text}` moves from step {one.step.number} to step {other.step.number}", other.step.span.line)
        else:
            yield Change("method", _number(one), one.text, "", f"step {one.step.number} is left out: `{one.text}`")
    for other in come:
        if not any(other is one for one in moved.values()):
            yield Change("method", _number(other), "", other.text, f"step {other.step.number} is new: `{other.text}`", other.step.span.line)
    for one, other in kept:
        yield Change("method", _number(other), one.text, other.text, f"step {other.step.number}: {_difference(one.text, other.text)}", other.step.span.line)


def _matched(old: list[Said], new: list[Said]):
    """Steps that are gone, steps that came, and pairs that are the same step said differently."""
    gone, come, kept = [], [], []
    for tag, a, b, c, d in SequenceMatcher(None, [one.text for one in old], [one.text for one in new], autojunk=False).get_opcodes():
        if tag == "equal":
            continue
        left = list(new[c:d])
        for one in old[a:b]:
            best = max((other for other in left if _same(one, other)), key=lambda other: _alike(one, other), default=None)
            if best is None:
                gone.append(one)
            else:
                left = [other for other in left if other is not best]
                kept.append((one, best))
        come += left
    return gone, come, kept


def _same(one: Said, other: Said) -> bool:
    return one.step.verb == other.step.verb and (one.step.into or one.step.vessel) == (other.step.into or other.step.vessel) and _alike(one, other) >= ALIKE


def _alike(one: Said, other: Said) -> float:
    return SequenceMatcher(None, one.text, other.text).ratio()


def _difference(before: str, after: str) -> str:
    """`for 5 min` becomes `for 8 min`: the words around what changed."""
    a, b = before.split(), after.split()
    parts = []
    for tag, i, j, k, m in SequenceMatcher(None, a, b, autojunk=False).get_opcodes():
        if tag != "equal":
            start = 1 if i > 0 and k > 0 else 0
            end = 1 if j < len(a) and m < len(b) and a[j - 1][-1:].isdigit() else 0     # the unit behind a figure
            was, now = " ".join(a[i - start:j + end]), " ".join(b[k - start:m + end])
            parts.append(f"`{was}` becomes `{now}`" if j > i and m > k else f"`{' '.join(a[i:j])}` is left out" if j > i else f"`{' '.join(b[k:m])}` is new")
    return "; ".join(parts)


def _number(one: Said) -> str:
    return f"step {one.step.number}" if one.step.number else one.step.verb


def _indent(line: str) -> int:
    return len(line) - len(line.lstrip(" "))
