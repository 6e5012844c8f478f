"""A row has a range and no figure: it is made at the middle.

Why it matters
    A published range such as 45-55 % cannot be weighed. The middle is taken, and said, until a figure is chosen.

Wrong
    phase C: late
        4-6 %  glycerin

Right
    phase C: late
        5 % within 4-6 %  glycerin
"""

from procsheet.findings import Finding, Label
from procsheet.model import quantities


def check(tree, method):
    for row in method.rows:
        amount = row.written.amount
        if row.kind == "figure" and amount is not None and amount.low != amount.high:
            middle = f"{float((quantities.exact(amount)[0] + quantities.exact(amount)[1]) / 2 * 100):g} %" if amount.unit == "%" else "the middle"
            yield Finding("NOTE", "amount-range", f"{row.name} is given as {quantities.shown(amount)}: made at {middle}", Label(row.span, "no figure yet"),
                          fix=f"Choose a figure: {middle} within {quantities.shown(amount)}.", material=row.name)
