"""Where material data are found: shipped files, a house's own beside the method, and overrides. Only the blocks that are named are read."""

from fractions import Fraction
from functools import lru_cache
from pathlib import Path
from typing import NamedTuple

from procsheet.findings import Finding
from procsheet.model.composition import composition
from procsheet.model.index import Index, Told, opened
from procsheet.model.material import SOLID, Material, fold
from procsheet.source import NOWHERE, Source, source
from procsheet.syntax import tree
from procsheet.syntax.parse import parse_data

SHIPPED = Path(__file__).resolve().parents[1] / "materials"


def shipped() -> tuple[Index, ...]:
    """The data that come with procsheet."""
    return (opened(_files()),)


@lru_cache(maxsize=1)
def _files() -> tuple[tuple[str, Path], ...]:
    return tuple((path.name, path) for path in (*sorted(SHIPPED.glob("*.materials")), *sorted(SHIPPED.glob("*.rules"))))


@lru_cache(maxsize=4096)
def read_block(told: Told) -> tuple[tree.Entry | None, tuple[Finding, ...]]:
    """A block, read alone."""
    parsed = parse_data(Source(told.file, told.text, told.line))
    return (parsed.tree.blocks[0] if parsed.tree.blocks else None), parsed.findings


class Library(NamedTuple):
    """The indexes to look in, the nearest first: the method's own blocks, a house's files, the shipped ones."""

    indexes: tuple[Index, ...]

    def names(self) -> list[str]:
        return [name for one in self.indexes for name in one.names("material", "INCI")]

    def find(self, name: str) -> tuple[list[tree.Entry], list[str], list[Finding]]:
        """The blocks of a name, nearest first; or the names it may stand for where it is not clear which."""
        folded, found, findings = fold(name), [], []
        for one in self.indexes:
            told = one.told("material", folded) or (one.told("material", fold(found[0].text)) if found else one.told("INCI", folded))
            blocks = [read_block(each) for each in told]
            findings += [finding for _, wrong in blocks for finding in wrong]
            if len(blocks) > 1:
                return [], [block.text for block, _ in blocks if block], findings
            found += [block for block, _ in blocks if block]
        return found, [], findings

    def strengths(self, inci: str) -> set[float]:
        """The strengths that liquid articles of an ingredient-list name are sold at, as far as the data know [1]."""
        blocks = [block for one in self.indexes for told in one.told("INCI", fold(inci)) if (block := read_block(told)[0]) is not None]
        known = [material(block.text, [block], self) for block in blocks]
        return {float(one.assay) for one in known if one.assay is not None and one.text("form") not in SOLID}

    def kind(self, name: str) -> tree.Entry | None:
        return next(iter(self._blocks("kind", name)), None)

    def kinds(self) -> list[str]:
        return [name for one in self.indexes for name in one.names("kind")]

    def rule(self, name: str) -> list[tree.Entry]:
        """The shipped rule blocks of a name."""
        return list(_rule(self.indexes[-1], fold(name)))

    def own_rules(self) -> list[tree.Entry]:
        """The rule blocks of a house's own files."""
        return [block for one in self.indexes[:-1] for block in _rules(one)]

    def all(self, what: str = "material") -> list[tree.Entry]:
        """Every block of a sort, as the files have them."""
        return [block for one in self.indexes for told in one.all(what) if (block := read_block(told)[0]) is not None]

    def source(self, name: str) -> Source | None:
        """The text of one of the files, by the name findings call it by."""
        path = next((path for one in self.indexes for shown, path in one.files if shown == name), None)
        return source(name, path.read_text(encoding="utf-8-sig")) if path is not None else None

    def _blocks(self, what: str, name: str) -> list[tree.Entry]:
        return [block for one in self.indexes for told in one.told(what, fold(name)) if (block := read_block(told)[0]) is not None]


@lru_cache(maxsize=1024)
def _rule(index: Index, name: str) -> tuple[tree.Entry, ...]:
    return tuple(block for told in index.told("rule", name) if (block := read_block(told)[0]) is not None)


@lru_cache(maxsize=64)
def _rules(index: Index) -> tuple[tree.Entry, ...]:
    return tuple(block for told in index.all("rule") if (block := read_block(told)[0]) is not None)


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
    parts = parts or tuple((_part(part, library), share) for part, share in composition(lines.get("composed of", ())))
    made = Material(blocks[0].text if blocks else name, (name,), kind, frozenset(), lines, defaults, bool(blocks or overrides), blocks[0].span if blocks else NOWHERE, parts)
    groups = {word for entries in (lines.get("counts as", ()), defaults.get("counts as", ())) for entry in entries for word in _words(entry)}
    names = tuple(dict.fromkeys([made.name, *(entry.text for entry in lines.get("also called", ())), *(entry.text for entry in lines.get("INCI", ()))]))
    return made._replace(groups=frozenset(groups), names=names, decisive=decisive(defaults.get("decisive", ())))


def decisive(entries) -> tuple[str, ...]:
    """The properties on `decisive` lines, as a block writes them."""
    return tuple(" ".join(word.text for word in group if hasattr(word, "text")) for entry in entries for group in entry.groups)


def _part(name: str, library: Library) -> Material:
    """A part of a solution or blend: the plain material of that name, which is itself in no solution."""
    blocks, either, _ = library.find(name)
    plain = [found[0] for one in either if (found := library.find(one)[0]) and not any(line.key in ("composed of", "assay") for line in found[0].lines)]
    blocks = [block for block in blocks or plain[:1] if not any(line.key == "composed of" for line in block.lines)]
    return material(name, blocks, library)._replace(names=(name,)) if blocks else unknown(name)


def _by_key(entries) -> dict[str, tuple[tree.Entry, ...]]:
    out: dict[str, tuple[tree.Entry, ...]] = {}
    for entry in entries:
        out[entry.key] = (*out.get(entry.key, ()), entry)
    return out


def _words(entry: tree.Entry) -> list[str]:
    return [" ".join(word.text for word in group if hasattr(word, "text")).lower() for group in entry.groups]
