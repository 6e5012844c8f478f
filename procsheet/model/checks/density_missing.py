"""A material is measured by volume and its density is not known.

Why it matters
    Volumes do not add and cannot be put on a balance. Without a density, 1 g/mL is taken and said.

Wrong
    phase C: late
        5 mL  unheard-of tincture

Right
    phase C: late
        5 mL  glycerin
"""

from procsheet.findings import Finding, Label


def check(tree, method):
    for row in method.rows:
        if row.assumed_density:
            yield Finding("OPEN", "density-missing", f"{row.name} is measured by volume and its density is not known; 1 g/mL is taken", Label(row.span),
                          why="Shares by weight, fill levels and temperatures of mixtures rest on this guess.",
                          fix=f'Give it a density in your own materials file, or: override "{row.name}" density ... g/mL', material=row.name)
