"""Checks with their limits, yield and reconciliation; deviations, bulk and release."""

from procsheet.sheet.marks import TICK, box_row, given, heads, table, text
from procsheet.sheet.model import Check, Checks, Deviations, Mass, Ratio

DEVIATION_ROWS = 5
BY_TWO = '<td class="box"></td><td class="box second"></td>'        # one works it out, another checks it
NO_LIMITS = "The method gives no limits and no checks."


def checks(page: Checks) -> str:
    captions = heads("check", "limit", "found", "ring one", "by, date")
    rows = table("checks", (56, 52, 34, 16, 24), "".join(map(check, page.checks)), head=captions)
    if not page.checks:
        rows = f'<p class="intro">{NO_LIMITS}</p>'
    return f"<h1>Checks and limits</h1>{rows}{balance(page)}"


def check(each: Check) -> str:
    return (f"<tr><td><b>{text(each.name)}</b><p>{text(each.how)}</p></td><td><b>{given(each.limit)}</b></td>"
            f'<td class="box"></td><td class="box ring"><p>pass</p><p>fail</p></td><td class="box"></td></tr>')


def balance(page: Checks) -> str:
    rows = "".join(map(mass, page.masses)) + "".join(map(ratio, page.ratios))
    captions = heads("", "", f"expected, {page.unit}", "", f"actual, {page.unit}", "by", "checked")
    masses = table("yield", (66, 8, 36, 2, 26, 22, 22), rows, head=captions)
    return rows and f'<div class="balance"><h2>Yield and reconciliation</h2>{masses}</div>'


def mass(each: Mass) -> str:
    return (f'<tr><td>{text(each.name)}</td><td><b>{text(each.letter)}</b></td>'
            f'<td class="expected"><b>{text(each.expected)}</b></td><td></td><td class="box"></td>{BY_TWO}</tr>')


def ratio(each: Ratio) -> str:
    return (f'<tr><td colspan="2"><b>{text(each.name)}</b>&ensp;<small>{text(each.formula)}</small></td>'
            f'<td class="expected"><b>{given(each.expected)}</b></td><td></td><td class="box unit">{text(each.unit)}</td>{BY_TWO}</tr>')


def deviations(page: Deviations) -> str:
    row = '<tr><td class="box"></td><td class="box"></td><td class="box"></td><td class="box second"></td></tr>'
    captions = heads("step", "what happened, how much, when", "what was done", "decided by, date")
    bulk = page.bulk and f"<h2>Bulk</h2>{box_row(page.bulk)}" or ""
    return (f'<h1>Deviations</h1><p class="intro">{text(page.intro)}</p>'
            + table("deviations", (14, 92, 46, 30), row * DEVIATION_ROWS, head=captions) + bulk + box_row(page.laboratory)
            + f'<div class="release"><h2>Release</h2>{statements(page)}{outcomes(page)}{box_row(page.signing)}</div>')


def statements(page: Deviations) -> str:
    return table("statements", (11, 171), "".join(f"<tr><td>{TICK}</td><td>{text(line)}</td></tr>" for line in page.statements))


def outcomes(page: Deviations) -> str:
    each = round(182 / max(len(page.outcomes), 1), 2) - 8
    cells = "".join(f"<td>{TICK}</td><td><b>{text(line)}</b></td>" for line in page.outcomes)
    return table("outcomes", (8, each) * len(page.outcomes), f"<tr>{cells}</tr>")
