"""Where each written line of a file stands in the canonical layout: how deep, in which part, and in which columns."""

from typing import NamedTuple

from procsheet.syntax import entries, formula, heads, tree
from procsheet.syntax.lines import Line
from procsheet.syntax.parsed import Parsed
from procsheet.syntax.sections import cut


class Place(NamedTuple):
    """Where a written line stands: its depth, the part of the file it belongs to, and the columns at which it is parted."""

    depth: int
    part: str
    breaks: tuple[int, ...] = ()
    table: int = 0                      # lines with the same number share their columns


# ---- where the lines of a method stand


def method_places(lines: list[Line], parsed: Parsed) -> dict[int, Place]:
    out: dict[int, Place] = {}
    sections, _ = cut(lines)
    for table, section in enumerate(sections, 1):
        if section.kind == "method":
            out |= _method(section)
        elif section.kind == "phase":
            out |= _phase(section, table, parsed.tree)
        elif section.kind in ("limits", "as a material", "pack"):
            out[section.head.number] = Place(0, section.kind)
            out |= _hanging(section.lines, 1, section.kind)
        else:
            out |= _hanging(([section.head] if section.head else []) + section.lines, 0, section.kind)
    return out


def _hanging(lines: list[Line], depth: int, part: str) -> dict[int, Place]:
    """Lines of one depth; what goes on with the line above it stands one level deeper."""
    out: dict[int, Place] = {}
    first: Line | None = None
    for line in lines:
        deeper = first is not None and line.indent > first.indent
        out[line.number] = Place(depth + deeper, part)
        first = first if deeper else line
    return out


def _phase(section, table: int, parsed: tree.MethodTree) -> dict[int, Place]:
    rows = {row.span.line: row for phase in parsed.phases for one in phase.rows for row in (one, *one.alternatives)}
    out: dict[int, Place] = {}
    headless = not formula.PHASE.match(section.head.text)
    if not headless:
        out[section.head.number] = Place(0, "phase")
    for line in [section.head, *section.lines] if headless else section.lines:
        row = rows.get(line.number)
        if row is None:
            out[line.number] = Place(2, "phase")            # hold back
        else:
            name = row.name_span.column - 1
            out[line.number] = Place(1, "phase", (name,), table)
    return out


def _method(section) -> dict[int, Place]:
    inside = section.lines if section.head.text.strip(" :").lower() == "method" else [section.head, *section.lines]
    out = {section.head.number: Place(0, "method")}
    opened: list[int] = []                                  # the depth of each open block
    depth = 1
    for written in heads.group(inside)[0]:
        first = written[0]
        at = depth
        if heads.STAGE.match(first.text):
            at = 0
        elif heads.BLOCK.match(first.text):
            at, depth = _block(first.text.split()[0].lower().strip(":."), depth, opened)
        out[first.number] = Place(at, "method")
        for line in written[1:]:
            out[line.number] = Place(at + 1, "method")
    return out


def _block(word: str, depth: int, opened: list[int]) -> tuple[int, int]:
    """The depth of a block line, and of the lines below it. Below `choose one` stand options, and below them steps."""
    if word in ("option", "otherwise", "else"):
        at = opened[-1] + (word == "option")
        return at, at + 1
    if word == "end":
        at = opened.pop()
        return at, at
    opened.append(depth)
    return depth, depth + 1


# ---- where the lines of materials and plants stand


def data_places(lines: list[Line], parsed: Parsed) -> dict[int, Place]:
    out: dict[int, Place] = {}
    known = {block.span.line: block for block in parsed.tree.blocks}
    for table, (head, under) in enumerate(entries.blocks(lines), 1):
        out[head.number] = Place(0, f"block {table}")
        out |= _table(under, known[head.number].lines, f"block {table}", table)
    return out


def plant_places(lines: list[Line], parsed: Parsed) -> dict[int, Place]:
    out: dict[int, Place] = {}
    known = {block.span.line: block for block in parsed.tree.blocks}
    for table, (head, under) in enumerate(entries.blocks(lines), 1):
        out[head.number] = Place(0, "plant")
        block = known[head.number]
        out |= _table(under, block.lines, "plant", table) if block.lines else {line.number: Place(1, "plant") for line in under}
    return out


def _table(under: list[Line], known: tuple[tree.Entry, ...], part: str, table: int) -> dict[int, Place]:
    """Keys, values and sources of a block in columns."""
    by_line = {entry.span.line: entry for entry in known}
    out: dict[int, Place] = {}
    for number, place in _hanging(under, 1, part).items():
        entry = by_line.get(number)
        out[number] = place if entry is None else place._replace(breaks=_breaks(entry), table=table)
    return out


def _breaks(entry: tree.Entry) -> tuple[int, ...]:
    key = entry.key_span.end - 1
    evidence = entry.evidence.span if entry.evidence is not None else None
    return (key, evidence.column - 1) if evidence is not None and evidence.line == entry.span.line else (key,)
