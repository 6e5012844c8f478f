"""The weighing list: what is weighed, on which balance, between which limits, and room for what was."""

from procsheet.sheet.amounts import paddings
from procsheet.sheet.marks import box_row, given, heads, table, text
from procsheet.sheet.model import Weighing, WeighingPhase, WeighingRow

COLUMNS = (7, 46, 27, 20, 16, 24, 22, 10, 10)       # mm
TARGET_ROOM, LIMIT_ROOM = 3.9, 4.4                  # em of 18 pt in 25 mm, of 11.5 pt in 18 mm

Pads = tuple[float, float]                          # em behind a target, behind its limits


def weighing(page: Weighing) -> str:
    captions = ("", "material", unit_of("target", page), "from, to", "balance, container", "lot", unit_of("actual", page), "by", "check")
    pads = iter(row_paddings([row for each in page.phases for row in each.rows]))
    groups = "".join(phase(each, [next(pads) for _ in each.rows]) for each in page.phases)
    return (f'<h1>Weighing list</h1><p class="intro">{text(page.intro)}</p>{table("weighing", COLUMNS, groups, head=heads(*captions))}'
            f'<div class="closing">{box_row(page.closing)}</div>')


def unit_of(caption: str, page: Weighing) -> str:
    return f"{caption}, {page.unit}" if page.unit else caption


def row_paddings(rows: list[WeighingRow]) -> list[Pads]:
    """Points stand under each other where all rows have one unit; else each number stands at its unit."""
    if any(row.unit for row in rows):
        return [(0, 0)] * len(rows)
    targets = paddings(tuple(row.target for row in rows), room=TARGET_ROOM)
    limits = paddings(tuple(max(row.low, row.high, key=len) for row in rows), room=LIMIT_ROOM)
    return list(zip(targets, limits))


def phase(each: WeighingPhase, pads: list[Pads]) -> str:
    line = (f'<tr class="phase"><td colspan="4"><b>{text(each.name)}</b>&ensp;{text(each.title)}</td>'
            f'<td colspan="5">{text(each.total)}</td></tr>')
    return f"<tbody>{line}{''.join(map(weighing_row, each.rows, pads))}</tbody>"


def own_unit(row: WeighingRow) -> str:
    return f" <small>{text(row.unit)}</small>" if row.unit else ""


def weighing_row(row: WeighingRow, pads: Pads) -> str:
    note = row.note and f'<p class="hint">{text(row.note)}</p>'
    limits = "".join(f'<p style="padding-right:{pads[1]:g}em">{text(limit)}</p>' for limit in (row.low, row.high) if limit)
    check = "box second" if row.second else "box"
    target = "target own" if row.unit else "target"
    before = row.before and f"<p>{text(row.before)}</p>"
    return (f'<tr><td>{text(row.number)}</td><td><b>{text(row.material)}</b><p class="code">{text(row.second_line)}</p>{note}</td>'
            f'<td class="{target}">{before}<b style="padding-right:{pads[0]:g}em">{given(row.target)}</b>{own_unit(row)}</td>'
            f'<td class="limits">{limits}</td>'
            f'<td class="balance"><b class="code">{text(row.balance)}</b><p>{text(row.container)}</p></td>'
            f'<td class="box"></td><td class="box actual">{own_unit(row)}</td><td class="box"></td><td class="{check}"></td></tr>')
