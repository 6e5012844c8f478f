"""How a plain q.s. was read.

Why it matters
    q.s. means three things on published sheets: the row that closes, a corrector for the day, a dose that is not printed.
"""

from procsheet.findings import Finding, Label

MEANS = {"corrector": ("a corrector that the adjust step uses", "as needed, at most ... %"), "closing": ("the row that closes to 100 %", "to 100 %"),
         "open": ("a dose that is not known yet", "? %")}


def finding(row, kind: str) -> Finding:
    means, write = MEANS[kind]
    return Finding("NOTE", "qs-reading", f"q.s. of {row.name} is read as {means}", Label(row.span), fix=f"Write `{write}` to say so.", material=row.name)
