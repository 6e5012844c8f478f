"""A method file cut at its section words. A word that is nearly one is told once, and the lines below it are read as meant."""

import re
from difflib import get_close_matches
from typing import NamedTuple

from procsheet.findings import Finding
from procsheet.syntax import entries, heads, properties, words
from procsheet.syntax.formula import ROW_START
from procsheet.syntax.lines import Line, join
from procsheet.syntax.places import PLACE
from procsheet.syntax.slips import slip

SECTION = re.compile(r"\s*(phase|override|vessels?|moulds?|molds?|containers?|method|limits|as a material|pack|accept|stage)(?![\w-])",
                     re.IGNORECASE)
ALONE = ("method", "limits", "as a material")           # section words with nothing behind them
ORDER = ("header", "phase", "override", "vessel", "method", "limits", "as a material", "pack", "accept")
SAID = {"header": "the header", "phase": "the formula", "override": "the overrides", "vessel": "the vessels", "method": "the method",
        "limits": "the limits",
        "as a material": "`as a material`", "pack": "the packs", "accept": "what was accepted"}
NEAR = {"phase": "phase", "override": "override", "vessel": "vessel", "vessels": "vessel", "method": "method", "limits": "limits",
        "limit": "limits", "accept": "accept",
        "material": "as a material", "mould": "vessel", "container": "vessel", "pack": "pack"}
# what other papers call a section
MEANT = {
    **dict.fromkeys(("procedure", "process", "steps", "instructions", "manufacturing", "making"), "method"),
    **dict.fromkeys(("equipment", "kettles", "kettle", "beaker"), "vessel"),
    **dict.fromkeys(("specification", "specifications", "specs", "spec", "release", "quality", "controls", "tests"), "limits"),
    **dict.fromkeys(("packaging", "packing", "filling"), "pack"),
    **dict.fromkeys(("part", "group"), "phase"),
}
WRITTEN = {"method": "a line `method`", "limits": "a line `limits`", "phase": "phase A: water", "vessel": "vessel main",
           "pack": 'pack "75 mL tube"', "override": "override \"...\"",
           "accept": 'accept NAME because "..." by "..."', "as a material": "a line `as a material`", "header": ""}


class Section(NamedTuple):
    kind: str
    head: Line | None
    lines: list[Line]


def cut(lines: list[Line]) -> tuple[list[Section], list[Finding]]:
    """The sections in the order they are written. Below `method` only a section word at the margin ends the steps."""
    margin = min((line.indent for line in lines), default=0)
    out, findings = [Section("header", None, [])], []
    for line in lines:
        kind, line, wrong = _begins(line, out[-1].kind, margin)
        findings += wrong
        if kind == "late header":
            out[0].lines.append(line)
        elif kind and not (kind == "vessel" and out[-1].kind == "vessel"):
            out.append(Section(kind, line, []))
        else:
            out[-1].lines.append(line)
    told = {finding.at.span.line for finding in findings}      # a misspelt section word is told once
    return out, findings + [finding for finding in _misplaced(out) if finding.at.span.line not in told]


def _begins(line: Line, now: str, margin: int) -> tuple[str, Line, list[Finding]]:
    """The kind of section that begins with this line, '' for none; the line as it is read; and what is wrong with it."""
    if now == "method" and line.indent > margin:
        return "", line, []
    kind = _section(line, now, margin)
    if kind or now == "method" and SECTION.match(line.text):
        return kind, line, []
    if now == "header" and ROW_START.match(line.text):
        return "phase", line, []
    if now == "limits" and words.MEASURED.match(line.text.lstrip()):
        return "", line, []
    if now in ("limits", "as a material", "pack") and line.indent > margin or now == "header" and _is_header(line):
        return "", line, []
    if now in ("phase", "vessel", "override") and _is_row_or_place(line, now):
        return "", line, []
    if now not in ("header",) and line.indent == margin and _is_header(line) and not words.VERB.match(line.text.lstrip()):
        key = entries.row_of(join([line]), properties.HEADER)[0].name
        return "late header", line, [_slip(line, f"`{key}` belongs to the header, above the formula",
                                           "Move this line up to the product, type and basis.")]
    return _nearly(line, now)


def _section(line: Line, now: str, margin: int) -> str:
    match = SECTION.match(line.text)
    if not match:
        return ""
    word = words.plain(match[1])
    word = "vessel" if word.rstrip("s") in ("vessel", "mould", "mold", "container") else word
    if word == "stage":
        return "method" if now in ("header", "vessel", "phase", "override") else ""
    if word in ALONE and words.plain(line.text.rstrip(" :")) != word:
        return ""
    if line.indent > margin and now in ("method", "pack", "as a material", "limits"):
        return ""
    return word


def _is_header(line: Line) -> bool:
    return entries.row_of(join([line]), properties.HEADER) is not None


def _is_row_or_place(line: Line, now: str) -> bool:
    return bool(ROW_START.match(line.text) if now == "phase" else PLACE.match(line.text))


def _nearly(line: Line, now: str) -> tuple[str, Line, list[Finding]]:
    """A section word misspelt, or the first step without a line `method`."""
    first = re.match(r"\s*([^\W\d]+(?:-[^\W\d]+)*)", line.text)
    if first is None:
        return "", line, []
    word = first[1].lower()
    verb = words.VERB.match(line.text.lstrip())
    if verb and now in ("phase", "vessel", "override"):
        return "method", line, [_slip(line, "the steps begin below a line `method`", "Put a line `method` above this step.")]
    if verb or now == "method" and heads.is_head(line):
        return "", line, []
    found = get_close_matches(word, NEAR, n=1, cutoff=0.75) if len(word) > 2 else []
    kind = MEANT.get(word) or (NEAR[found[0]] if found else "")
    if not kind or kind == now and kind in ALONE or now == "header" and kind not in ("phase", "method",
                                                                                     "vessel") or now == "header" and _nearer_header(word,
                                                                                                                                     found):
        return "", line, []
    meant = found[0] if found and found[0] in ("mould", "container") else kind
    fix = f"Did you mean `{meant}`?" if found and word not in MEANT else f"Write {WRITTEN[kind]}"
    wrong = [_slip(line, f"`{line.raw[first.start(1):first.end(1)]}` is not a word that begins a part of the method", fix, first.start(1),
                   first.end(1))]
    return kind, _as_meant(line, kind, first), wrong


def _nearer_header(word: str, found: list[str]) -> bool:
    keys = [row.name for row in properties.HEADER]
    return bool(get_close_matches(word, keys, n=1, cutoff=0.75)) and get_close_matches(word, [*keys, *found], n=1, cutoff=0.7)[0] in keys


def _as_meant(line: Line, kind: str, first: re.Match) -> Line:
    """`phse A: water` as `phase A: water`, so that what follows is read."""
    if kind in ALONE:
        return line._replace(text=kind, raw=kind)
    rest = line.text[first.end():], line.raw[first.end():]
    return line._replace(text=" " * first.start(1) + kind + rest[0], raw=" " * first.start(1) + kind + rest[1])


def _misplaced(sections: list[Section]) -> list[Finding]:
    """Sections that stand below one they belong above."""
    findings, last = [], 0
    told = set()
    for section in sections[1:]:
        rank = ORDER.index(section.kind)
        if rank < last and section.kind not in told:
            told.add(section.kind)
            above = next(kind for kind in ORDER[rank + 1:] if any(other.kind == kind for other in sections[:sections.index(section)]))
            findings.append(_slip(section.head,
                                  f"{SAID[section.kind]} stand below {SAID[above]}" if section.kind not in ("phase", "method",
                                                                                                            "as a material") else
                                  f"{SAID[section.kind]} stands below {SAID[above]}",
                                  "Move it up. The order is: header, phases, overrides, vessels, method, limits, as a material, pack, accept."))
        last = max(last, rank)
    return findings


def _slip(line: Line, title: str, fix: str, start: int | None = None, end: int | None = None) -> Finding:
    text = line.text
    start = len(text) - len(text.lstrip()) if start is None else start
    return slip(join([line]).span(0, 1)._replace(line=line.number, column=start + 1, end=(len(text) if end is None else end) + 1), title,
                fix)
