"""Without a make up the batch ends lighter or heavier than its size, by what the correctors take that day.

Why it matters
    The water is charged less the correctors' guides. If the day needs none, the batch is short of the guide; if it needs the
    whole cap, it is too heavy by the difference. A `make up ... to 100 %` puts it right on the scale.

Wrong
    phase C: pH
        as needed, about 0.1 %, at most 0.3 %  citric acid 20 % solution
    method
        adjust main to pH 5 with C

Right
    phase C: late
        5 %  glycerin
"""

from procsheet.findings import Finding, Label
from procsheet.model.checks.formula_total import percent


def after_make_up(row, step, share) -> Finding:
    return Finding("NOTE", "batch-weight", f"{row.name} goes in after the make up: the batch may end {percent(share)} heavy", Label(step.span, "after the make up"),
                   why="What the correctors take that day is not put right on the scale.", fix="Make up the batch after the last correction.",
                   material=row.name, step=step.number)


def finding(closing, short, heavy) -> Finding:
    return Finding("NOTE", "batch-weight", f"without a make up the batch may end {percent(short)} light to {percent(heavy)} heavy", Label(closing.span, "closes the formula"),
                   why="What the correctors take that day is not put right on the scale.", fix=f'Add a step near the end: make up main with "{closing.name}" to 100 %',
                   material=closing.name)
