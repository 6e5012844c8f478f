"""Vessels, moulds and containers, and the overrides of material data above them."""

import re

from procsheet.findings import Finding
from procsheet.source import Span
from procsheet.syntax import entries, properties, slips, tree
from procsheet.syntax.lines import Line, Logical, join, unquoted
from procsheet.syntax.slips import slip

PLACE = re.compile(r'\s*(vessels?|moulds?|molds?|containers?)\s*:?\s+([^\s"]+)?\s*(?:"([^"]*)("?))?\s*(.*)$', re.IGNORECASE)
ALONE = re.compile(r"\s*(vessel|mould|mold|container)\s*$", re.IGNORECASE)
NAME = re.compile(r"[a-z][a-z0-9_]*(?:-[a-z0-9_]+)*")
OVERRIDE = re.compile(r'\s*override\s+"([^"]*)"\s+', re.IGNORECASE)
EXAMPLE = 'override "cetearyl alcohol" melts 52-54 °C because "lot sheet"'


def read_places(lines: list[Line]) -> tuple[list[tree.Place], list[Finding]]:
    places, findings = [], []
    for written in lines:
        made, wrong = _place(join([written]))
        findings += wrong[:1]
        for place in made:
            if any(known.name == place.name for known in places):
                findings.append(slip(place.span, f"`{place.name}` stands here twice",
                                     "One line for each vessel, mould and container, each with a name of its own."))
            else:
                places.append(place)
    return places, findings


def _place(line: Logical) -> tuple[list[tree.Place], list[Finding]]:
    match = PLACE.match(line.text)
    if ALONE.match(line.text) or match and not match[2]:
        kind = (match or ALONE.match(line.text))[1].lower()
        return [], [slip(line.whole, f"this {kind} has no name", f"Write it like: {kind} main")]
    if not match:
        return [], [slip(line.whole, f"`{line.text.strip().split()[0]}` is not understood among the vessels",
                         "Here stand lines such as `vessel main`; the steps begin below a line `method`.")]
    kind = match[1].lower().rstrip("s").replace("mold", "mould")
    span = line.span(match.start(2), match.end(2))
    several = [word for word in re.split(r"[\s,]+(?:and\s+)?", f"{match[2]} {match[5]}".strip()) if word]
    if len(several) > 1 and not match[3] and ("," in line.text or match[1].lower().endswith("s")):
        named = [word for word in several if NAME.fullmatch(word) and not slips.reserved(word)]
        return [tree.Place(kind, word, "", span) for word in named], [slip(line.whole, f"one {kind} a line",
                                                                           "Write it like: " + "; ".join(f"{kind} {word}" for word in several))]
    name, wrong = _name(match[2], kind, span)
    if match[3] is not None and not match[4]:
        wrong = wrong or [slips.unclosed(line.span(match.start(3) - 1, len(line.text)))]
    if match[5]:
        wrong = wrong or [slip(line.span(match.start(5), match.end(5)), f"`{match[5]}` does not fit behind the {kind}'s name",
                               f'One word names it; more is said in double quotes: {kind} {match[2]} "{match[5]}"')]
    return [tree.Place(kind, name, unquoted(line.raw[match.start(3):match.end(3)]) if match[3] else "", span)] if name else [], wrong


def _name(name: str, kind: str, span: Span) -> tuple[str, list[Finding]]:
    """The name, or what was meant by it, and what is wrong with it."""
    if slips.reserved(name):
        return "", [slips.key_word(span, name)]
    if NAME.fullmatch(name):
        return name, []
    meant = re.sub(r"[^a-z0-9-]", "", name.lower()).strip("-")
    meant = meant if meant[:1].isalpha() and not slips.reserved(meant) else ""
    return meant, [slip(span, f"`{name}` cannot be the name of a {kind}", f"A name is one word in small letters: {kind} {meant or 'main'}")]


def read_override(head: Line, lines: list[Line]) -> tuple[list[tree.Override], list[Finding]]:
    line = join([head, *lines])
    match = OVERRIDE.match(line.text)
    if not match:
        named = len(line.text.split()) > 1
        title = "the material of an override stands in double quotes" if named else "this override names no material"
        return [], [slip(line.whole, title, f"Write it like: {EXAMPLE}")]
    at = line.text.find(" because ", match.end())
    because = unquoted(line.raw[at + 9:]) if at >= 0 else ""
    body = line if at < 0 else line._replace(text=line.text[:at], raw=line.raw[:at])
    entry, findings = entries.read_entry(entries.from_(body, match.end()), properties.MATERIAL, "a material")
    if entry is not None and not entry.evidence:
        entry = entry._replace(evidence=tree.Evidence(because or "override in the method", "supplier" if because else "memory"))
    return ([tree.Override(unquoted(line.raw[match.start(1):match.end(1)]), entry, line.whole)] if entry else []), findings
