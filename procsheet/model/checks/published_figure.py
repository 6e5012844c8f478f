"""The figure given beside the closing row is not what the other rows leave.

Why it matters
    `to 100 %, about 80.2 %` keeps a published figure beside the sum. If the two differ, a row was mistyped or left out.

Wrong
    phase C: late
        5 %  glycerin
    phase A: water
        to 100 %, about 50 %  purified water

Right
    phase C: late
        5 %  glycerin

Limits
    Half a per cent of the batch is forgiven: published sheets round, and correctors come out of the closing row.
"""

from fractions import Fraction

from procsheet.findings import Finding, Label
from procsheet.model.checks.formula_total import percent

SLACK = Fraction(5, 1000)


def check(tree, method):
    row = method.closing
    if row is None or row.guide is None or row.mass is None or method.by_volume:
        return
    caps = sum((one.cap or one.guide or 0 for one in method.rows if one.kind == "corrector"), Fraction(0))
    opened = any(one.kind == "open" for one in method.rows)
    low, high = (row.mass - caps) / method.mass - SLACK, row.mass / method.mass + SLACK
    share = row.guide / method.mass
    if share > high or (share < low and not opened):
        yield Finding("WARN", "published-figure", f"{row.name} is given as about {percent(share)}, but the other rows leave {percent(row.mass / method.mass)}",
                      Label(row.span, "the figure given"), why="A row was mistyped or left out, or the published sheet does not add up.",
                      fix="Check the rows against the source; then correct the guide, or take it out.", material=row.name)
