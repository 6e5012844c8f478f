"""Two rows close the formula.

Why it matters
    With two rows that take what is left, nobody can say how much of either is weighed.

Wrong
    phase C: late
        to 100 %  glycerin

Right
    phase C: late
        5 %  glycerin
"""

from procsheet.findings import Finding, Label


def check(tree, method):
    closing = [row for row in method.rows if row.kind == "closing"]
    for row in closing[1:]:
        yield Finding("STOP", "two-closing-rows", f"{row.name} closes the formula a second time", Label(row.span, "closes too"),
                      (Label(closing[0].span, "closes already"),), why="With two rows that take what is left, nobody can say how much of either is weighed.",
                      fix=f"Give {row.name} its figure, and let only {closing[0].name} close.", material=row.name, cannot_be_accepted=True)
    for row in method.rows:
        if row.written.kind == "q.s." and row.kind == "open" and closing and row.material.name == closing[0].material.name:
            yield Finding("WARN", "two-closing-rows", f"{row.name} stands q.s. in two places: it closes in {closing[0].code}, and here its amount is open",
                          Label(row.span, "how much here?"), (Label(closing[0].span, "closes the formula"),),
                          why="Published sheets that close twice hide how much goes where.", fix="Give this one its figure: ... %", material=row.name)
