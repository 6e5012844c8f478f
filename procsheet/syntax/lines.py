"""Text to lines: comments and remarks set apart, odd characters made plain, every character's place kept."""

import re
from bisect import bisect_right
from typing import NamedTuple

from procsheet.source import Source, Span
from procsheet.syntax.tree import Remark

# one character for one, so that columns stay
BLANKS = "\t\x0b\x0c\x1c\x1d\x1e\x1f\x85\u00a0\u1680\u2028\u2029\u202f\u205f\u3000\ufeff" + "".join(map(chr, range(0x2000, 0x200C)))
QUOTES = '"“”„‟″«»'
PLAIN = str.maketrans({**dict.fromkeys(BLANKS, " "), **dict.fromkeys(QUOTES, '"'),
                       **dict.fromkeys("−‐‑", "-"), "º": "°", "μ": "µ", "―": "—"})
QUOTED = re.compile(r'"[^"]*"?')
COMMENT = re.compile(r"(?:(?<=\s)|^)#(?=\D|$)|^\s*#")
REMARK = re.compile(r"(?:(?<=\s)|^)(?:--(?=\s|$)|—)")


class Line(NamedTuple):
    """One written line without comment and remark. `text` is made plain, `raw` is as typed; both have the same length."""

    number: int
    indent: int
    text: str
    raw: str
    remark: Remark | None
    file: str


class Logical(NamedTuple):
    """One or more written lines read as one. `places` holds (offset, line, column) for each written line."""

    text: str
    raw: str
    places: tuple[tuple[int, int, int], ...]
    file: str
    indent: int
    remark: Remark | None

    def span(self, start: int, end: int) -> Span:
        """The span of characters start to end; where they run over a line end, as far as the first line goes."""
        if len(self.places) == 1:
            offset, line, column = self.places[0]
            return Span(self.file, line, column + start - offset, column + end - offset)
        index = bisect_right(self.places, (start, 1 << 30, 0)) - 1
        offset, line, column = self.places[max(index, 0)]
        if index + 1 < len(self.places):
            end = min(end, max(self.places[index + 1][0] - 1, start + 1))
        return Span(self.file, line, column + start - offset, column + end - offset)

    @property
    def whole(self) -> Span:
        return self.span(0, len(self.text))


def masked(text: str) -> str:
    """The text with everything in double quotes, and the quotes, hidden; places stay."""
    return QUOTED.sub(lambda quoted: '"' * len(quoted.group()), text) if '"' in text else text


def unquoted(text: str) -> str:
    """Words with one blank between them, without the quotes that stand round them all."""
    words = " ".join(text.split())
    return " ".join(words[1:-1].split()) if len(words) > 1 and words[0] in QUOTES and words[-1] in QUOTES else words


def read_lines(source: Source) -> list[Line]:
    """All lines that say something, in order."""
    lines = []
    for number, raw in enumerate(source.lines, source.first):
        if raw and not raw.translate(PLAIN).isspace():
            line = _line(source.name, number, raw)
            if line.text.strip():
                lines.append(line)
            elif line.remark and lines:
                lines[-1] = _with_remark(lines[-1], line.remark)      # a remark alone belongs to the line above
    return lines


def _with_remark(line: Line, remark: Remark) -> Line:
    return line._replace(remark=remark if line.remark is None else line.remark._replace(text=f"{line.remark.text}; {remark.text}"))


def _line(file: str, number: int, raw: str) -> Line:
    plain = raw.translate(PLAIN)
    hidden = masked(plain)
    end, remark = len(hidden), None
    if "#" in hidden and (comment := COMMENT.search(hidden)):
        end = comment.start()
    if ("--" in hidden or "—" in hidden) and (mark := REMARK.search(hidden, 0, end)):
        remark = _remark(file, number, raw, mark.end(), end)
        end = mark.start()
    end = len(plain[:end].rstrip())
    start = len(plain) - len(plain.lstrip())
    return Line(number, len(raw[:start].expandtabs(4)), plain[:end], raw[:end], remark, file)


def _remark(file: str, number: int, raw: str, start: int, end: int) -> Remark | None:
    text = raw[start:end].strip()
    return Remark(text, Span(file, number, start + 1, end + 1)) if text else None


def join(lines: list[Line]) -> Logical:
    """One logical line from the written lines it stands on."""
    text, raw, places = "", "", []
    for line in lines:
        start = len(line.text) - len(line.text.lstrip())
        if text:
            text, raw = text + " ", raw + " "
        places.append((len(text), line.number, start + 1))
        text, raw = text + line.text[start:], raw + line.raw[start:]
    remarks = [line.remark for line in lines if line.remark]
    remark = remarks[0]._replace(text="; ".join(one.text for one in remarks)) if remarks else None
    return Logical(text, raw, tuple(places), lines[0].file, lines[0].indent, remark)
