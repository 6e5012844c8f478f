"""The rows of the formula do not add up to the batch.

Why it matters
    A formula over 100 % cannot be weighed into its batch; one under 100 % makes less than the sheet says, and every
    strength in it is off. A published total such as 99.5 or 101.1 % is told with its figure, so that one row can give way.

Wrong
    phase C: late
        90 %  glycerin
    phase D: more
        20 %  "propylene glycol"

Right
    phase C: late
        5 %  glycerin

Limits
    With `basis the sum` the rows are the batch and nothing is asked. An open dose (`? %`) lowers the total and is said.
"""

from fractions import Fraction

from procsheet.findings import Finding, Label

SLACK = Fraction(1, 1000)               # 0.1 % of the batch (handbook of mistakes M81: 100 +/- 0.1)
WHY = "A formula over 100 % cannot be weighed into its batch; one under it makes less, and every strength in it is off."


def check(tree, method):
    if method.basis_written == "the sum" or not method.rows or method.by_volume:
        return
    closing, opened = method.closing, [row for row in method.rows if row.kind == "open"]
    rows = [row for row in method.rows if row.kind == "figure" and row.mass is not None]
    total = sum((row.mass for row in rows), Fraction(0)) / method.mass
    at = _place(method, rows, total)
    if closing is not None and closing.mass is not None and closing.mass < 0:
        yield _finding("STOP", f"the rows with a figure make {percent(total)}, so nothing is left for {closing.name}", at,
                       "Lower one of the figures, or check the units.", _beside(at, closing))
    elif closing is not None and closing.mass is not None and closing.mass < _kept(method):
        yield _finding("STOP", f"{closing.name} is {percent(closing.mass / method.mass)}, less than the {percent(_kept(method) / method.mass)} kept for correctors and rinses", at,
                       "Lower one of the figures, the caps or the hold-back.", _beside(at, closing))
    elif closing is None and total > 1 + SLACK or closing is None and not opened and total < 1 - SLACK:
        yield _finding("STOP", f"the rows add up to {percent(total)}", at, "Let the row that may give way close: `to 100 %, about ... %`; "
                       "or write `basis the sum` if the rows are the batch.")
    elif closing is None and not opened and total != 1:
        yield _finding("WARN", f"the rows add up to {percent(total)}, not quite 100 %", at, "Let the row that may give way close: `to 100 %, about ... %`.")


def _place(method, rows, total) -> Label:
    """The row that outweighs all others together, as a slip of unit or decimal does; else the row that closes, or the last."""
    outlier = next((row for row in rows if 2 * row.mass > total * method.mass and total > 1), None) if len(rows) > 1 else None
    if outlier is not None:
        return Label(outlier.span, f"{percent(outlier.mass / method.mass)}, more than all other figures together")
    closing = method.closing
    return Label((closing or (rows or method.rows)[-1]).span, f"the rows with a figure make {percent(total)}" + (" without it" if closing else " so far"))


def _kept(method) -> Fraction:
    """kg of the closing row that is not charged: room for the correctors, and what is held back."""
    return sum((row.cap or row.guide or 0 for row in method.rows if row.kind == "corrector"), Fraction(0)) + method.closing.hold_back


def _beside(at, closing) -> tuple[Label, ...]:
    return (Label(closing.span, "closes the formula"),) if at.span != closing.span else ()


def _finding(level, title, at, fix, also=()):
    return Finding(level, "formula-total", title, at, also, WHY, fix, cannot_be_accepted=level == "STOP")


def percent(share: Fraction) -> str:
    digits = f"{float(share * 100):.3f}".rstrip("0").rstrip(".")
    return f"{digits} %"
