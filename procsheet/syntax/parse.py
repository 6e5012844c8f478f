"""Text to tree. Every slip is told in one run, each once; good lines survive."""

from procsheet.source import Source
from procsheet.syntax import ending, formula, header, places, tree
from procsheet.syntax.blocks import Steps, read_steps
from procsheet.syntax.data import parse_data, parse_plant
from procsheet.syntax.lines import read_lines
from procsheet.syntax.parsed import Parsed
from procsheet.syntax.sections import Section, cut
from procsheet.syntax.words import Known, known


def parse_method(source: Source) -> Parsed:
    """The tree of a method file, with every slip in it."""
    sections, misplaced = cut(read_lines(source))
    entries, wrong, tried = header.read_header(sections[0].lines)
    made = {kind: [] for kind in READERS}
    findings = list(wrong)
    for section in sections[1:]:
        if section.kind != "method":
            items, wrong = READERS[section.kind](section)
            made[section.kind] += items
            findings += wrong
    steps = _steps(sections, _known(made))
    findings += steps.findings
    told = {finding.at.span.line for finding in misplaced}      # a line is told once
    findings = [*misplaced, *(finding for finding in findings if finding.at.span.line not in told),
                *header.missing(source, tried | _written(sections))]
    parsed = tree.MethodTree(source.name, tuple(entries), *(tuple(made[kind]) for kind in ("phase", "override", "vessel")),
                             tuple(steps.top),
                             *(tuple(made[kind]) for kind in ("limits", "as a material", "pack", "accept")),
                             any(section.kind == "method" for section in sections), tuple(steps.broken))
    return Parsed(parsed, tuple(sorted(findings, key=lambda finding: (finding.at.span.line, finding.at.span.column))))


def _known(made: dict[str, list]) -> Known:
    rows = [row for phase in made["phase"] for row in phase.rows]
    names = [name for row in rows for name in (row.name, *(other.name for other in row.alternatives))]
    return known(names, (phase.letter for phase in made["phase"]), (place.name for place in made["vessel"]))


def _steps(sections: list[Section], names: Known) -> Steps:
    """All steps, from the line `method` or, where that is missing, from the first of them."""
    lines = [line for section in sections if section.kind == "method"
             for line in ([] if section.head.text.strip(" :").lower() == "method" else [section.head]) + section.lines]
    return read_steps(lines, names)


def _written(sections: list[Section]) -> set[str]:
    """What of the compulsory things was at least begun."""
    kinds = {section.kind for section in sections}
    rows = any(section.lines or section.head.text.lstrip()[:5].lower() != "phase" for section in sections if section.kind == "phase")
    steps = any(section.lines or section.head.text.strip(" :").lower() != "method" for section in sections if section.kind == "method")
    return {key for key, begun in (("rows", rows), ("vessel", "vessel" in kinds), ("method", steps)) if begun}


READERS = {
    "phase": lambda section: formula.read_phase(section.head, section.lines),
    "override": lambda section: places.read_override(section.head, section.lines),
    "vessel": lambda section: places.read_places([section.head, *section.lines]),
    "limits": lambda section: ending.read_limits(section.lines),
    "as a material": lambda section: ending.read_as_material(section.lines),
    "pack": lambda section: ending.read_pack(section.head, section.lines),
    "accept": lambda section: ending.read_accept(section.head, section.lines),
}

__all__ = ["Parsed", "parse_data", "parse_method", "parse_plant"]
