"""What stands below the steps: release limits, data as a material, packs, and what was signed for."""

import re

from procsheet.findings import Finding
from procsheet.syntax import answers, entries, misfits, properties, slips, tokens, tree
from procsheet.syntax.build import Piece, UnexpectedInput, build
from procsheet.syntax.figures import Badly
from procsheet.syntax.lines import Line, Logical, join, unquoted
from procsheet.syntax.slips import slip

ACCEPT = re.compile(r'\s*accept\s+([\w-]+)(?:\s+for\s+"([^"]*)")?(?:\s+in\s+([\w-]+))?'
                    r'(?:\s*,?\s*because\s+"([^"]*)")?(?:\s*,?\s*by\s+"([^"]*)")?\s*$', re.IGNORECASE)
ACCEPT_LIKE = 'Write it like: accept carbomer-shear for "carbomer" in milling because "trial 41" by "R.T."'
PACK = re.compile(r"\s*pack\b\s*:?\s*(.*)$", re.IGNORECASE)
PART = properties.Property("part", '91 % product, 9 %  propellant, or 1 part "powder"', "")
PER = properties.Property("per", "24 per case", "")


# ---- limits


def read_limits(lines: list[Line]) -> tuple[list[tree.Limit], list[Finding]]:
    limits, findings = [], []
    for line in entries.logical(lines):
        limit, wrong = read_limit(line)
        findings += wrong[:1]
        if limit is not None:
            limits.append(limit)
    return limits, findings


def read_limit(line: Logical) -> tuple[tree.Limit | None, list[Finding]]:
    try:
        words, wrong = tokens.limit(line)
        if not words or words[0].type != "PROPERTY":
            return None, [_no_property(line)]
        measure, pieces = build(words, line, "limit")
    except Badly as error:
        return None, [slips.badly(error)]
    except UnexpectedInput as error:
        return None, wrong or [_unexpected(error, line)]
    first, *rest = answers.with_targets([Piece("", measure, measure.span), *pieces])
    made = []
    for piece in rest:
        clause, finding = answers.clause_of(piece._replace(opener="at") if piece.opener == "measured at" else piece)
        wrong += [finding] if finding else []
        made += [clause] if clause else []
    target = first.value
    if target.target is None and not wrong and not any(clause.kind in ("cycles", "through") for clause in made):
        wrong.append(misfits.no_target(target, "for example "))
    wrong += [finding] if (finding := misfits.wrong_target(target)) else []
    return tree.Limit(target, tuple(made), line.remark, line.whole), wrong


def _unexpected(error, line: Logical) -> Finding:
    bad = error.token
    if bad.type in ("NAME", "STRAY"):
        return misfits.unknown_word(line.span(bad.start_pos, bad.end_pos), line.raw[bad.start_pos:bad.end_pos], None)
    return slips.unexpected(error, line)


def _no_property(line: Logical) -> Finding:
    at = len(line.text) - len(line.text.lstrip())
    word = re.split(r"[\s:]", line.text[at:])[0] or line.text[at:at + 1]
    return misfits.no_property(line.span(at, at + len(word)), word)


# ---- as a material, packs


def read_as_material(lines: list[Line]) -> tuple[list[tree.Entry], list[Finding]]:
    return entries.read_block(lines, properties.MATERIAL, "a material")


def read_pack(head: Line, lines: list[Line]) -> tuple[list[tree.Pack], list[Finding]]:
    line = join([head])
    title = unquoted(line.raw[PACK.match(line.text).start(1):])
    made, findings = [], []
    for under in entries.logical(lines):
        entry, wrong = _pack_line(under)
        findings += wrong[:1]
        if entry is not None:
            made.append(entry)
    if not title:
        findings.insert(0, slip(line.whole, "this pack has no name", 'Write it like: pack "75 mL tube"'))
    return [tree.Pack(title, tuple(made), line.whole)], findings


def _pack_line(line: Logical) -> tuple[tree.Entry | None, list[Finding]]:
    if line.text.lstrip()[:1] not in "0123456789?.":
        return entries.read_entry(line, properties.PACK, "a pack")
    return entries.value(line, PER if re.match(r"\s*[\d?]+\s+(?:per|a|in\s+a)\s+", line.text) else PART, 0, 0)


# ---- what was signed for


def read_accept(head: Line, lines: list[Line]) -> tuple[list[tree.Accept], list[Finding]]:
    line = join([head, *lines])
    match = ACCEPT.match(line.text)
    if not match:
        return [], [slip(line.whole, _what_is_wrong(line.text), ACCEPT_LIKE)]
    if not match[4]:
        return [], [slip(line.whole, "this accept does not say why", ACCEPT_LIKE)]
    if not match[5]:
        return [], [slip(line.whole, "this accept does not say who signs for it", ACCEPT_LIKE)]
    texts = [" ".join(line.raw[match.start(part):match.end(part)] .split()) if match[part] else "" for part in (1, 2, 3, 4, 5)]
    return [tree.Accept(*texts, line.whole)], []


def _what_is_wrong(text: str) -> str:
    if text.count('"') % 2:
        return "a quote is opened in this accept and not closed"
    if re.search(r"\bby\b.*\bbecause\b", text):
        return "in an accept the reason stands first, then who signs"
    for word, what in (("for", "the material"), ("because", "the reason"), ("by", "the initials")):
        if re.search(rf'\b{word}\s+[^"\s]', text):
            return f"{what} of an accept stands in double quotes"
    return "this accept is not understood"
