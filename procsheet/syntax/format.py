"""The canonical layout of a file: four blanks a level, one blank between words, amounts and names of a phase in columns.

Words stay as they were written, comments and remarks stay with their line. A file with slips comes back as it was.
"""

from typing import Callable, NamedTuple

from procsheet.findings import Finding
from procsheet.source import Source
from procsheet.syntax.data import parse_data, parse_plant
from procsheet.syntax.lines import COMMENT, PLAIN, REMARK, Line, masked, read_lines
from procsheet.syntax.parse import parse_method
from procsheet.syntax.parsed import Parsed
from procsheet.syntax.standing import Place, data_places, method_places, plant_places

LEVEL = "    "


class Formatted(NamedTuple):
    """The text as it should stand, or as it was where findings say why it could not be laid out."""

    text: str
    findings: tuple[Finding, ...]


class Written(NamedTuple):
    """One written line taken apart: what is said, the remark and the comment behind it; each '' where there is none."""

    said: str
    remark: str
    comment: str
    indented: bool = False


def format_method(source: Source) -> str:
    """The text of a method file in its canonical layout."""
    return lay_out(source, parse_method, method_places).text


def format_materials(source: Source) -> str:
    """The text of a materials file in its canonical layout."""
    return lay_out(source, parse_data, data_places).text


def format_plant(source: Source) -> str:
    """The text of a plant file in its canonical layout."""
    return lay_out(source, parse_plant, plant_places).text


def formatted(source: Source) -> Formatted:
    """A file of any kind in its canonical layout, and what is wrong with it. The kind is told by its first word."""
    first = next((line.text.split()[0].lower() for line in read_lines(source)), "")
    if first == "plant" or source.name.endswith(".plant"):
        return lay_out(source, parse_plant, plant_places)
    if first in ("material", "kind", "rule") or source.name.endswith((".materials", ".rules")):
        return lay_out(source, parse_data, data_places)
    return lay_out(source, parse_method, method_places)


def lay_out(source: Source, parse: Callable[[Source], Parsed], places: Callable[[list[Line], Parsed], dict[int, Place]]) -> Formatted:
    """The text in its canonical layout, and what is wrong with it."""
    parsed = parse(source)
    if parsed.findings:
        return Formatted(source.text, parsed.findings)
    standing = places(read_lines(source), parsed)
    written = [_apart(raw) for raw in source.lines]
    return Formatted(_set(written, _filled(written, standing)), ())


# ---- a written line taken apart


def _apart(raw: str) -> Written:
    hidden = masked(raw.translate(PLAIN))
    end, remark, comment = len(raw), "", ""
    if found := COMMENT.search(hidden):
        comment, end = raw[found.end() - 1:].rstrip(), found.start()
    if found := REMARK.search(hidden, 0, end):
        remark, end = raw[found.start():end].strip(), found.start()
    return Written(raw[:end].rstrip(), remark, comment, raw[:1].translate(PLAIN) == " ")


def _one_blank(text: str) -> str:
    """One blank between words, but for what stands in double quotes."""
    hidden = masked(text.translate(PLAIN))
    out = []
    for place, letter in enumerate(text):
        blank = hidden[place] == " "
        if not (blank and (not out or out[-1] == " ")):
            out.append(" " if blank else letter)
    return "".join(out).strip()


def _cells(said: str, breaks: tuple[int, ...]) -> list[str]:
    """The line parted at its columns."""
    cuts = [0, *breaks, len(said)]
    return [_one_blank(said[start:end]) for start, end in zip(cuts, cuts[1:])]


# ---- setting the lines


def _filled(written: list[Written], standing: dict[int, Place]) -> list[Place]:
    """A place for every line: a comment alone stands like the line below it, a remark alone deeper than the line above it."""
    out: list[Place] = [Place(0, "")] * len(written)
    following = Place(0, "")
    for index in range(len(written) - 1, -1, -1):
        following = standing.get(index + 1, following)
        out[index] = following
    above = Place(0, "")
    for index, line in enumerate(written):
        if index + 1 in standing:
            above = standing[index + 1]
        elif line.remark and not line.said:
            out[index] = Place(above.depth + 1, above.part)
        elif line.indented and out[index].part != above.part or not out[index].part:
            out[index] = Place(above.depth if line.indented else 0, above.part)     # the last comment of a part stays in it
        else:
            out[index] = Place(out[index].depth, out[index].part)
    return out


def _set(written: list[Written], places: list[Place]) -> str:
    widths = _widths(written, places)
    out: list[str] = []
    part = places[0].part if places else ""
    for line, place in zip(written, places):
        if not (line.said or line.remark or line.comment):
            if out and out[-1]:
                out.append("")
            continue
        if place.part != part:
            _part(out)
            part = place.part
        out.append(_line(line, place, widths.get(place.table, [])))
    return "\n".join(out).strip("\n") + "\n"


def _part(out: list[str]) -> None:
    """One blank line between two parts of the file, above the comments that belong to the second."""
    if out and out[-1]:
        out.append("")


def _widths(written: list[Written], places: list[Place]) -> dict[int, list[int]]:
    """The width of each column of each table; the last is that of whole lines with something behind them."""
    widths: dict[int, list[int]] = {}
    for line, place in zip(written, places):
        if place.table and line.said.strip():
            cells = _cells(line.said, place.breaks)
            known = widths.setdefault(place.table, [0] * 4)
            for column, cell in enumerate(cells[:-1]):
                known[column] = max(known[column], len(cell))
    for line, place in zip(written, places):
        if place.table and (line.remark or line.comment) and line.said.strip():
            widths[place.table][3] = max(widths[place.table][3], len(_said(line, place, widths[place.table])))
    return widths


def _said(line: Written, place: Place, widths: list[int]) -> str:
    cells = _cells(line.said, place.breaks)
    if not widths:
        return LEVEL * place.depth + " ".join(cell for cell in cells if cell)
    padded = [cell.ljust(widths[column]) + "  " for column, cell in enumerate(cells[:-1])]
    return (LEVEL * place.depth + "".join(padded) + cells[-1]).rstrip()


def _line(line: Written, place: Place, widths: list[int]) -> str:
    said = _said(line, place, widths) if line.said.strip() else LEVEL * place.depth
    tail = "  ".join(part for part in (line.remark, line.comment) if part)
    if not line.said.strip():
        return said + tail
    return f"{said.ljust(widths[3]) if widths and tail else said}  {tail}".rstrip() if tail else said
