"""The phases of a method and their rows: an amount, qualifiers, and the name to the end of the line."""

import re

from procsheet.findings import Finding
from procsheet.syntax import slips, tree
from procsheet.syntax.build import UnexpectedInput, build
from procsheet.syntax.figures import Badly, Number, Token, figure
from procsheet.syntax.lines import Line, Logical, join, unquoted
from procsheet.syntax.slips import slip
from procsheet.syntax.tokens import skip
from procsheet.syntax.values import CALLED, dimension, written
from procsheet.syntax.words import plain

PHASE = re.compile(r"\s*phase\s+(\w+)\s*(in\s+the\s+pack)?\s*(?:[:.)]|-|–)?\s*(.*)$", re.IGNORECASE)
ROW_START = re.compile(r"\s*(?:[\d?.]|to\s+[\d?]|as\s+needed|q\.?\s?s\b|about\s+\d|hold\s+back|or\s+[\d?]|~|ca\.|approx)", re.IGNORECASE)
ROW_WORD = re.compile(r"(?:approx\.|ca\.|~)(?=\s*[\d?])|(as\s+needed|q\.?\s?s\.?(?=[\s,])|to(?=\s+[\d?])|(?:about|approximately|circa)(?=\s+[\d?])|"
                      r"at\s+most(?=\s+[\d?])|within(?=\s+[\d?])|as\s+pure|optional|hold\s+back|or(?=\s+[\d?]))(?![\w-])", re.IGNORECASE)
ROW_KIND = {"as needed": "AS_NEEDED", "to": "TO", "at most": "AT_MOST", "within": "WITHIN", "as pure": "AS_PURE", "optional": "OPTIONAL",
            "hold back": "HOLD_BACK",
            "or": "OR", **dict.fromkeys(("about", "approximately", "circa", "approx.", "ca.", "~"), "ABOUT")}
QUALIFIERS = ("to", "about", "at", "within", "as", "optional", "or", "hold", "q.s.", "qs")
AMOUNTS = ("share", "volume share", "density", "mass", "volume", "parts", "drops", "activity", "open")
ROW = ("Write the amount first: 5.00 %  glycerin. Without a figure: `? %  glycerin`, `as needed, at most 0.5 %  citric acid` "
       "or `to 100 %  purified water`.")
# what a row may begin with elsewhere, and how it is written here
ROWS_MEANT = {
    **dict.fromkeys(("balance", "bal.", "remainder", "ad", "up", "make", "qsp", "rest"),
                    "The row that closes the batch is written: to 100 %  purified water"),
    **dict.fromkeys(("trace", "few", "some", "little", "pinch"), "An open dose is written `? %`, a small one in drops: 3 drops  rose oil"),
    **dict.fromkeys(("max", "max.", "at", "<", "≤", "<="), "A corrector with a cap is written: as needed, at most 0.3 %  citric acid"),
    **dict.fromkeys(("shade", "shades", "variant", "colour", "color"),
                    "One file holds one shade. Write a file for each, and the common part as a method of its own that they use as a material."),
    "optional": "`optional` stands behind the amount: 0.20 % optional  mica",
    "within": "The amount comes first: 5.00 % within 4-6 %  cetearyl alcohol",
}


def read_phase(head: Line, lines: list[Line]) -> tuple[list[tree.Phase], list[Finding]]:
    """A phase with its rows; rows before the first phase are the phase `all`, and `head` is the first of them."""
    line = join([head])
    if not re.match(r"\s*phase\b", head.text, re.IGNORECASE):
        rows, wrong = read_rows([head, *lines])
        return [tree.Phase("all", "", False, tuple(rows), line.whole)], wrong
    rows, wrong = read_rows(lines)
    match = PHASE.match(head.text)
    if not match:
        return [tree.Phase("?", "", False, tuple(rows), line.whole)], [slip(line.whole, "this phase has no letter",
                                                                            "Write it like: phase A: water"), *wrong]
    letter, findings = _letter(match, line)
    title = unquoted(head.raw[match.start(3):]).strip(": ") if match[3] else ""
    return [tree.Phase(letter, title, bool(match[2]), tuple(rows), line.whole)], findings + wrong


def _letter(match: re.Match, line: Logical) -> tuple[str, list[Finding]]:
    """The phase's letter, and what is wrong with it; a published phase 1 is read as A."""
    letter = match[1]
    if re.fullmatch(r"[A-Z][0-9]?|all", letter):
        return letter, []
    span = line.span(match.start(1), match.end(1))
    if letter.isdigit() and 0 < int(letter) < 27:
        meant = chr(64 + int(letter))
        return meant, [slip(span, f"`{letter}` is not a phase: a phase is a capital letter",
                            f"A published phase {letter} becomes {meant}: phase {meant}")]
    if re.fullmatch(r"[a-z][0-9]?", letter):
        return letter.upper(), [slip(span, f"`{letter}`: a phase is a capital letter", f"Write phase {letter.upper()}.")]
    return letter, [slip(span, f"`{letter}` is not a phase",
                         "A phase is a capital letter and perhaps a number, and its title follows: phase A: water, phase B2: pigments")]


# ---- rows


def read_rows(lines: list[Line]) -> tuple[list[tree.Row], list[Finding]]:
    rows: list[tree.Row] = []
    findings: list[Finding] = []
    for written_line in lines:
        line = join([written_line])
        made, wrong = read_row(line)
        findings += wrong[:1]
        if made is None:
            continue
        if isinstance(made, tree.Row):
            rows.append(made)
        elif not rows:
            findings.append(slip(line.whole, f"`{made[0]}` has no row above it", "Put it below the row it belongs to."))
        elif made[0] == "hold back":
            rows[-1] = rows[-1]._replace(hold_back=(*rows[-1].hold_back, made[1]))
        else:
            rows[-1] = rows[-1]._replace(alternatives=(*rows[-1].alternatives, made[1]))
    return rows, findings


def read_row(line: Logical):
    """A row, ("or", row) or ("hold back", figure); None where it cannot be read. And what is wrong with it."""
    try:
        words, wrong = row_words(line)
        made = build(words, line, "row")
    except Badly as error:
        return None, [slips.badly(error)]
    except UnexpectedInput as error:
        return None, wrong or [_bad_row(error, line)]
    if isinstance(made, tree.Row):
        return made, wrong + _row_slips(made)
    return made, wrong + (_row_slips(made[1]) if isinstance(made[1], tree.Row) else _unit_slips([made[1]]))


def row_words(line: Logical) -> tuple[list, list[Finding]]:
    """The words of a row for the grammar: figures and qualifiers, then the name as one TEXT."""
    text, at, out, wrong = line.text, 0, [], []
    while (at := skip(text, at)) < len(text):
        if text[at] == ",":
            at += 1
            continue
        word, more = _row_word(line, at, out)
        wrong += more
        if word is None:
            out.append(Token("TEXT", line.raw[at:].strip(), at, len(text)))
            break
        out.append(word)
        at = word.end_pos
    return out, wrong


def _row_word(line: Logical, at: int, out: list):
    wrong: list[Finding] = []
    if not out or out[-1].type in ("TO", "ABOUT", "AT_MOST", "WITHIN", "OR", "HOLD_BACK"):
        found, wrong = _figure(line, at)
        if found is not None and found.type == "OPEN":
            found = Token("QTY", Number("?", "?", ""), found.start_pos, found.end_pos)
        if found is not None and found.type == "QTY":
            return found, wrong
    if match := ROW_WORD.match(line.text, at):
        return Token(ROW_KIND.get(plain(match.group()), "QS"), plain(match.group()), at, match.end()), wrong
    return None, wrong


def _figure(line: Logical, at: int):
    """A figure, one that can be read two ways told and read as what was most likely meant."""
    try:
        found = figure(line, at)
    except Badly as error:
        if error.kind == "units":
            raise
        return figure(slips.mended(line, error), at), [slips.badly(error)]
    if found is not None and found.type == "QTY" and not found.value.unit:
        start = skip(line.text, found.end_pos)
        match = slips.UNIT_WORD.match(line.text, start)
        meant = slips.unit_meant(match.group(), amounts=True) if match else ""
        if meant and line.text[match.end():].strip():
            return (Token("QTY", Number(found.value.low, found.value.high, meant), at, match.end()),
                    [slips.unknown_unit(line.span(start, match.end()), match.group(), found.value.low, meant)])
    return found, []


def _bad_row(error, line: Logical) -> Finding:
    start = skip(line.text, 0)
    first = line.text[start:].split(" ")[0]
    bad = error.token
    if bad.type == "UNCLOSED":
        return slips.unclosed(line.span(bad.start_pos, bad.end_pos))
    if bad.type in ("TEXT", "OPTIONAL", "AT_MOST", "WITHIN", "AS_PURE") and bad.start_pos == start:
        known = ROWS_MEANT.get(first.lower().strip(":,")) or (ROWS_MEANT["max"] if first[0] in "<≤" else "")
        first = "at most" if line.text.startswith("at most", start) else first
        end = start + len(first)
        if known:
            return slip(line.span(start, end), f"`{first}` does not begin a row of the formula", known)
        return slip(line.span(start, end), f"a row of the formula begins with its amount, not with `{first}`", _amount_first(line) or ROW)
    if bad.type == "$END":
        return slip(line.whole, "this row has no material" if "TEXT" in error.accepts else "this row ends too early",
                    "Write the name behind the amount: 5.00 %  glycerin")
    if bad.type == "TEXT":
        return slip(line.span(bad.start_pos, bad.end_pos), f"`{line.raw[bad.start_pos:bad.end_pos]}` does not fit here",
                    slips.fitting(error.accepts))
    return slips.unexpected(error, line)


def _amount_first(line: Logical) -> str:
    """`glycerin 5 %` turned round."""
    part = re.match(r"\s*(\d+)/(\d+)\s*(%|g|kg|mL)", line.raw)
    if part and int(part[2]):
        return f"Write it with a point: {int(part[1]) / int(part[2]):.4g} {part[3]}"
    match = re.match(r"\s*(.*\S)\s+(\d[\d.]*(?:\s*[-–]\s*[\d.]+)?\s*(?:%|g|kg|mL|parts))\s*$", line.raw)
    return f"Write the amount first: {match[2]}  {match[1]}" if match else ""


def _row_slips(row: tree.Row) -> list[Finding]:
    """Figures without unit or with one that is no amount, and names that begin with a qualifier."""
    findings = _unit_slips([row.amount, row.about, row.at_most, row.within], "to " if row.kind == "closing" else "")
    words = row.name.split()
    first = words[0].lower().rstrip(",") if words else ""
    if not words:
        findings.append(slip(row.name_span, "this row has no material", "Write the name behind the amount: 5.00 %  glycerin"))
    elif first in QUALIFIERS and row.name_span.end - row.name_span.column == len(row.name):
        findings.append(slip(row.name_span, f"the name of this material begins with `{words[0]}`, a word of the formula",
                             "Write the qualifier with its figure, as in `5.00 % within 4-6 %`; "
                             f'a name that really begins so stands in double quotes: "{row.name}"'))
    elif row.name.count('"') % 2:
        findings.append(slips.unclosed(row.name_span))
    return findings


def _unit_slips(figures: list, before: str = "") -> list[Finding]:
    out = []
    for amount in figures:
        if amount is None or dimension(amount) in AMOUNTS and not (amount.is_open and not amount.unit):
            continue
        shown = written(amount)
        if not amount.unit:
            out.append(slip(amount.span, f"`{shown}` has no unit", f"Write {before}{shown} %, {before}{shown} g or {before}{shown} mL."))
        else:
            out.append(slip(amount.span, f"`{shown}` is {CALLED.get(dimension(amount), 'not an amount')}, not an amount",
                            "An amount is written in %, g, kg, mL, L, parts or drops."))
    return out
