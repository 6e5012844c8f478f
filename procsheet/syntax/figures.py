"""Figures as they are typed: `75-80 °C`, `5.5 ± 0.2`, `75 °C to 80 °C`, `1:3-1:10`, `1/3`, `2026-03-02`, `?`. Digits stay digits."""

import re
from decimal import Decimal
from typing import NamedTuple

from procsheet.syntax.lines import Logical
from procsheet.units import SPELLINGS


class Number(NamedTuple):
    """The parts of a figure as typed."""

    low: str
    high: str
    unit: str


def _unit(spelling: str) -> str:
    """A spelling, and what must not follow it: `m` is no metre in `mL`, `in` no inch in `in portions`."""
    pattern = re.escape(spelling).replace(r"\ ", r"\s+")
    if spelling == "in":
        return r"in(?=\s*(?:[,;)|]|$))"
    return pattern + (r"(?![\w/²³]|\.[A-Za-z])" if spelling[-1].isalnum() or spelling[-1] in "²³" else "")


_N = r"(?:\d+(?:\.\d+)?|\.\d+)"
_UNIT = rf"(?:{'|'.join(map(_unit, SPELLINGS))}|(?:[A-Z]{{3}}|€|\$|£)\s+(?:per|a)\s+(?:kg|g|L|lb|gal|unit)(?![A-Za-z]))"
_BETWEEN = r"-|–|±|to\b|\+/-"
_HIGH = rf"(?:{_N}|(?<=\s)-{_N})"
NUMBER = re.compile(rf"(?:\?|(?P<low>-?{_N})(?:\s*(?P<mid>{_BETWEEN})\s*(?P<high>{_HIGH}))?)(?:\s*(?P<unit>{_UNIT})|(?![\w²³]|[,.]\d))")
UP_TO = re.compile(rf"\s*(?P<mid>{_BETWEEN})\s*(?=-?[\d.])")
COMMA = re.compile(rf"-?(?:\d{{1,3}}(?:\.\d{{3}})+,\d+|\d+,\d+(?:\s*(?:{_BETWEEN})\s*-?\d+(?:[.,]\d+)?)?|"
                   rf"\d+(?:\.\d+)?\s*(?:{_BETWEEN})\s*-?\d+,\d+)(?![\d,]*-[a-z])")
PARTED = re.compile(r"\d{1,3}(?:\s\d{3})+(?!\d)")
RATIO = re.compile(rf"{_N}\s*:\s*{_N}(?:\s*(?:-|–|to)\s*{_N}\s*:\s*{_N})?")
FRACTION = re.compile(r"\d+/\d+(?![\d/])")
DATE = re.compile(r"\d{4}-\d\d-\d\d(?!\d)")


class Badly(Exception):
    """A figure that can be read in two ways: `kind` is 'comma' (3,5), 'parted' (1 000) or 'units' (75 °C-80 °F)."""

    def __init__(self, line: Logical, start: int, end: int, kind: str):
        self.span, self.typed, self.kind, self.start = line.span(start, end), line.text[start:end], kind, start


class Token:
    """A word of a line as the grammar takes it: its kind, what it stands for, and where it stands."""

    __slots__ = ("type", "value", "start_pos", "end_pos")
    line = column = end_line = end_column = 0               # lark asks for them

    def __init__(self, kind: str, value, start: int, end: int):
        self.type, self.value, self.start_pos, self.end_pos = kind, value, start, end

    def __str__(self) -> str:
        return str(self.value)



def figure(line: Logical, at: int) -> Token | None:
    """The figure that begins here: QTY, FRACTION, RATIO, DATE or OPEN; None where none does."""
    text = line.text
    first = text[at]
    if first == "?":
        match = NUMBER.match(text, at)
        return _number(match) if match and match["unit"] else Token("OPEN", "?", at, at + 1)
    if not (first.isascii() and first.isdigit()) and first not in "-.":
        return None
    match = NUMBER.match(text, at)
    if match is None or not match["unit"]:
        if found := _unlike(line, at):
            return found
    if match is None or not match["low"]:
        return None
    if match["unit"] and not match["high"] and (up := UP_TO.match(text, match.end())):
        return _number(match, up["mid"], _upper(line, match, up.end()))
    return _number(match)


def _unlike(line: Logical, at: int) -> Token | None:
    """A date, ratio or part; a figure that can be read two ways is raised."""
    text = line.text
    for pattern, kind in ((COMMA, "comma"), (PARTED, "parted")):
        if bad := pattern.match(text, at):
            raise Badly(line, bad.start(), bad.end(), kind)
    for pattern, kind in ((DATE, "DATE"), (RATIO, "RATIO"), (FRACTION, "FRACTION")):
        if match := pattern.match(text, at):
            return Token(kind, match.group(), at, match.end())
    return None


def _upper(line: Logical, lower: re.Match, at: int) -> re.Match | None:
    """The upper end of a range with its unit at both ends: `75 °C-80 °C`; None where what follows has no unit."""
    upper = NUMBER.match(line.text, at)
    if not upper or not upper["unit"] or upper["high"]:
        return None
    if upper["unit"].split() != lower["unit"].split():
        raise Badly(line, lower.start(), upper.end(), "units")
    return upper


def _number(match: re.Match, mid: str = "", upper: re.Match | None = None) -> Token:
    low, high, end = match["low"] or "?", match["high"], match.end()
    mid = match["mid"] or (mid if upper is not None else "")
    if upper is not None:
        high, end = upper["low"], upper.end()
    if mid in ("±", "+/-") and high:
        low, high = _around(low, high)
    return Token("QTY", Number(low, high or low, " ".join((match["unit"] or "").split())), match.start(), end)


def _around(middle: str, spread: str) -> tuple[str, str]:
    return str(Decimal(middle) - Decimal(spread)), str(Decimal(middle) + Decimal(spread))
