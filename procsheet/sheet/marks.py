"""The small things every page is made of: words, ruled blanks, boxes to write in, tick boxes, triangles, heads."""

import re
from html import escape

from procsheet.sheet.model import Box, Caution, Words

UNITS = ("kg|g|mg|t|L|mL|µL|lb|oz|min|h|s|days?|weeks?|months?|°C|°F|K|%|rpm|m/s|bar|mbar|Pa|kPa|mm²/s|mm|cm|m|m²|m³|µm|mPa·s|Pa·s|"
         "kg/min|L/min|g/mL|cfu/g|portions?|people|kW")
KEPT_TOGETHER = re.compile(rf"(?:pH )?[−+≤≥<>×÷]? ?\d[\d.,\u2009]*(?: ?– ?\d[\d.,\u2009]*)?(?:[ \u00a0](?:{UNITS})(?![\w/]))?")

TICK = '<i class="tick"></i>'
TRIANGLE = ('<svg class="triangle" viewBox="0 0 60 54"><title>Caution</title><path d="M30 5 55.5 49.5H4.5Z" fill="none" stroke="#000" '
            'stroke-width="5" stroke-linejoin="round"/><path d="M26.8 19h6.4l-1 14.5h-4.4z"/><circle cx="30" cy="39.6" r="3.2"/></svg>')
HEADS = ('<svg class="heads" viewBox="0 0 72 44"><title>Two people</title><g stroke="#000" stroke-width="4">'
         '<circle cx="50" cy="12" r="9" fill="#fff"/><path d="M32 41c0-22 36-22 36 0z" fill="#fff" stroke-linejoin="round"/>'
         '<circle cx="23" cy="12" r="9"/><path d="M4 41c0-22 38-22 38 0z" stroke-linejoin="round"/></g></svg>')


def text(string: str) -> str:
    """Escape, and keep a number with its unit and a range with its dash."""
    return KEPT_TOGETHER.sub(kept, escape(string, quote=False))


def kept(match: re.Match) -> str:
    found = match[0]
    core = found.strip()
    return found.replace(core, f'<span class="kept">{core}</span>') if " " in core or "–" in core else found


def given(string: str) -> str:
    """What was given, else a ruled blank."""
    return text(string) if string else '<span class="blank"></span>'


def words(runs: Words) -> str:
    return "".join(run(*each) for each in runs)


def run(string: str, kind: str, sum: str) -> str:
    if kind == "plain":
        return text(string)
    if kind == "blank":
        return (f'<span class="kept"><span class="blank"></span> {escape(string)}</span>'
                + (f' <span class="sum">= {text(sum)}</span>' if sum else ""))
    return f'<b class="{kind}">{text(string)}</b>'


def caution(each: Caution) -> str:
    return f'<div class="caution">{TRIANGLE}<p><b>{text(each.danger)}</b> {text(each.advice)}</p></div>'


def table(css: str, widths: tuple[float, ...], rows: str, *, head: str = "") -> str:
    """A table with its columns in mm. `rows` holds the `tr`, or whole `tbody` groups."""
    columns = "".join(f'<col style="width:{width:g}mm">' for width in widths)
    heading = head and f"<thead>{head}</thead>"
    return f'<table class="{css}" style="width:{sum(widths):g}mm"><colgroup>{columns}</colgroup>{heading}{rows}</table>'


def heads(*captions: str) -> str:
    return "<tr>" + "".join(f'<th scope="col">{text(caption)}</th>' for caption in captions) + "</tr>"


def box(each: Box, span: int = 1) -> str:
    limit = each.limit and f" <b>{text(each.limit)}</b>"
    filled = each.filled and f'<p class="filled">{text(each.filled)}</p>'
    css = "box second" if each.second else "box"
    return f'<td class="{css}" colspan="{span}"><p class="caption">{text(each.caption)}{limit}</p>{filled}</td>'


def box_grid(boxes: tuple[Box, ...], columns: int, width: float) -> str:
    """Boxes in rows of a few columns of `width` mm; the last box of a row takes what is left of it."""
    rows = "".join(f"<tr>{''.join(box(*each) for each in row)}</tr>" for row in box_rows(boxes, columns))
    return table("boxes", (width,) * columns, rows) if boxes else ""


def box_rows(boxes: tuple[Box, ...], columns: int) -> list[list[tuple[Box, int]]]:
    """Each box with the columns it takes, row by row."""
    rows, room = [], 0
    for each in boxes:
        span = min(each.width, columns)
        if span > room:
            rows.append([])
            room = columns
        rows[-1].append((each, span))
        room -= span
    return [stretched(row, columns) for row in rows]


def stretched(row: list[tuple[Box, int]], columns: int) -> list[tuple[Box, int]]:
    last, span = row[-1]
    return [*row[:-1], (last, columns - sum(span for _, span in row[:-1]))]


def box_row(boxes: tuple[Box, ...], width: float = 182) -> str:
    """One row of boxes over the whole frame, each as wide as its share."""
    shares = sum(each.width for each in boxes)
    widths = tuple(round(width * each.width / shares, 2) for each in boxes)
    return table("boxes row", widths, f"<tr>{''.join(map(box, boxes))}</tr>") if boxes else ""
