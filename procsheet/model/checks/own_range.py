"""A row's figure lies outside the range written beside it.

Wrong
    phase C: late
        5 % within 1-4 %  glycerin

Right
    phase C: late
        3 % within 1-4 %  glycerin
"""

from procsheet.findings import Finding, Label
from procsheet.model.quantities import shown


def check(tree, method):
    for row in method.rows:
        if row.within and row.amount is not None and not row.written.as_pure and not row.within[0] <= row.amount <= row.within[1]:
            yield Finding("STOP", "own-range", f"{row.name} is {shown(row.written.amount)}, outside its own range of {shown(row.written.within)}",
                          Label(row.span), why="One of the two figures is a slip.", fix="Correct the figure, or the range behind `within`.",
                          material=row.name, cannot_be_accepted=True)
