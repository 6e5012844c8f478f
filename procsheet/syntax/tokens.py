"""A logical line to tokens. The words come from the tables; what a word may be depends on the word before it.

Kinds of line: step, row, limit, entry, block. Nearly every word stays free as a vessel's name, since tools are looked for
only behind `with`, end points only behind `until`, properties only where one can stand, and verbs only at the start.
"""

import re
from typing import Iterator, NamedTuple

from lark import Token

from procsheet.syntax import clauses, properties, verbs
from procsheet.syntax.lines import Logical
from procsheet.units import SPELLINGS


class Number(NamedTuple):
    """The parts of a figure as typed."""

    low: str
    high: str
    unit: str


def _words(words) -> str:
    return "|".join(re.escape(word).replace(r"\ ", r"\s+") for word in sorted(words, key=len, reverse=True))


def _phrase(words) -> re.Pattern:
    return re.compile(rf"(?:{_words(words)})(?![\w-])", re.IGNORECASE)


_N = r"(?:\d+(?:\.\d+)?|\.\d+)"
_UNIT = rf"(?:(?:{'|'.join(re.escape(s) for s in SPELLINGS)})(?![A-Za-z/²³]|\.[A-Za-z])|(?:[A-Z]{{3}}|€|\$|£)\s+(?:per|a)\s+(?:kg|g|L|lb|gal|unit))"
NUMBER = re.compile(
    rf"(?:\?|(?P<low>-?{_N})(?:\s*(?P<mid>-|–|±|to\b|\+/-)\s*(?P<high>{_N}|(?<=\s)-{_N}|(?<=to\s)-{_N}))?)"
    rf"(?:\s*(?P<unit>{_UNIT}))?(?![\w²³])")
COMMA_NUMBER = re.compile(rf"-?\d+,\d+(?:\.\d+)?(?=\s*(?:{_UNIT}|-|–|to\b))")
RATIO = re.compile(rf"{_N}\s*:\s*{_N}(?:\s*(?:-|–|to)\s*{_N}\s*:\s*{_N})?")
FRACTION = re.compile(r"\d+/\d+(?![\d/])")
DATE = re.compile(r"\d{4}-\d\d-\d\d(?!\d)")
STRING = re.compile(r'"([^"]*)"')
NAME = re.compile(r"[a-z][a-z0-9_]*(?:-[a-z0-9_]+)*(?![A-Z])")
PHASE = re.compile(r"[A-Z][0-9]?(?![A-Za-z0-9-])")
RUN = re.compile(r"[^\s,\"]+")
REL = re.compile(rf"(above|below)\s+({_words(clauses.POINTS)})(?![\w-])", re.IGNORECASE)
SETTING = re.compile(r"(?:setting|speed|position)\s+\d+(?:\.\d+)?(?!\s*(?:rpm|m/s))", re.IGNORECASE)
ROOM = re.compile(r"room\s+temperature(?![\w-])|RT(?![\w-])|ambient\s+temperature(?![\w-])", re.IGNORECASE)

VERB = _phrase(verbs.BY_WORD)
CLAUSE = _phrase(set(clauses.BY_OPENER) | set(clauses.FORM_OPENERS))
PHRASES = _phrase(set(clauses.PHRASE_KIND) | {"top and bottom", "with nitrogen"})
FILLER = _phrase(clauses.FILLERS)
TOOL = _phrase(clauses.TOOL_WORD)
STATE = _phrase(clauses.STATE_WORD)
MEASURED = _phrase(properties.MEASURED_WORD)
POINT = _phrase(clauses.POINTS)
STRUCTURE = {"and": "AND", "or": "OR", "of": "OF", "from": "FROM", "except": "EXCEPT", "about": "ABOUT", "all": "PHASE"}
STRUCTURE_WORD = re.compile(r"(?:and|or|of|from|except|about|all)(?![\w-])", re.IGNORECASE)
BOUND = re.compile(r"(?:below|above|at\s+most|at\s+least|up\s+to|no\s+more\s+than)(?![\w-])", re.IGNORECASE)
BOUND_NAME = {"below": "below", "above": "above", "at most": "at most", "at least": "at least", "up to": "at most", "no more than": "at most"}
BOUND_AFTER = re.compile(r"or\s+(less|lower|below|under|more|higher|above)(?![\w-])", re.IGNORECASE)
PORTION = re.compile(r"(?:the\s+)?(rest|remainder|half)(?=\s+of\b)|(?:the\s+)?hold-?\s?back(?![\w-])", re.IGNORECASE)

ROW_WORD = re.compile(r"(as\s+needed|q\.?\s?s\.?(?=[\s,])|to(?=\s+[\d?])|about(?=\s+[\d?])|at\s+most(?=\s+[\d?])|within(?=\s+\d)|as\s+pure|optional|"
                      r"hold\s+back|or(?=\s+[\d?]))(?![\w-])", re.IGNORECASE)
ROW_KIND = {"as needed": "AS_NEEDED", "to": "TO", "about": "ABOUT", "at most": "AT_MOST", "within": "WITHIN", "as pure": "AS_PURE",
            "optional": "OPTIONAL", "hold back": "HOLD_BACK", "or": "OR"}
EVIDENCE = re.compile(r'from\s+(?=")|from\s+memory(?![\w-])', re.IGNORECASE)
GRADE = re.compile(rf"\(({_words(properties.GRADES)})\)", re.IGNORECASE)
BLOCK = re.compile(r"(choose\s+one|otherwise|else|end|option|where\s+the\s+plant\s+has|if|repeat)(?![\w-])", re.IGNORECASE)
BLOCK_KIND = {"choose one": "CHOOSE", "otherwise": "OTHERWISE", "else": "OTHERWISE", "end": "END", "option": "OPTION", "where the plant has": "WHERE",
              "if": "IF", "repeat": "REPEAT"}
TEXT_UNTIL_EVIDENCE = re.compile(r'\S.*?(?=\s+from\s+(?:"|memory\b)|\s*$)')

ENDS_ITEM = {"STRING", "PHASE", "NAME", "HOLD", "OPEN"}
STARTS_ITEM = {"STRING", "PHASE", "NAME", "HOLD", "PORTION", "FRACTION"}


class DecimalComma(Exception):
    """3,5 where 3.5 is meant: the place and the digits."""

    def __init__(self, line: Logical, start: int, end: int):
        self.span = line.span(start, end)
        self.typed = line.text[start:end]


def plain(text: str) -> str:
    """One blank between words, lower case."""
    return " ".join(text.lower().split())


def _token(kind: str, value, start: int, end: int) -> Token:
    return Token(kind, value, start_pos=start, end_pos=end)


def number(match: re.Match, offset: int = 0) -> Token:
    low, high = match["low"] or "?", match["high"]
    if match["mid"] in ("±", "+/-") and high:
        low, high = _around(low, high)
    unit = " ".join((match["unit"] or "").split())
    return _token("QTY", Number(low, high or low, unit), match.start(), match.end())


def _around(middle: str, spread: str) -> tuple[str, str]:
    from decimal import Decimal
    return str(Decimal(middle) - Decimal(spread)), str(Decimal(middle) + Decimal(spread))


def _match_number(line: Logical, at: int) -> Token | None:
    text = line.text
    if text[at].isdigit() or text[at] in "-.":
        if comma := COMMA_NUMBER.match(text, at):
            raise DecimalComma(line, comma.start(), comma.end())
        for pattern, kind in ((DATE, "DATE"), (RATIO, "RATIO")):
            if match := pattern.match(text, at):
                return _token(kind, match.group(), match.start(), match.end())
        match = NUMBER.match(text, at)
        if match and match["low"]:
            fraction = FRACTION.match(text, at)
            return _token("FRACTION", fraction.group(), at, fraction.end()) if fraction and not match["unit"] else number(match)
    elif text[at] == "?":
        match = NUMBER.match(text, at)
        if match and match["unit"]:
            return number(match)
        return _token("OPEN", "?", at, at + 1)
    return None


def _skip(text: str, at: int) -> int:
    while at < len(text) and text[at] == " ":
        at += 1
    return at


def tokens(line: Logical, kind: str) -> list[Token]:
    """The tokens of a line of this kind."""
    return {"step": _step, "row": _row, "limit": _limit, "block": _block, "entry": _entry}[kind](line)


def _step(line: Logical) -> list[Token]:
    at, out = _skip(line.text, 0), []
    if line.text.startswith("?", at):
        out.append(_token("OPEN_STEP", "?", at, at + 1))
        at = _skip(line.text, at + 1)
    if match := VERB.match(line.text, at):
        out.append(_token("VERB", plain(match.group()), at, match.end()))
        at = match.end()
    return _settle(out + _pieces(line, at, verb=out[-1].value if out else ""))


def _limit(line: Logical) -> list[Token]:
    at = _skip(line.text, 0)
    match = MEASURED.match(line.text, at)
    out = [_token("PROPERTY", properties.MEASURED_WORD[_property(match.group())].name, at, match.end())] if match else []
    return _settle(out + _pieces(line, match.end() if match else at, verb="limit"))


def _block(line: Logical) -> list[Token]:
    at = _skip(line.text, 0)
    match = BLOCK.match(line.text, at)
    kind = BLOCK_KIND[plain(match.group())]
    out = [_token(kind, plain(match.group()), at, match.end())]
    if kind == "WHERE" and (at := _skip(line.text, match.end())) < len(line.text):
        return out + [_token("WORDS", line.text[at:], at, len(line.text))]
    return _settle(out + _pieces(line, match.end(), verb="block"))


def _property(words: str) -> str:
    low = plain(words)
    return next((known for known in properties.MEASURED_WORD if known.lower() == low), low)


def _pieces(line: Logical, at: int, verb: str) -> Iterator[Token]:
    """What follows the verb: openers, phrases, figures, names, in the order they stand."""
    text, before, out = line.text, "", []
    while (at := _skip(text, at)) < len(text):
        token = _piece(line, at, verb, before, out)
        out.append(token)
        at, before = token.end_pos, _context(token, before)
    return out


def _context(token: Token, before: str) -> str:
    """What the word after this one may be: a tool, an end point, a property, or nothing special."""
    if token.type == "OPENER":
        return token.value
    if token.type in ("AND", "OR", "COMMA", "BOUND", "ABOUT") and before in ("with", "until", "each until", "when"):
        return before
    if token.type == "TOOL":
        return "with"
    if token.type == "STATE":
        return "until"
    if token.type in ("STRING", "NAME") and before in ("with", "until"):
        return before                                       # `with "mixer" and anchor`, `until main clear`
    return ""


def _piece(line: Logical, at: int, verb: str, before: str, out: list[Token]) -> Token:
    text = line.text
    if text[at] == '"':
        match = STRING.match(text, at)
        return _token("STRING", line.raw[at + 1:match.end() - 1], at, match.end()) if match else _token("UNCLOSED", text[at:], at, len(text))
    if text[at] == ",":
        return _token("COMMA", ",", at, at + 1)
    figure = _match_number(line, at)
    if figure is not None:
        return _bounded_after(text, figure)
    return _expected(text, at, verb, before, out) or _worded(text, at, before, verb)


def _bounded_after(text: str, figure: Token) -> Token:
    """`80 °C or less` is `at most 80 °C`: the bound is kept in the figure's own text by a BOUND put before it in _settle."""
    if figure.type == "QTY" and (match := BOUND_AFTER.match(text, _skip(text, figure.end_pos))):
        side = "at most" if match[1].lower() in ("less", "lower", "below", "under") else "at least"
        token = _token("BOUNDED", (side, figure.value), figure.start_pos, match.end())
        return token
    return figure


def _expected(text: str, at: int, verb: str, before: str, out: list[Token]) -> Token | None:
    """A tool behind `with`, an end point behind `until`, a property where the verb has one."""
    if before == "with" and (match := TOOL.match(text, at)):
        return _token("TOOL", clauses.TOOL_WORD[plain(match.group())], at, match.end())
    if before in ("until", "each until", "when"):
        if match := STATE.match(text, at):
            return _token("STATE", clauses.STATE_WORD[plain(match.group())], at, match.end())
    if _wants_property(verb, before, out) and (match := MEASURED.match(text, at)):
        return _token("PROPERTY", properties.MEASURED_WORD[_property(match.group())].name, at, match.end())
    if before == "until" and verb == "block" and (match := NAME.match(text, at)) and STATE.match(text, _skip(text, match.end())):
        return _token("NAME", match.group(), at, match.end())
    if before in ("at", "CLAUSE_OR") and (match := SETTING.match(text, at)):
        return _token("SETTING", match.group(), at, match.end())
    if before in ("never above", "never below") and (match := POINT.match(text, at)):
        return _token("POINT", plain(match.group()), at, match.end())
    return None


def _wants_property(verb: str, before: str, out: list[Token]) -> bool:
    if before in ("until", "each until", "when"):
        return True
    return (verb == "adjust" and before == "to") or (verb == "check" and bool(out) and out[-1].type == "NAME" and len(out) == 1) or (
        verb == "block" and bool(out) and out[-1].type == "NAME")


def _worded(text: str, at: int, before: str, verb: str) -> Token:
    """Phrases and openers of the table, then names."""
    if match := ROOM.match(text, at):
        return _token("ROOM", plain(match.group()), at, match.end())
    if match := PORTION.match(text, at):
        return _token("PORTION", match[1].lower().replace("remainder", "rest"), at, match.end()) if match[1] else _token("HOLD", "hold-back", at, match.end())
    if match := REL.match(text, at):
        return _token("REL", plain(match.group()), at, match.end())
    if match := FILLER.match(text, at):
        return _token("FILLER", plain(match.group()), at, match.end())
    phrase, opener = PHRASES.match(text, at), CLAUSE.match(text, at)
    if phrase and (not opener or phrase.end() >= opener.end()):
        return _token("PHRASE", plain(phrase.group()), at, phrase.end())
    bound = BOUND.match(text, at)
    if bound and (not opener or bound.end() >= opener.end()):
        return _token("BOUND", BOUND_NAME[plain(bound.group())], at, bound.end())
    if opener:
        return _token("OPENER", plain(opener.group()), at, opener.end())
    if match := STRUCTURE_WORD.match(text, at):
        word = plain(match.group())
        return _token(STRUCTURE[word], word, at, match.end())
    for pattern, kind in ((PHASE, "PHASE"), (NAME, "NAME")):
        if match := pattern.match(text, at):
            return _token(kind, match.group(), at, match.end())
    match = RUN.match(text, at)
    return _token("STRAY", match.group() if match else text[at], at, match.end() if match else at + 1)


def _settle(raw: list[Token]) -> list[Token]:
    """Drop the commas that only breathe, and tell `or` before a clause from `or` between things."""
    out: list[Token] = []
    for index, token in enumerate(raw):
        following = raw[index + 1] if index + 1 < len(raw) else None
        if token.type == "COMMA":
            if following is not None and out and _goes_on(out[-1], following, raw, index):
                out.append(_token("AND", ",", token.start_pos, token.end_pos))
        elif token.type == "OR" and following is not None and following.type in ("OPENER", "PHRASE", "BOUND"):
            out.append(_token("CLAUSE_OR", "or", token.start_pos, token.end_pos))
        elif token.type == "AND" and out and out[-1].type == "AND":
            continue                                        # `A, B, and C`
        elif token.type == "AND" and following is not None and following.type == "TOOL" and out and out[-1].type not in ("TOOL", "STRING"):
            out.append(_token("OPENER", "with", token.start_pos, token.end_pos))       # `... at 3000 rpm and anchor`
        elif token.type == "AND" and following is not None and following.type in ("OPENER", "PHRASE"):
            continue                                        # `over 5 min and with anchor`
        elif token.type == "BOUNDED":
            side, figure = token.value
            out += [_token("BOUND", side, token.start_pos, token.start_pos), _token("QTY", figure, token.start_pos, token.end_pos)]
        else:
            out.append(token)
    return out


def _goes_on(last: Token, following: Token, raw: list[Token], index: int) -> bool:
    """Whether a comma joins two things of a list."""
    if last.type == "TOOL" and following.type == "TOOL":
        return True
    if following.type == "AND":
        return False
    if following.type == "QTY" and index + 2 < len(raw) and raw[index + 2].type == "OF":
        return last.type in ENDS_ITEM
    return last.type in ENDS_ITEM and following.type in STARTS_ITEM


# ---- rows of the formula


def _row(line: Logical) -> list[Token]:
    text, at, out = line.text, 0, []
    while (at := _skip(text, at)) < len(text):
        if text[at] == ",":
            at += 1
            continue
        token = _row_word(line, at, out)
        if token is None:
            out.append(_token("TEXT", line.raw[at:].strip(), at, len(text)))
            break
        out.append(token)
        at = token.end_pos
    return out


def _row_word(line: Logical, at: int, out: list[Token]) -> Token | None:
    figure_due = not out or out[-1].type in ("TO", "ABOUT", "AT_MOST", "WITHIN", "OR", "HOLD_BACK")
    if figure_due:
        figure = _match_number(line, at)
        if figure is not None and figure.type == "QTY":
            return figure
        if figure is not None and figure.type == "OPEN":
            return _token("QTY", Number("?", "?", ""), figure.start_pos, figure.end_pos)
    if match := ROW_WORD.match(line.text, at):
        word = plain(match.group())
        return _token(ROW_KIND.get(word, "QS"), word, at, match.end())
    return None


# ---- lines that begin with a key: headers, materials, plants, packs


def _entry(line: Logical) -> list[Token]:
    """Words, figures and texts between commas. The key itself has been read already (parse.py)."""
    text, at, out = line.text, 0, []
    while (at := _skip(text, at)) < len(text):
        token = _entry_word(line, at)
        out.append(token)
        at = token.end_pos
    return out


def _entry_word(line: Logical, at: int) -> Token:
    text = line.text
    if text[at] == '"':
        match = STRING.match(text, at)
        return _token("STRING", line.raw[at + 1:match.end() - 1], at, match.end()) if match else _token("UNCLOSED", text[at:], at, len(text))
    if text[at] in ",;|":
        return _token("COMMA", text[at], at, at + 1)
    if match := EVIDENCE.match(text, at):
        kind = "FROM_MEMORY" if "memory" in match.group().lower() else "FROM"
        return _token(kind, plain(match.group()), at, match.end())
    if match := GRADE.match(text, at):
        return _token("GRADE", plain(match[1]), at, match.end())
    figure = _match_number(line, at)
    if figure is not None:
        return figure if figure.type != "OPEN" else _token("QTY", Number("?", "?", ""), figure.start_pos, figure.end_pos)
    if match := BOUND.match(text, at):
        return _token("BOUND", BOUND_NAME[plain(match.group())], at, match.end())
    match = RUN.match(text, at)
    return _token("WORD", match.group(), at, match.end())


def text_token(line: Logical) -> list[Token]:
    """The whole value as words, with the evidence behind it apart."""
    at = _skip(line.text, 0)
    match = TEXT_UNTIL_EVIDENCE.match(line.text, at)
    if not match:
        return []
    value = _token("TEXT", line.raw[match.start():match.end()].strip().strip('"'), match.start(), match.end())
    rest, at, out = line.text, match.end(), [value]
    while (at := _skip(rest, at)) < len(rest):
        token = _entry_word(line, at)
        out.append(token)
        at = token.end_pos
    return out
