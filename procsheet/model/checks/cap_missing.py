"""A corrector has no cap.

Why it matters
    `as needed` without `at most` lets the day's correction grow without anyone having to ask. The water charged at the
    start leaves room for the cap; without one it leaves none.

Wrong
    phase C: pH
        as needed  citric acid

Right
    phase C: pH
        as needed, at most 0.3 %  citric acid
"""

from procsheet.findings import Finding, Label


def check(tree, method):
    for row in method.rows:
        if row.kind == "corrector" and row.cap is None:
            yield Finding("OPEN", "cap-missing", f"nothing says how much {row.name} may go in", Label(row.span, "as needed, without `at most`"),
                          why="Without a cap the water charged at the start leaves no room for it, and nobody has to ask before adding more.",
                          fix=f"Write: as needed, at most ... %  {row.name}", material=row.name)
