"""Text to tree: the sections of a file, in the order they are written. Every slip is told in one run; good lines survive."""

import re
from typing import NamedTuple

from procsheet.findings import Finding
from procsheet.source import Source, Span
from procsheet.syntax import entries, forms, properties, slips, steps, tokens, tree
from procsheet.syntax.build import UnexpectedInput, build
from procsheet.syntax.lines import Line, Logical, join, read_lines

PHASE = re.compile(r"\s*phase\s+([A-Za-z]\w*)\s*(in\s+the\s+pack)?\s*(?::\s*(.*))?$", re.IGNORECASE)
PLACE = re.compile(r'\s*(vessel|mould|mold|container)\s+([^\s"]+)?\s*(?:"([^"]*)"?)?\s*(.*)$', re.IGNORECASE)
ACCEPT = re.compile(r'\s*accept\s+([\w-]+)(?:\s+for\s+"([^"]*)")?(?:\s+in\s+([\w-]+))?(?:\s+because\s+"([^"]*)")?(?:\s+by\s+"([^"]*)")?\s*$', re.IGNORECASE)
OVERRIDE = re.compile(r'\s*override\s+"([^"]*)"\s+', re.IGNORECASE)
PACK = re.compile(r'\s*pack\b\s*(.*)$', re.IGNORECASE)
SECTION = re.compile(r"\s*(phase|override|vessel|mould|mold|container|method|limits|as a material|pack|accept|stage)(?![\w-])", re.IGNORECASE)
ROW_START = re.compile(r"\s*(?:[\d?.]|to\s+[\d?]|as\s+needed|q\.?\s?s\b|about\s+\d|hold\s+back|or\s+[\d?])", re.IGNORECASE)
ORDER = ("header", "phase", "override", "vessel", "method", "limits", "as a material", "pack", "accept")


class Parsed(NamedTuple):
    """A tree and everything that was wrong with the text."""

    tree: "tree.MethodTree | tree.DataTree"
    findings: tuple[Finding, ...]


class Section(NamedTuple):
    kind: str
    head: Line | None
    lines: list[Line]


def sections(lines: list[Line]) -> list[Section]:
    """Cut a method file at its section words. Below `method` only a section word at the margin ends the steps."""
    out = [Section("header", None, [])]
    for line in lines:
        kind = _section(line, out[-1].kind)
        if kind:
            out.append(Section(kind, line, []))
        else:
            out[-1].lines.append(line)
    return out


def _section(line: Line, now: str) -> str:
    match = SECTION.match(line.text)
    if not match:
        return "phase" if now in ("header",) and ROW_START.match(line.text) else ""
    word = tokens.plain(match[1])
    word = {"mould": "vessel", "mold": "vessel", "container": "vessel"}.get(word, word)
    if word == "stage":
        return "method" if now in ("vessel", "phase", "override") else ""
    if word == "method" and line.text.strip().lower() != "method":
        return ""
    if now == "method" and line.indent > 0:
        return ""
    if now in ("pack", "as a material") and line.indent > 0:
        return ""
    if word == "limits" and line.text.strip().lower() != "limits":
        return ""
    return word


def parse_method(source: Source) -> Parsed:
    """The tree of a method file, with every slip in it."""
    findings: list[Finding] = []
    made: dict[str, list] = {"phase": [], "override": [], "vessel": [], "method": [], "limits": [], "as a material": [], "pack": [], "accept": []}
    header: list[tree.Entry] = []
    has_method = False
    for section in sections(read_lines(source)):
        if section.kind == "header":
            header, wrong = _header(section.lines)
        elif section.kind == "method":
            has_method = True
            lines = section.lines if section.head is None or section.head.text.strip().lower() == "method" else [section.head, *section.lines]
            items, wrong = steps.read_steps(lines)
            made["method"] += items
        else:
            items, wrong = READERS[section.kind](section)
            made[section.kind] += items
        findings += wrong
    parsed = tree.MethodTree(source.name, tuple(header), tuple(made["phase"]), tuple(made["override"]), tuple(made["vessel"]), tuple(made["method"]),
                             tuple(made["limits"]), tuple(made["as a material"]), tuple(made["pack"]), tuple(made["accept"]), has_method)
    return Parsed(parsed, tuple(findings))


# ---- header


def _header(lines: list[Line]) -> tuple[list[tree.Entry], list[Finding]]:
    read, findings = [], []
    for line in entries.logical(lines):
        entry, wrong = entries.read_entry(line, properties.HEADER, "the header")
        findings += wrong or (_twice(entry, read) if entry else [])
        if entry is not None:
            read.append(entry)
    return read, findings


def _twice(entry: tree.Entry, read: list[tree.Entry]) -> list[Finding]:
    if entry.key in ("materials", "yield", "bulk keeps") or all(known.key != entry.key for known in read):
        return []
    return [slips.slip(entry.key_span, f"`{entry.key}` stands twice in the header", "Keep one of the two.")]


# ---- formula


def _phase(section: Section) -> tuple[list[tree.Phase], list[Finding]]:
    head, lines, findings = section.head, section.lines, []
    match = PHASE.match(head.text)
    line = join([head])
    if not match and SECTION.match(head.text):
        word = head.text.split()[1] if len(head.text.split()) > 1 else ""
        fix = "Write it as: phase A: water"
        return [], [slips.slip(line.whole, f"the phase `{word}` has no letter" if word else "this phase has no letter", fix)] + _rows(lines)[1]
    if not match:                                           # rows before the first phase
        letter, title, in_pack, lines = "all", "", False, [head, *lines]
    else:
        letter, in_pack, title = match[1], bool(match[2]), head.raw[match.start(3):].strip() if match[3] else ""
        findings += _letter(letter, match, line)
    rows, wrong = _rows(lines)
    return [tree.Phase(letter, title, in_pack, tuple(rows), line.whole)], findings + wrong


def _letter(letter: str, match: re.Match, line: Logical) -> list[Finding]:
    if re.fullmatch(r"[A-Z][0-9]?|all", letter):
        return [] if match[3] is not None or ":" in line.text else []
    start = line.text.index(letter)
    return [slips.slip(line.span(start, start + len(letter)), f"`{letter}` is not a phase", "A phase is a capital letter and perhaps a number: A, B2.")]


def _rows(lines: list[Line]) -> tuple[list[tree.Row], list[Finding]]:
    rows: list[tree.Row] = []
    findings: list[Finding] = []
    for written in lines:
        line = join([written])
        made, wrong = _row(line)
        findings += wrong
        if made is None:
            continue
        if isinstance(made, tree.Row):
            rows.append(made)
        elif not rows:
            findings.append(slips.slip(line.whole, f"`{made[0]}` has no row above it", "Put it below the row it belongs to."))
        elif made[0] == "hold back":
            rows[-1] = rows[-1]._replace(hold_back=(*rows[-1].hold_back, made[1]))
        else:
            rows[-1] = rows[-1]._replace(alternatives=(*rows[-1].alternatives, made[1]))
    return rows, findings


def _row(line: Logical):
    try:
        made = build(tokens.tokens(line, "row"), line, "row")
    except tokens.DecimalComma as comma:
        return None, [slips.decimal_comma(comma)]
    except UnexpectedInput as error:
        return None, [_bad_row(error, line)]
    row = made if isinstance(made, tree.Row) else made[1] if isinstance(made[1], tree.Row) else None
    return made, _row_slips(row) if row is not None else []


def _bad_row(error, line: Logical) -> Finding:
    first = line.text.split(" ")[0]
    token = error.token
    if token.type == "TEXT" and token.start_pos == 0:
        return slips.slip(line.span(0, len(first)), f"a row of the formula begins with its amount, not with `{first}`",
                          "Write the amount first: 5.00 %  glycerin. Without a figure: `? %  glycerin`, `as needed`, or `to 100 %`.")
    if token.type == "$END":
        return slips.slip(line.whole, "this row has no material", "Write the name behind the amount: 5.00 %  glycerin")
    return slips.unexpected(error, line)


def _row_slips(row: tree.Row) -> list[Finding]:
    """Figures without unit, and names that begin with a qualifier."""
    findings = []
    for figure in (row.amount, row.about, row.at_most, row.within):
        if figure is not None and not figure.unit and not (figure.is_open and row.kind == "q.s."):
            findings.append(slips.slip(figure.span, f"`{figure.low}` has no unit", f"Write {figure.low} %, {figure.low} g or {figure.low} mL."))
    words = row.name.split()
    if words and words[0].lower() in ("to", "about", "at", "within", "as", "optional", "or", "hold"):
        findings.append(slips.slip(row.name_span, f"the name of this material begins with `{words[0]}`, a word of the formula",
                                   "Check the words before it; a name that really begins so stands in double quotes."))
    return [] if words and row.name_span and row.name.startswith('"') else findings


# ---- places, overrides, limits, pack, accept


def _places(section: Section) -> tuple[list[tree.Place], list[Finding]]:
    places, findings = [], []
    for written in [section.head, *section.lines]:
        line = join([written])
        match = PLACE.match(line.text)
        if not match:
            findings.append(slips.slip(line.whole, "this line is not understood here", "Here stand the vessels: vessel main; then a line `method`."))
        elif not match[2]:
            findings.append(slips.slip(line.whole, f"this {match[1]} has no name", f"Write it as: {match[1]} main"))
        else:
            kind = match[1].lower().replace("mold", "mould")
            span = line.span(match.start(2), match.end(2))
            findings += _place_name(match[2], kind, span) or _place_rest(match, line)
            places.append(tree.Place(kind, match[2], line.raw[match.start(3):match.end(3)] if match[3] else "", span))
    return places, findings


def _place_name(name: str, kind: str, span: Span) -> list[Finding]:
    if slips.reserved(name):
        return [slips.key_word(span, name)]
    if not re.fullmatch(r"[a-z][a-z0-9_]*(?:-[a-z0-9_]+)*", name):
        return [slips.slip(span, f"`{name}` cannot be the name of a {kind}", f"Use one lower-case word: {kind} {re.sub('[^a-z0-9-]', '', name.lower()) or 'main'}")]
    return []


def _place_rest(match: re.Match, line: Logical) -> list[Finding]:
    if not match[4]:
        return []
    return [slips.slip(line.span(match.start(4), match.end(4)), f"`{match[4]}` does not fit behind the {match[1].lower()}'s name",
                       f"One {match[1].lower()} a line, one word for its name.")]


def _override(section: Section) -> tuple[list[tree.Override], list[Finding]]:
    line = join([section.head, *section.lines])
    match = OVERRIDE.match(line.text)
    if not match:
        return [], [slips.slip(line.whole, "this override is not understood", 'Write it as: override "cetearyl alcohol" melts 52-54 °C because "lot sheet"')]
    at = line.text.find(" because ", match.end())
    because = line.raw[at + 9:].strip().strip('"') if at >= 0 else ""
    body = line if at < 0 else line._replace(text=line.text[:at], raw=line.raw[:at])
    entry, findings = entries.read_entry(entries._from(body, match.end()), properties.MATERIAL, "a material")
    if entry is not None and not entry.evidence:
        entry = entry._replace(evidence=tree.Evidence(because or "override in the method", "supplier" if because else "memory"))
    return ([tree.Override(match[1], entry, line.whole)] if entry else []), findings


def _limits(section: Section) -> tuple[list[tree.Limit], list[Finding]]:
    limits, findings = [], []
    for line in entries.logical(section.lines):
        limit, wrong = _limit(line)
        findings += wrong
        if limit is not None:
            limits.append(limit)
    return limits, findings


def _limit(line: Logical) -> tuple[tree.Limit | None, list[Finding]]:
    try:
        words = tokens.tokens(line, "limit")
        if not words or words[0].type != "PROPERTY":
            return None, [_no_property(line)]
        measure, pieces = build(words, line, "limit")
    except tokens.DecimalComma as comma:
        return None, [slips.decimal_comma(comma)]
    except UnexpectedInput as error:
        return None, [slips.unexpected(error, line)]
    first, *rest = forms.with_targets([forms.Piece("", measure, measure.span), *pieces])
    made, wrong = [], []
    for piece in rest:
        clause, finding = forms.clause_of(piece)
        if finding:
            wrong.append(finding)
        else:
            made.append(clause)
    if first.value.target is None and not any(clause.kind in ("cycles", "through") for clause in made):
        wrong.append(slips.slip(measure.span, f"this limit does not say which {measure.name}", f"Write the value behind it, or ?: {measure.name} ?"))
    return tree.Limit(first.value, tuple(made), line.remark, line.whole), wrong


def _no_property(line: Logical) -> Finding:
    word = line.text.strip().split(" ")[0]
    at = len(line.text) - len(line.text.lstrip())
    fix = slips.did_you_mean(word, properties.MEASURED_WORD, f"Known: {', '.join(row.name for row in properties.MEASURED)}.")
    return slips.slip(line.span(at, at + len(word)), f"`{word}` is no property that can be measured", fix)


def _as_material(section: Section) -> tuple[list[tree.Entry], list[Finding]]:
    return entries.read_block(section.head, section.lines, properties.MATERIAL, "a material")


PARTS = re.compile(r'\s*(?:\d[\d.]*\s*(?:%|parts?|g|kg|mL)\s+(?:product\b|")|\d+\s+per\s+\w+)', re.IGNORECASE)


def _pack(section: Section) -> tuple[list[tree.Pack], list[Finding]]:
    line = join([section.head])
    title = PACK.match(line.raw)[1].strip().strip('"')
    made, findings = [], []
    for under in entries.logical(section.lines):
        entry, wrong = _pack_line(under)
        findings += wrong
        if entry is not None:
            made.append(entry)
    return [tree.Pack(title, tuple(made), line.whole)], findings


def _pack_line(line: Logical) -> tuple[tree.Entry | None, list[Finding]]:
    if not line.text.lstrip()[:1].isdigit():
        return entries.read_entry(line, properties.PACK, "a pack")
    if re.match(r"\s*\d+\s+per\s+", line.text):
        part = properties.Property("per", "24 per case", "")
    else:
        part = properties.Property("part", '91 % product, or 9 %  "propellant"', "")
    return entries._value(line, part, 0, 0)


def _accept(section: Section) -> tuple[list[tree.Accept], list[Finding]]:
    line = join([section.head, *section.lines])
    match = ACCEPT.match(line.text)
    if not match:
        return [], [slips.slip(line.whole, "this accept is not understood",
                               'Write it as: accept carbomer-shear for "carbomer" in milling because "trial 41" by "R.T."')]
    missing = [word for word, found in (("because", match[4]), ("by", match[5])) if not found]
    if missing:
        return [], [slips.slip(line.whole, f"this accept does not say {'the reason' if missing[0] == 'because' else 'who signs for it'}",
                               'Write it as: accept NAME because "the reason" by "initials"')]
    return [tree.Accept(match[1], match[2] or "", match[3] or "", match[4], match[5], line.whole)], []


READERS = {"phase": _phase, "override": _override, "vessel": _places, "limits": _limits, "as a material": _as_material, "pack": _pack, "accept": _accept}


# ---- material and plant files

BLOCK_HEAD = re.compile(r"\s*(material|kind|rule|plant)\b\s*(.*)$", re.IGNORECASE)


def parse_data(source: Source, only: "set[int] | None" = None) -> Parsed:
    """The tree of a materials file: material, kind and rule blocks. `only` limits it to blocks that begin on these lines."""
    made, findings = [], []
    for head, under in entries.blocks(read_lines(source)):
        if only is not None and head.number not in only:
            continue
        block, wrong = _data_block(join([head]), head, under)
        findings += wrong
        if block is not None:
            made.append(block)
    return Parsed(tree.DataTree(source.name, tuple(made)), tuple(findings))


def _data_block(line: Logical, head: Line, under: list[Line]) -> tuple[tree.Entry | None, list[Finding]]:
    match = BLOCK_HEAD.match(line.text)
    if not match or match[1].lower() == "plant":
        return None, [slips.slip(line.whole, "a block begins with material, kind or rule", "Write it as: material glycerin")]
    kind, name = match[1].lower(), line.raw[match.start(2):].strip().strip('"')
    table = properties.RULE if kind == "rule" else properties.MATERIAL
    lines, findings = entries.read_block(head, under, table, f"a {kind}")
    return tree.Entry(kind, (), name, None, line.whole, line.whole, tuple(lines), line.remark), findings


def parse_plant(source: Source) -> Parsed:
    """The tree of a plant file: its lines, with vessels and rules as blocks."""
    made, findings = [], []
    for head, under in entries.blocks(read_lines(source)):
        line = join([head])
        word = line.text.strip().split(" ")[0].lower()
        if word in ("vessel", "rule") and under:
            table = properties.RULE if word == "rule" else properties.KETTLE
            lines, wrong = _kettle(head, under, table) if word == "vessel" else entries.read_block(head, under, table, f"a {word}")
            entry, bad = tree.Entry(word, (), entries.named(line, word), None, line.whole, line.whole, tuple(lines), line.remark), []
        elif word == "plant":
            entry, bad, wrong = tree.Entry("plant", (), entries.named(line, word), None, line.whole, line.whole), [], []
        else:
            entry, bad = entries.read_entry(join([head, *under]), properties.PLANT, "a plant")
            wrong = []
        findings += [*bad, *wrong]
        if entry is not None:
            made.append(entry)
    return Parsed(tree.DataTree(source.name, tuple(made)), tuple(findings))


def _kettle(head: Line, under: list[Line], table) -> tuple[list[tree.Entry], list[Finding]]:
    """A vessel's lines: known properties, or a tool and its figures."""
    made, findings = [], []
    for line in entries.logical(under):
        tool = _tool(line)
        if tool is not None:
            entry, wrong = entries._value(line, properties.Property(tool[0], "anchor 0.40 m, 10-60 rpm", ""), *tool[1])
        else:
            entry, wrong = entries.read_entry(line, table, "a vessel")
        findings += wrong
        if entry is not None:
            made.append(entry)
    return made, findings


def _tool(line: Logical):
    at = len(line.text) - len(line.text.lstrip())
    if match := tokens.STRING.match(line.text, at):
        return line.raw[match.start(1):match.end(1)], (at, match.end())
    if entries.row_of(line, properties.KETTLE) is None and (match := tokens.TOOL.match(line.text, at)):
        return tokens.clauses.TOOL_WORD[tokens.plain(match.group())], (at, match.end())
    return None
