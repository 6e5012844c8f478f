"""Lines that begin with a key: headers, materials, plants, rules, packs."""

import re
from functools import lru_cache

from procsheet.findings import Finding
from procsheet.syntax import slips, tree, words
from procsheet.syntax.build import UnexpectedInput, build
from procsheet.syntax.figures import Badly, Number, Token, figure
from procsheet.syntax.lines import Line, Logical, join, unquoted
from procsheet.syntax.properties import GRADES, Property
from procsheet.syntax.slips import slip
from procsheet.syntax.tokens import skip
from procsheet.syntax.values import CALLED, dimension, written

EVIDENCE = re.compile(r'from\s+(?=")|from\s+memory(?![\w-])', re.IGNORECASE)
GRADE = re.compile(rf"\(\s*({words.either(GRADES)})\s*\)", re.IGNORECASE)
TEXT_UNTIL_EVIDENCE = re.compile(r'\S.*?(?=\s+from\s+(?:"|memory\b)|\s*$)')


ALIKE = {"pressure": ("gauge pressure",), "gauge pressure": ("pressure",),
         "share": ("volume share", "density")}     # a strength may be in % v/v or % w/v


@lru_cache(maxsize=None)
def keys(table: tuple[Property, ...]) -> re.Pattern:
    return re.compile(rf"\s*({words.either(name for row in table for name in (row.name, row.also) if name)})(?![\w-])", re.IGNORECASE)


@lru_cache(maxsize=None)
def _rows(table: tuple[Property, ...]) -> dict[str, Property]:
    return {name.lower(): row for row in table for name in (row.name, row.also) if name}


def row_of(line: Logical, table: tuple[Property, ...]) -> tuple[Property, int, int] | None:
    """The table row a line begins with, and where the key stands."""
    match = keys(table).match(line.text)
    return (_rows(table)[words.plain(match[1])], match.start(1), match.end()) if match else None


def read_entry(line: Logical, table: tuple[Property, ...], what: str, meant: dict[str, str] | None = None) -> tuple[tree.Entry | None,
                                                                                                                    list[Finding]]:
    """One line with a key of this table. `what` names the place in a message: `a material`; `meant` what other papers call a key."""
    found = row_of(line, table)
    if found is None:
        return None, [_unknown(line, table, what, meant or {})]
    row, start, at = found
    if line.text[at:at + 1] == ":":
        line, at = from_(line._replace(text=line.text[:at] + " " + line.text[at + 1:]), start), at + 1
    return value(line, row, start, at)


def _unknown(line: Logical, table: tuple[Property, ...], what: str, meant: dict[str, str]) -> Finding:
    at = len(line.text) - len(line.text.lstrip())
    word = re.split(r"[\s:]", line.text[at:])[0] or line.text[at:at + 1]
    two = " ".join(line.text.replace(":", " ").split()[:2])
    names = [row.name for row in table]
    span = line.span(at, at + len(word))
    for said in (two.lower(), word.lower()):
        if said in meant:
            return slip(line.span(at, at + len(said)), f"`{line.raw[at:at + len(said)]}` is not a line of {what}", meant[said])
    listed = f"The lines of {what}: {', '.join(names[:14])}{' and others; the reference page lists them' if len(names) > 14 else ''}."
    fix = slips.did_you_mean(two, names) or slips.did_you_mean(word, names, listed)
    return slip(span, f"`{word}` is not a line of {what}", fix)


def value(line: Logical, row: Property, start: int, at: int) -> tuple[tree.Entry | None, list[Finding]]:
    """What stands behind the key, which begins at `start` and ends at `at`."""
    rest = from_(line, at)
    if not rest.text.strip() and not row.form.startswith((row.name + " [", row.name + " |")) and row.form != row.name:
        return None, [slip(line.span(start, max(at, start + 1)), f"nothing stands behind `{row.name}`",
                           f"Write it like: {row.example or row.form}", "something is missing behind this")]
    wrong: list[Finding] = []
    try:
        found = _text_words(rest) if row.text else _words(rest, wrong)
        groups, text, evidence = build(found, rest, "entry")
    except Badly as error:
        return None, [slips.badly(error)]
    except UnexpectedInput as error:
        return None, wrong[:1] or [_bad_value(error, rest, row)]
    entry = tree.Entry(row.name, groups, text, evidence, line.whole, line.span(start, at), (), line.remark)
    return entry, (wrong + _figure_slips(entry, row))[:1]


def _bad_value(error, line: Logical, row: Property) -> Finding:
    finding = slips.unexpected(error, line)
    return finding if error.token.type == "UNCLOSED" else finding._replace(fix=f"Write it like: {row.example or row.form}")


def from_(line: Logical, at: int) -> Logical:
    """The same line with everything before `at` blanked, so that places stay."""
    return line._replace(text=" " * at + line.text[at:], raw=" " * at + line.raw[at:])


def _figure_slips(entry: tree.Entry, row: Property) -> list[Finding]:
    """The figure of a property must have its dimension."""
    if not row.numeric or entry.text:
        return []
    figures = [word for word in entry.words if isinstance(word, tree.Quantity) and word.unit not in ("ratio", "fraction", "date")]
    like = f"Write it like: {row.example or row.form}"
    kinds = {row.numeric, "open", *ALIKE.get(row.numeric, ())}
    if not figures:
        return [slip(entry.span, f"`{row.name}` has no figure", f"{like}; or `{row.name} ?` while it is not known")]
    first = figures[0]
    if dimension(first) in kinds:
        return []
    if dimension(first) == "number":
        return [slip(first.span, f"`{written(first)}` has no unit", like)]
    found, wanted = CALLED.get(dimension(first), "something else"), CALLED.get(row.numeric, f"a {row.numeric}")
    return [slip(first.span, f"`{written(first)}` is {found}, not {wanted}", like)]


# ---- the words of a value


def _words(line: Logical, wrong: list[Finding]) -> list:
    """Words, figures and texts between commas."""
    text, at, out = line.text, 0, []
    while (at := skip(text, at)) < len(text):
        out.append(_word(line, at, wrong))
        at = out[-1].end_pos
    return out


def _word(line: Logical, at: int, wrong: list[Finding]):
    text = line.text
    if text[at] == '"':
        match = words.STRING.match(text, at)
        return Token("STRING", " ".join(line.raw[at + 1:match.end() - 1].split()), at,
                     match.end()) if match else Token("UNCLOSED", text[at:], at, len(text))
    if text[at] in ",;|":
        return Token("COMMA", text[at], at, at + 1)
    if match := EVIDENCE.match(text, at):
        return Token("FROM_MEMORY" if "memory" in match.group().lower() else "FROM", words.plain(match.group()), at, match.end())
    if match := GRADE.match(text, at):
        return Token("GRADE", words.plain(match[1]), at, match.end())
    found = _figure(line, at, wrong)
    if found is not None:
        return found if found.type != "OPEN" else Token("QTY", Number("?", "?", ""), found.start_pos, found.end_pos)
    if match := words.BOUND.match(text, at):
        return Token("BOUND", words.BOUND_WORD[words.plain(match.group())], at, match.end())
    match = words.RUN.match(text, at)
    return Token("WORD", match.group(), at, match.end())


def _figure(line: Logical, at: int, wrong: list[Finding]):
    try:
        return figure(line, at)
    except Badly as error:
        if error.kind == "units":
            raise
        wrong.append(slips.badly(error))
        return figure(slips.mended(line, error), at)


def _text_words(line: Logical) -> list:
    """The whole value as words, with the evidence behind it apart."""
    at = skip(line.text, 0)
    match = TEXT_UNTIL_EVIDENCE.match(line.text, at)
    if not match:
        return []
    out, at = [Token("TEXT", line.raw[match.start():match.end()], match.start(), match.end())], match.end()
    while (at := skip(line.text, at)) < len(line.text):
        out.append(_word(line, at, []))
        at = out[-1].end_pos
    return out


# ---- blocks: a head line and deeper lines


def blocks(lines: list[Line]) -> list[tuple[Line, list[Line]]]:
    """Each least indented line with the deeper lines under it."""
    out: list[tuple[Line, list[Line]]] = []
    for line in lines:
        if out and line.indent > out[0][0].indent:
            out[-1][1].append(line)
        else:
            out.append((line, []))
    return out


def read_block(under: list[Line], table: tuple[Property, ...], what: str) -> tuple[list[tree.Entry], list[Finding]]:
    """The lines of a block; a line deeper than the first of them goes on with the one before."""
    entries, findings = [], []
    for line in logical(under):
        entry, wrong = read_entry(line, table, what)
        findings += wrong[:1]
        if entry is not None:
            entries.append(entry)
    return entries, findings


def kept_apart(lines: list[Line], key: re.Pattern) -> tuple[list[Logical], list[Finding]]:
    """As `logical`, but a deeper line that begins with a key of its own is told and read alone."""
    groups, findings = [], []
    for line in lines:
        deeper = bool(groups) and line.indent > groups[-1][0].indent
        if deeper and key.match(line.text):
            findings.append(slip(join([line]).whole, f"this line stands deeper than the line above it, in line {groups[-1][0].number}",
                                 "Begin both in the same column."))
            deeper = False
        groups[-1].append(line) if deeper else groups.append([line])
    return [join(group) for group in groups], findings


def logical(lines: list[Line]) -> list[Logical]:
    """Lines of one depth; deeper ones go on with the line above them."""
    groups: list[list[Line]] = []
    for line in lines:
        if groups and line.indent > groups[-1][0].indent:
            groups[-1].append(line)
        else:
            groups.append([line])
    return [join(group) for group in groups]


def named(line: Logical, word: str) -> str:
    """What stands behind the first word of a head line: its name."""
    return unquoted(line.raw.strip()[len(word):].strip().strip(":"))
