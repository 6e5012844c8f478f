"""The labels as one HTML document: two beside each other, cutting lines between them, one ink, embedded fonts."""

from pathlib import Path

from procsheet.labels.code import drawn
from procsheet.labels.label import Label, Labels
from procsheet.labels.weighed import Weighed
from procsheet.sheet.bars import bar_class, bar_rule
from procsheet.sheet.html import stylesheet
from procsheet.sheet.marks import box_grid, given, table, text
from procsheet.sheet.model import Box, Head
from procsheet.sheet.pieces import line

STYLE = Path(__file__).parent / "labels.css"
ACROSS, WIDE = 2, 95                                        # labels in a row, mm of one
PAPERS = {"A4": ("210mm 297mm", "12mm 10mm 13mm", 67),      # paper, margins, mm of a label: four rows fill a page, a row that needs more room may have a little
          "Letter": ("215.9mm 279.4mm", "8mm 12.95mm 10mm", 62)}
INSIDE, ROUND = 82, 4.8     # mm of a label right of its bar, and above and below what it says
DRAFT = "draft, not for making"
NO_CODES = "No hazard codes in its data; read its safety data sheet."


def to_html(made: Labels, *, paper: str = "A4") -> str:
    """Return the whole document. `paper` is 'A4' or 'Letter'; any other is a KeyError."""
    rows = [made.labels[at:at + ACROSS] for at in range(0, len(made.labels), ACROSS)]
    body = "".join(f'<tr>{"".join(cell(each, made.head) for each in row)}{"<td></td>" * (ACROSS - len(row))}</tr>' for row in rows)
    title = line("Labels", made.head.code, made.head.product, made.head.batch)
    return (f'<!DOCTYPE html>\n<html lang="en"><head><meta charset="utf-8"><title>{text(title)}</title><style>{style(made, paper)}</style></head>\n'
            f'<body><p class="foot">{foot(made)}</p>{table("labels", (WIDE,) * ACROSS, body)}</body></html>\n')


def style(made: Labels, paper: str) -> str:
    size, margin, tall = PAPERS[paper]
    bars = sorted({each.weighed.bar for each in made.labels if each.weighed.bar})
    return f"{stylesheet()}\n@page {{ size: {size}; margin: {margin} }}\n{STYLE.read_text('utf-8')}.inside {{ min-height: {tall - ROUND}mm }}\n" + "\n".join(bar_rule((bar,)) for bar in bars)


def foot(made: Labels) -> str:
    head = made.head
    return f"{text(line(head.product, head.code, by=', '))} · {len(made.labels)} labels, one a container · cut along the lines · content {text(head.digest)}"


# ---- one label

def cell(each: Label, head: Head) -> str:
    one = each.weighed
    bar = f" {bar_class((one.bar,))}" if one.bar else ""
    draft = f'<p class="draft">{DRAFT}</p>' if head.draft else ""
    return (f'<td class="label"><div class="lane{bar}"></div><div class="inside">{draft}{code(each, head)}{name(one)}{amount(each)}{facts(each, head)}{minding(one)}'
            f"{box_grid(boxes(one), 6, round(INSIDE / 6, 3))}</div></td>")


def boxes(one: Weighed) -> tuple[Box, ...]:
    return (Box("lot", width=2), Box(f"net in this container, {one.line.unit}", width=2), Box("date", width=2),
            Box("weighed by", width=3), Box("checked by", width=3, second=True))


def code(each: Label, head: Head) -> str:
    return f'<div class="square">{drawn(each.code)}<p class="code">{text(head.digest)}</p></div>'


def name(one: Weighed) -> str:
    second = line(f"line {one.printed.number}", one.line.row.code, one.grade, one.inci and f"INCI {one.inci}", by=" · ")
    return f'<p class="name">{text(one.printed.material)}</p><p class="code">{text(second)}</p>'


def amount(each: Label) -> str:
    """The target of the weighing line; of several containers, of all together."""
    one = each.weighed
    row = one.printed
    between = f'<p class="range">from <b>{text(row.low)}</b> to <b>{text(row.high)}</b> {text(one.line.unit)}</p>' if row.low and row.high else ""
    together = f'<p class="range">in all {each.of} containers together</p>' if each.of > 1 else ""
    before = f"{text(row.before)} " if row.before else ""
    return f'<p class="amount">{before}<b>{given(row.target)}</b> {text(one.line.unit)}</p>{between}{together}'


def facts(each: Label, head: Head) -> str:
    one = each.weighed
    document = f"<b>{given(head.code)}</b> <small>rev. {given(head.revision)}</small>"
    container = f"<b>{each.number} of {each.of}</b>"
    cells = ((head.product, document), ("batch", f"<b>{given(head.batch)}</b>"), goes(one), (one.line.container or "container", container))
    return table("facts", (27, 19, 24, 12), f"<tr>{''.join(f'<td><p>{text(caption)}</p>{said}</td>' for caption, said in cells)}</tr>")


def goes(one: Weighed) -> tuple[str, str]:
    """The caption, and `18 into MAIN` below it."""
    steps, _, numbers = one.goes.partition(" ")
    if not one.line.step:
        return one.phase, f"<b>{text(one.goes)}</b>"
    return f"{one.phase}, {steps}", f"<b>{text(numbers)}</b>" + (f" into <b>{text(one.vessel)}</b>" if one.vessel else "")


def minding(one: Weighed) -> str:
    """What to mind at the balance, and the hazard codes, which never stand for the data sheet."""
    codes = f"<b>{text(', '.join(one.hazards))}</b>: read its safety data sheet." if one.hazards else NO_CODES
    return "".join(f"<p>{each}</p>" for each in (text(one.printed.note), codes) if each).join(('<div class="minding">', "</div>"))
