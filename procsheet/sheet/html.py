"""The sheet as one HTML document, style and fonts inside it: the same in a browser and on paper."""

import re
from base64 import b64encode
from functools import cache
from pathlib import Path

from procsheet.sheet.bars import bar_rule, head_rule
from procsheet.sheet.html_checks import checks, deviations
from procsheet.sheet.html_front import before_starting, front, more_points
from procsheet.sheet.html_making import making
from procsheet.sheet.html_weighing import weighing
from procsheet.sheet.marks import given, table, text
from procsheet.sheet.model import BARS, Branch, Head, Lanes, Sheet

STYLE = Path(__file__).parent / "style"
PAPERS = {"A4": "size: 210mm 297mm; margin: 25mm 10mm 27mm 18mm",               # the frame is 182 mm wide on both
          "Letter": "size: 215.9mm 279.4mm; margin: 25mm 15.9mm 27mm 18mm"}
DRAFT = "open figures are blanks; not for making"


def to_html(sheet: Sheet, *, paper: str = "A4") -> str:
    """Return the whole document. `paper` is 'A4' or 'Letter'; any other is a KeyError."""
    title = " ".join(filter(None, (sheet.head.code, sheet.head.product, sheet.head.batch))) or "Batch record"
    return (f'<!DOCTYPE html>\n<html lang="en"><head><meta charset="utf-8"><title>{text(title)}</title>'
            f"<style>{style(paper, bars_used(sheet))}</style></head>\n"
            f"<body>{page_head(sheet.head)}{page_foot(sheet.head)}{''.join(sections(sheet))}</body></html>\n")


def sections(sheet: Sheet):
    if sheet.front:
        yield section("Front page", front(sheet.front, sheet.head))
        if rest := more_points(sheet.front, sheet.head):
            yield section("Findings", rest)
    for name, content, to_markup in (("Before starting", sheet.before, before_starting), ("Weighing list", sheet.weighing, weighing),
                                     ("Making", sheet.making, making), ("Checks and limits", sheet.checks, checks),
                                     ("Deviations", sheet.deviations, deviations)):
        if content:
            yield section(name, to_markup(content))


def section(name: str, content: str) -> str:
    return f'\n<section data-name="{name}">{content}</section>'


def page_head(head: Head) -> str:
    here = f'<p class="product">{text(head.product)}</p><b class="here"></b>'
    code = f'<b class="code">{given(head.code)}</b> <span class="revision">revision {given(head.revision)}</span>'
    cells = (f"<p>document</p>{code}", here, f'<p>batch</p><b class="code">{given(head.batch)}</b>',
             f"<p>issue</p><b>{given(head.issue)}</b>", '<p>page</p><b class="page"></b>')
    row = f"<tr>{''.join(f'<td>{cell}</td>' for cell in cells)}</tr>"
    draft = f'<p class="draft"><b>draft</b> {DRAFT}</p>' if head.draft else ""
    return f'<header>{table("head", (47, 62, 29, 20, 24), row)}<div class="under">{draft}</div></header>'


def page_foot(head: Head) -> str:
    return (f'<footer><div class="remarks">Remarks on this page. Say what, then initials, date, time.</div>'
            f'<p>content <span class="code">{given(head.digest)}</span> &nbsp;·&nbsp; issued {given(head.issued)} &nbsp;·&nbsp; '
            f"{text(head.correcting)}</p></footer>")


def style(paper: str, bars: set[tuple[str, ...]]) -> str:
    return f"@page {{ {PAPERS[paper]} }}\n{stylesheet()}\n" + "\n".join([*map(bar_rule, sorted(bars)), *map(head_rule, BARS)])


@cache
def stylesheet() -> str:
    """The style with its fonts written into it."""
    def embedded(match):
        return "url(data:font/woff2;base64," + b64encode((STYLE / match[1]).read_bytes()).decode() + ")"
    return re.sub(r"url\((fonts/[\w-]+\.woff2)\)", embedded, (STYLE / "sheet.css").read_text("utf-8"))


def bars_used(sheet: Sheet) -> set[tuple[str, ...]]:
    single = {(bar,) for bar in BARS}
    return single | {bars for stage in (sheet.making.stages if sheet.making else ()) for bars in bars_in(stage.parts)}


def bars_in(parts):
    for part in parts:
        if isinstance(part, Lanes):
            for lane in part.lanes:
                yield from bars_in(lane.parts)
        elif isinstance(part, Branch):
            yield from bars_in(part.parts)
        else:
            yield part.bars
