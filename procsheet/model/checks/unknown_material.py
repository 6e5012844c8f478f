"""No data are known for a material: the checks that need them were not made.

Why it matters
    A check that lacks a figure is silent. The material goes on as a blank one, and this is said once.

Wrong
    phase C: late
        1 %  unheard-of extract

Right
    phase C: late
        1 %  glycerin
"""

from procsheet.findings import Finding, Label
from procsheet.syntax.slips import did_you_mean


def finding(name: str, known: list[str], row) -> Finding:
    fix = did_you_mean(name, known)
    return Finding("OPEN", "unknown-material", f"no data are known for {name}", Label(row.name_span, "goes on as a blank material"),
                   why="Checks of temperature, shear, flash point and company that need its data were not made.",
                   fix=f"{fix + ' ' if fix else ''}Else give it a block `material {name}` in your own materials file.", material=name)
