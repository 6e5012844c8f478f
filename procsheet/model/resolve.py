"""Tree to method: names looked up, figures made SI, shares closed. It orders no steps."""

from fractions import Fraction
from pathlib import PurePosixPath
from typing import NamedTuple

from procsheet import units
from procsheet.findings import Finding
from procsheet.model import checks, formula, quantities
from procsheet.model.kin import kin
from procsheet.model.library import Library, material as make_material, unknown
from procsheet.model.material import Material, fold
from procsheet.model.method import Block, Header, Method, Row, Step
from procsheet.model.names import Names, walk_steps
from procsheet.syntax import tree
from procsheet.syntax.slips import slip


class Options(NamedTuple):
    """What whoever makes the papers decided: options and alternative materials chosen, optional materials left out."""

    choose: frozenset[str] = frozenset()
    without: frozenset[str] = frozenset()


class Made(NamedTuple):
    """A material another method makes: what it is made of, as mass shares, and what that method says of it as a material."""

    parts: tuple[tuple[Material, Fraction], ...]
    lines: tuple[tree.Entry, ...] = ()


class Resolved(NamedTuple):
    method: Method
    findings: tuple[Finding, ...]


def resolve(parsed: tree.MethodTree, library: Library, options: Options = Options(), made: "dict[str, Made] | None" = None) -> Resolved:
    """The method of a tree. Every name is looked for in `library`; `made` tells of materials that other methods make."""
    findings: list[Finding] = []
    header, wrong = read_header(parsed.header)
    findings += wrong
    basis, wrong = formula.read_basis(_entry(parsed, "basis"))
    findings += wrong
    materials = Materials(library, parsed.overrides, made or {})
    phases = _phases(parsed, materials, options)
    closed, amount, mass = formula.close(phases, basis, product_density(parsed))
    findings += materials.findings
    names = Names(closed, parsed.places, _alternatives(parsed, options), _absent(parsed, options))
    items = names.items(parsed.items)
    method = Method(parsed.file, header, amount, basis.dimension == "volume", basis.written, mass, closed, parsed.places, items, parsed.limits, parsed.packs,
                    parsed.accepts, parsed.as_material, library, is_draft(parsed))
    findings += names.findings
    findings += [finding for check in checks.CHECKS for finding in check(parsed, method)]
    return Resolved(method, tuple(findings))


class Materials:
    """Looks each name up once, and keeps what is to be said of it."""

    def __init__(self, library: Library, overrides: tuple[tree.Override, ...], made: dict[str, Made]):
        self.library, self.made = library, made
        self.overrides: dict[str, tuple] = {}
        for one in overrides:
            self.overrides[fold(one.material)] = (*self.overrides.get(fold(one.material), ()), one.entry)
        self.known: dict[str, Material] = {}
        self.findings: list[Finding] = []

    def find(self, row: tree.Row) -> Material:
        folded = fold(row.name)
        if folded not in self.known:
            self.known[folded] = self._look(row.name, row)
        return self.known[folded]

    def _look(self, name: str, row: tree.Row) -> Material:
        blocks, either, wrong = self.library.find(name)
        self.findings += wrong
        if either:
            self.findings.append(checks.two_materials(name, either, row))
        elif not blocks:
            borrowed, taken_for = kin(name, self.library)
            blocks = [borrowed._replace(text=name)] if borrowed is not None else []
            self.findings.append(checks.no_data(name, taken_for, self.library, row))
        overrides = tuple(entry for known in [fold(name), *(fold(block.text) for block in blocks[:1])] for entry in self.overrides.get(known, ()))
        if not blocks and not overrides:
            return unknown(name, row.name_span)
        made = self.made.get(fold(name), Made(()))
        if made.lines:                                      # its own method speaks last: a house's block beside it is nearer
            blocks = [*blocks, blocks[0]._replace(lines=made.lines)]
        return make_material(name, blocks, self.library, overrides, made.parts)


def _entry(parsed: tree.MethodTree, key: str) -> tree.Entry | None:
    return next((entry for entry in parsed.header if entry.key == key), None)


def product_density(parsed: tree.MethodTree) -> Fraction | None:
    """kg/m³ of the product, from its release limits."""
    for limit in parsed.limits:
        if limit.measure.name in ("density", "relative density") and isinstance(limit.measure.target, tree.Quantity):
            value = quantities.middle(limit.measure.target)
            return value * 1000 if value is not None and limit.measure.name == "relative density" else value
    return None


# ---- the formula


def _phases(parsed: tree.MethodTree, materials: Materials, options: Options):
    adjusting = _adjusting(parsed)
    rows = [row for phase in parsed.phases for row in phase.rows]
    has_closing = any(row.kind == "closing" for row in rows)
    out = []
    for phase in parsed.phases:
        drafts = []
        for row in phase.rows:
            row = _chosen(row, options)
            if row is None:
                continue
            found = materials.find(row)
            kind = row.kind
            if kind == "q.s.":
                kind = "corrector" if phase.letter in adjusting else formula.kind_of_qs(row, found, adjusting, has_closing)
                has_closing = has_closing or kind == "closing"
                materials.findings.append(checks.qs_read_as(row, kind))
            drafts.append(formula.read_row(row, phase.letter, len(drafts) + 1, found, kind))
        out.append((phase, drafts))
    return out


def _chosen(row: tree.Row, options: Options) -> tree.Row | None:
    """The row, or the alternative that was chosen for it; None where an optional one is left out."""
    for other in row.alternatives:
        if fold(other.name) in options.choose:
            return other
    return None if row.optional and fold(row.name) in options.without else row


def _alternatives(parsed: tree.MethodTree, options: Options) -> dict[str, str]:
    """Every name a row with alternatives goes by -> the name of the one that is used: the steps may name either."""
    found = {}
    for phase in parsed.phases:
        for row in phase.rows:
            used = _chosen(row, options)
            if row.alternatives and used is not None:
                found |= {fold(one.name): fold(used.name) for one in (row, *row.alternatives)}
    return found


def _absent(parsed: tree.MethodTree, options: Options) -> set[str]:
    return {fold(row.name) for phase in parsed.phases for row in phase.rows if _chosen(row, options) is None}


def _adjusting(parsed: tree.MethodTree) -> set[str]:
    """The materials and phases that adjust steps use."""
    found: set[str] = set()
    for step in walk_steps(parsed.items):
        if step.verb != "adjust":
            continue
        for slot in ("X", "UP", "DOWN"):
            for item in step.slots[slot].items if slot in step.slots else ():
                if isinstance(item.what, tree.Text):
                    found.add(fold(item.what.text))
                elif isinstance(item.what, tree.PhaseName):
                    found.add(item.what.letter)
    return found


# ---- the header


def read_header(entries: tuple[tree.Entry, ...]) -> tuple[Header, list[Finding]]:
    fields: dict = {"materials": (), "yields": ()}
    findings: list[Finding] = []
    for entry in entries:
        READ.get(entry.key, _text)(entry, fields, findings)
    return Header(**fields), findings


FIELD = {"product": "product", "type": "type", "code": "code", "made for": "made_for", "written by": "written_by", "checked by": "checked_by"}


def _text(entry: tree.Entry, fields: dict, findings: list) -> None:
    if entry.key in FIELD:
        fields[FIELD[entry.key]] = entry.text or " ".join(getattr(word, "text", "") for word in entry.words)


def _revision(entry: tree.Entry, fields: dict, findings: list) -> None:
    for word in entry.words:
        if isinstance(word, tree.Quantity) and word.unit == "date":
            fields["revision_date"] = word.low
        elif isinstance(word, tree.Quantity):
            fields["revision"] = fields.get("revision") or word.low
        elif isinstance(word, tree.Text):
            fields["revision_reason"] = word.text
        elif word.text not in ("because", "on"):
            fields.setdefault("revision", word.text)


def _proven(entry: tree.Entry, fields: dict, findings: list) -> None:
    for word in entry.words:
        if isinstance(word, tree.Text):
            fields["proven_on"] = word.text
        elif isinstance(word, tree.Quantity):
            fields["proven_at"] = quantities.middle(word)
    findings += _path_slips(entry)


def _used(entry: tree.Entry, fields: dict, findings: list) -> None:
    fields["used_as"] = tuple(" ".join(getattr(word, "text", "") for word in group).lower() for group in entry.groups)


def _materials(entry: tree.Entry, fields: dict, findings: list) -> None:
    fields["materials"] = (*fields["materials"], *(word.text for word in entry.words if isinstance(word, tree.Text)))
    findings += _path_slips(entry)


def _path_slips(entry: tree.Entry) -> list[Finding]:
    return [slip(word.span, f"`{word.text}` lies outside the folder of this method", "Name a file in the same folder or below it.")
            for word in entry.words if isinstance(word, tree.Text) and not inside(word.text)]


def inside(path: str) -> bool:
    """Whether a written path stays in the method's folder."""
    pure = PurePosixPath(path.replace("\\", "/"))
    return not pure.is_absolute() and ".." not in pure.parts and ":" not in path


def _yield(entry: tree.Entry, fields: dict, findings: list) -> None:
    figure = next((word for word in entry.words if isinstance(word, tree.Quantity)), None)
    what = " ".join(word.text for word in entry.words if isinstance(word, tree.Word)) or "bulk"
    ends = quantities.exact(figure) if figure is not None and units.dimension(figure.unit) == "share" else None
    if ends is None:
        findings.append(slip(entry.span, "a yield is a range in per cent", "Write it as: yield bulk 97-99.5 %"))
    else:
        fields["yields"] = (*fields["yields"], (what, *ends, quantities.shown(figure)))


def _keeps(entry: tree.Entry, fields: dict, findings: list) -> None:
    fields["keeps"] = " ".join(quantities.shown(word) if isinstance(word, tree.Quantity) else word.text for word in entry.words)


READ = {"used as": _used, "revision": _revision, "proven": _proven, "materials": _materials, "yield": _yield, "bulk keeps": _keeps}


# ---- drafts


def is_draft(value) -> bool:
    """Whether some `?` is left anywhere in the tree."""
    if isinstance(value, (tree.Quantity, tree.Open)):
        return isinstance(value, tree.Open) or value.is_open
    if isinstance(value, tree.Tools):
        return "?" in value.names
    if isinstance(value, tree.Setting):
        return "?" in value.text
    if isinstance(value, tree.Step) and value.to_confirm:
        return True
    if isinstance(value, dict):
        return any(is_draft(part) for part in value.values())
    return isinstance(value, tuple) and any(is_draft(part) for part in value)


__all__ = ["Block", "Options", "Resolved", "Row", "Step", "inside", "resolve"]
