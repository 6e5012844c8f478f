"""The stages, in order: text, tree, method, graph, plan, trace, findings. This page is the table of contents."""

from pathlib import Path
from typing import NamedTuple

from procsheet import acceptance, carried, gather, settings
from procsheet.acceptance import Signed
from procsheet.findings import Finding
from procsheet.followed import findings, follow
from procsheet.graph.courses import MOST, choices, courses
from procsheet.model.library import shipped
from procsheet.model.files import Files, read_source
from procsheet.model.material import fold
from procsheet.model.method import Method
from procsheet.model.resolve import Options, resolve
from procsheet.plan.plan import Order
from procsheet.plan.plant import NO_PLANT, Plant, read_plant
from procsheet.rules import RULES
from procsheet.rules.batch import Batch
from procsheet.rules.scale import in_fahrenheit, is_fahrenheit
from procsheet.source import Source
from procsheet.syntax import tree
from procsheet.syntax.parse import parse_method, parse_plant

STRUCTURE = {"never-added", "content-lost", "hold-back", "used-twice", "empty-vessel", "which-row", "batch-weight"}
SUMS = {"formula-total", "published-figure", "two-closing-rows"}
SHARES = {"acid-into-water", "alkali-assay", "allantoin-solubility", "balm-no-water", "batch-weight", "bead-chelator",
          "butter-grain", "carbomer-salt", "electrolyte-needed", "emulsifier-ratio", "internal-ratio", "limit-of-use",
          "lye-excess", "niacinamide-ph", "no-salt-before-emulsify", "oil-phase-min", "oil-rheology-only",
          "preservative-splits-emulsion", "vitamin-c-ph-air"}    # what judges by the share of a row


class Request(NamedTuple):
    """What is asked of a method: a size, a plant, and what whoever makes the papers decided."""

    order: Order = Order()
    plant: Path | None = None
    options: Options = Options()


class Compiled(NamedTuple):
    """A method checked: its batches, one a course, the findings in order, and the exceptions that were signed for."""

    source: Source
    tree: tree.MethodTree
    method: Method
    batches: tuple[Batch, ...]
    findings: tuple[Finding, ...]
    signed: tuple[Signed, ...]
    plant: Plant
    written: Method | None = None       # the method as written, where it was carried to another plant
    files: dict[str, Path] = {}         # the files it names that were read

    @property
    def stops(self) -> bool:
        return any(finding.stops for finding in self.findings)

    @property
    def fixed(self) -> dict[int, int]:
        """Steps that a rule keeps behind another, number by number; worked out where it is asked for, since it takes a check a pair."""
        from procsheet.reasons import fixed, reasons
        return fixed(reasons(self.batch)) if self.batch else {}

    @property
    def batch(self) -> Batch | None:
        """The first course: the one that is printed."""
        return self.batches[0] if self.batches else None


def compile_method(source: Source, folder: Path, request: Request = Request()) -> Compiled:
    """Check a method. `folder` is where it stands: its materials, plants and other methods are looked for there, and nowhere else.

    Returns everything that was found; a mistake in the method is never an exception.
    """
    parsed = parse_method(source)
    files = Files(folder)
    library, made = files.library(parsed.tree)
    plant, wrong = _plant(parsed.tree, files, request)
    own = settings.blocks(plant, library)
    always = [*parsed.findings, *wrong, *settings.wrong(own, [rule.NAME for rule in RULES])]
    by_course: list[tuple[tuple[str, ...], list[Finding]]] = []
    batches: list[Batch] = []
    first: Method | None = None
    as_written: Method | None = None
    variants = list(_variants(parsed.tree, request.options))
    for label, options in variants:
        resolved = resolve(parsed.tree, library, options, made)
        first, as_written = first or resolved.method, as_written or resolved.method
        if not label:
            always += [*files.findings, *resolved.findings]
        if not _sound(parsed.tree, resolved.method):
            break
        method = _carried(resolved.method, files, parsed.tree, request)
        first = method if first is resolved.method else first
        ways = courses(method, decided(method, plant, options))
        for course in ways if not label or len(ways) * len(variants) <= MOST else ways[:1]:
            batch = follow(method, course, plant, request.order)
            batches += [batch] if not label else []
            by_course.append(((*label, *course.name), findings(batch)))
    found = _believable(gather.merge([((), always), *by_course]), parsed.tree)
    found = settings.set_levels(found, own)
    if is_fahrenheit(source.text):
        found = list(map(in_fahrenheit, found))
    names = {step.number: step.name for step in first.steps() if step.name} if first else {}
    left, signed = acceptance.settle(found, parsed.tree.accepts, names)
    return Compiled(source, parsed.tree, first, tuple(batches), tuple(gather.fold(left)), tuple(signed), plant, as_written or first, dict(files.named))


def proven(method: Method, files: Files, parsed: tree.MethodTree, options: Options = Options()) -> Batch | None:
    """The batch as it was proven: at its basis, or the size it was proven at, in the plant it was proven on; None where none is named or can be read."""
    written, _ = files.plant_source(None, parsed)
    if written is None:
        return None
    bench, _ = read_plant(parse_plant(written).tree)
    course = courses(method, decided(method, bench, options))[0]
    return follow(method, course, bench, Order(mass=method.header.proven_at))


def _carried(method: Method, files: Files, parsed: tree.MethodTree, request: Request) -> Method:
    """In another plant than it was proven on, a speed in turns is the tip speed it had there."""
    if request.plant is None or not carried.in_turns(method):
        return method
    before = proven(method, files, parsed, request.options)
    return carried.carried(method, before.trace) if before is not None and before.plan.plant.name != "" and not _same(request.plant, files, parsed) else method


def _same(plant: Path, files: Files, parsed: tree.MethodTree) -> bool:
    written, _ = files.plant_source(None, parsed)
    return written is not None and written.text == read_source(plant, str(plant)).text


def _sound(parsed: tree.MethodTree, method: Method) -> bool:
    return bool(method.rows and method.items)


def _plant(parsed: tree.MethodTree, files: Files, request: Request) -> tuple[Plant, list[Finding]]:
    """The plant that was asked for, else the one the method was proven on."""
    written, findings = files.plant_source(request.plant, parsed)
    if written is None:
        return NO_PLANT, findings
    read = parse_plant(written)
    plant, wrong = read_plant(read.tree)
    return plant, [*findings, *read.findings, *wrong]


def _variants(parsed: tree.MethodTree, options: Options):
    """The formula as asked for, and once without each optional row, once with each alternative that is not decided."""
    yield (), options
    for phase in parsed.phases:
        for row in phase.rows:
            if row.optional and fold(row.name) not in options.without:
                yield (f"without {row.name}",), options._replace(without=options.without | {fold(row.name)})
            for other in row.alternatives:
                if not options.choose & {fold(one.name) for one in (row, *row.alternatives)}:
                    yield (f"with {other.name}",), options._replace(choose=options.choose | {fold(other.name)})


def decided(method: Method, plant: Plant, options: Options) -> dict:
    """The forks that are decided already: by the plant, or by whoever makes the papers."""
    fixed = {}
    for fork in choices(method):
        if fork.by == "plant" and plant is not NO_PLANT:
            fixed[fork.key] = 0 if _has(plant, fork.wants) else 1
        elif fork.by == "papers":
            chosen = next((index for index, label in enumerate(fork.labels) if fold(label) in options.choose), None)
            if chosen is not None:
                fixed[fork.key] = chosen
    return fixed


def _has(plant: Plant, what: str) -> bool:
    """Whether a plant has vacuum, nitrogen, a tool or a device."""
    word = fold(what)
    return any(word == "vacuum" and kettle.vacuum is not None or word == "nitrogen" and kettle.nitrogen or any(fold(tool.name) == word for tool in kettle.tools)
               or word in ("load cells",) and kettle.load_cells is not None for kettle in plant.kettles)


def _believable(findings: list[Finding], parsed: tree.MethodTree) -> list[Finding]:
    """A broken line or sum must not cause other findings: what only follows from it, or lies behind it, is left out."""
    slips = {finding.at.span.line for finding in findings if finding.name == "not-understood" and finding.at.span.file == parsed.file}
    above = max([row.span.line for phase in parsed.phases for row in phase.rows] + [place.span.line for place in parsed.places], default=0)
    below = min((one.span.line for one in (*parsed.limits, *parsed.packs, *parsed.accepts, *parsed.as_material)), default=1 << 30)
    formula = any(phase.span.line <= line <= above for line in slips for phase in parsed.phases[:1])
    steps = [span.line for span in parsed.broken] + [line for line in slips if above < line < below]
    if any(finding.name == "formula-total" and finding.stops for finding in findings):
        findings = [finding for finding in findings if finding.name not in SHARES]
    if not formula and not steps:
        return findings
    first = 0 if formula else min(steps)
    return [finding for finding in findings if finding.name == "not-understood" or not _follows(finding, first, formula)]


def _follows(finding: Finding, first: int, formula: bool) -> bool:
    """Whether a finding may only be there because a line is broken: sums and accounts, and what is traced from that line on."""
    if finding.name in STRUCTURE or finding.name == "accept":
        return True
    if finding.name in SUMS:
        return formula
    return finding.at.span.line >= first and finding.level in ("STOP", "WARN") and finding.step > 0 or formula and finding.step > 0


__all__ = ["Compiled", "Request", "compile_method", "shipped"]
