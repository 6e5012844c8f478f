"""Lines that begin with a key: headers, materials, plants, rules, packs."""

import re
from functools import lru_cache

from procsheet.findings import Finding
from procsheet.syntax import slips, tokens, tree
from procsheet.syntax.build import UnexpectedInput, build
from procsheet.syntax.lines import Line, Logical, join
from procsheet.syntax.properties import Property


@lru_cache(maxsize=None)
def _keys(table: tuple[Property, ...]) -> re.Pattern:
    return re.compile(rf"\s*({tokens._words(row.name for row in table)})(?![\w-])", re.IGNORECASE)


@lru_cache(maxsize=None)
def _rows(table: tuple[Property, ...]) -> dict[str, Property]:
    return {row.name.lower(): row for row in table}


def row_of(line: Logical, table: tuple[Property, ...]) -> tuple[Property, int, int] | None:
    """The table row a line begins with, and where the key stands."""
    match = _keys(table).match(line.text)
    if not match:
        return None
    return _rows(table)[tokens.plain(match[1])], match.start(1), match.end()


def read_entry(line: Logical, table: tuple[Property, ...], what: str) -> tuple[tree.Entry | None, list[Finding]]:
    """One line with a key of this table. `what` names the place in a message: `a material`."""
    found = row_of(line, table)
    if found is None:
        word = line.text.strip().split(" ")[0]
        two = " ".join(line.text.split()[:2])
        names = [row.name for row in table]
        fix = slips.did_you_mean(two, names) or slips.did_you_mean(word, names, f"Known here: {', '.join(names)}.")
        at = len(line.text) - len(line.text.lstrip())
        return None, [slips.slip(line.span(at, at + len(word)), f"`{word}` is not a line of {what}", fix)]
    row, start, at = found
    return _value(line, row, start, at)


def _value(line: Logical, row: Property, start: int, at: int) -> tuple[tree.Entry | None, list[Finding]]:
    rest = _from(line, at)
    try:
        words = tokens.text_token(rest) if row.text else tokens.tokens(rest, "entry")
        groups, text, evidence = build(words, rest, "entry")
    except tokens.DecimalComma as comma:
        return None, [slips.decimal_comma(comma)]
    except UnexpectedInput as error:
        finding = slips.unexpected(error, rest)
        return None, [finding._replace(fix=f"It is written like: {row.form}. {finding.fix}")]
    return tree.Entry(row.name, groups, text, evidence, line.whole, line.span(start, at), (), line.remark), []


def _from(line: Logical, at: int) -> Logical:
    """The same line with everything before `at` blanked, so that places stay."""
    return line._replace(text=" " * at + line.text[at:], raw=" " * at + line.raw[at:])


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


def read_block(head: Line, under: list[Line], table: tuple[Property, ...], what: str) -> tuple[list[tree.Entry], list[Finding]]:
    """The lines of a block; a line deeper than the first of them goes on with the one before."""
    entries, findings = [], []
    for line in logical(under):
        entry, wrong = read_entry(line, table, what)
        findings += wrong
        if entry is not None:
            entries.append(entry)
    return entries, findings


def logical(lines: list[Line]) -> list[Logical]:
    """Lines of one depth; deeper ones go on with the line above them."""
    groups: list[list[Line]] = []
    for line in lines:
        if groups and line.indent > lines[0].indent:
            groups[-1].append(line)
        else:
            groups.append([line])
    return [join(group) for group in groups]


def named(line: Logical, word: str) -> str:
    """What stands behind the first word of a head line: its name."""
    return line.raw.strip()[len(word):].strip().strip('"')
