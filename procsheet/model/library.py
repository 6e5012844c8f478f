"""Where material data are found: shipped files, a house's own beside the method, and overrides. Only the blocks that are named are read."""

import re
from fractions import Fraction
from functools import lru_cache
from pathlib import Path
from typing import NamedTuple

from procsheet.findings import Finding
from procsheet.model.material import Material, fold
from procsheet.source import NOWHERE, Source, source
from procsheet.syntax import tree
from procsheet.syntax.parse import parse_data

SHIPPED = Path(__file__).resolve().parents[1] / "materials"
HEAD = re.compile(r"^(?:(material|kind|rule)[ \t]+(.+?)|[ \t]+(also called|INCI)[ \t]+(.+?))[ \t]*(?:#.*|--.*)?$", re.MULTILINE)


class Index(NamedTuple):
    """Where each name of a file is told: folded name -> the lines its block may begin on."""

    file: Source
    materials: dict[str, tuple[int, ...]]
    inci: dict[str, tuple[int, ...]]
    kinds: dict[str, int]
    rules: dict[str, int]


def index(file: Source) -> Index:
    materials: dict[str, tuple[int, ...]] = {}
    inci: dict[str, tuple[int, ...]] = {}
    kinds, rules = {}, {}
    line, at, block = 1, 0, 0
    for match in HEAD.finditer(file.text):
        line += file.text.count("\n", at, match.start())
        at = match.start()
        if match[1]:
            block = line if match[1] == "material" else 0
            {"kind": kinds, "rule": rules}.get(match[1], {})[fold(match[2])] = line
        if block and (match[1] or match[3]):
            table = inci if match[3] == "INCI" else materials
            name = fold((match[2] or match[4]).split(' from "')[0].removesuffix(" from memory").strip().strip('"'))
            table[name] = tuple(dict.fromkeys((*table.get(name, ()), block)))
    return Index(file, materials, inci, kinds, rules)


@lru_cache(maxsize=None)
def shipped() -> tuple[Index, ...]:
    files = sorted(SHIPPED.glob("*.materials")) + sorted(SHIPPED.glob("*.rules"))
    return tuple(index(source(file.name, file.read_text(encoding="utf-8"))) for file in files)


@lru_cache(maxsize=4096)
def _block(file: Source, line: int) -> tuple[tree.Entry | None, tuple[Finding, ...]]:
    """The block that begins on a line of a file, read alone."""
    lines = file.lines
    end = next((number for number in range(line, len(lines)) if lines[number][:1] not in ("", " ", "\t", "#")), len(lines))
    alone = Source(file.name, "\n" * (line - 1) + "\n".join(lines[line - 1:end]))
    parsed = parse_data(alone)
    return (parsed.tree.blocks[0] if parsed.tree.blocks else None), parsed.findings


class Library(NamedTuple):
    """The indexes to look in, the nearest first: the method's own blocks, a house's files, the shipped ones."""

    indexes: tuple[Index, ...]

    def names(self) -> list[str]:
        return [name for one in self.indexes for name in (*one.materials, *one.inci)]

    def find(self, name: str) -> tuple[list[tree.Entry], list[str], list[Finding]]:
        """The blocks of a name, nearest first; or the names it may stand for where it is not clear which."""
        folded, found, findings = fold(name), [], []
        for one in self.indexes:
            lines = one.materials.get(folded) or ()
            if not lines and not found:
                lines = one.inci.get(folded) or ()
            blocks = [_block(one.file, line) for line in lines]
            findings += [finding for _, wrong in blocks for finding in wrong]
            if len(blocks) > 1:
                return [], [block.text for block, _ in blocks if block], findings
            found += [block for block, _ in blocks if block]
            if found and len(self.indexes) > 1:
                folded = fold(found[0].text) if one.materials.get(folded) is None else folded
        return found, [], findings

    def kind(self, name: str) -> tree.Entry | None:
        folded = fold(name)
        return next((_block(one.file, one.kinds[folded])[0] for one in self.indexes if folded in one.kinds), None)

    def rule(self, name: str) -> list[tree.Entry]:
        """The rule blocks of a name, nearest first."""
        folded = fold(name)
        return [block for one in self.indexes if folded in one.rules and (block := _block(one.file, one.rules[folded])[0]) is not None]


def unknown(name: str, span=NOWHERE) -> Material:
    """A blank material: nothing is known of it but its name."""
    return Material(name, (name,), span=span)


def material(name: str, blocks: list[tree.Entry], library: Library, overrides: tuple[tree.Entry, ...] = (),
             parts: tuple[tuple[Material, Fraction], ...] = ()) -> Material:
    """A material from its blocks, nearest first: a nearer block's figure replaces the shipped one, property by property."""
    lines: dict[str, tuple[tree.Entry, ...]] = {}
    for block in reversed(blocks):
        lines |= _by_key(block.lines)
    lines |= _by_key(overrides)
    kind = fold(lines["kind"][0].text) if "kind" in lines else ""
    defaults = _by_key(block.lines) if (block := library.kind(kind)) is not None else {}
    made = Material(blocks[0].text if blocks else name, (name,), kind, frozenset(), lines, defaults, bool(blocks or overrides), blocks[0].span if blocks else NOWHERE, parts)
    groups = {word for entries in (lines.get("counts as", ()), defaults.get("counts as", ())) for entry in entries for word in _words(entry)}
    names = tuple(dict.fromkeys([made.name, *(entry.text for entry in lines.get("also called", ())), *(entry.text for entry in lines.get("INCI", ()))]))
    decisive = tuple(word for entry in defaults.get("decisive", ()) for word in _words(entry))
    return made._replace(groups=frozenset(groups), names=names, decisive=decisive)


def _by_key(entries) -> dict[str, tuple[tree.Entry, ...]]:
    out: dict[str, tuple[tree.Entry, ...]] = {}
    for entry in entries:
        out[entry.key] = (*out.get(entry.key, ()), entry)
    return out


def _words(entry: tree.Entry) -> list[str]:
    return [" ".join(word.text for word in group if hasattr(word, "text")).lower() for group in entry.groups]
