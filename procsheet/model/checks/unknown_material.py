"""No data are known for a material: the checks that need them were not made.

Why it matters
    A check that lacks a figure is silent. The material goes on as a blank one, and this is said once. Another strength
    of a listed material, and a perfume, flavour or plant extract by its name, borrow the data of the listed one, and that is said.

Wrong
    phase C: late
        1 %  unheard-of stuff

Right
    phase C: late
        1 %  glycerin
"""

from procsheet.findings import Finding, Label
from procsheet.syntax.slips import did_you_mean


def finding(name: str, taken_for: str, library, row) -> Finding:
    """taken_for: the listed material it borrows its data from, '' for none."""
    if taken_for:
        return Finding("NOTE", "unknown-material", f"no data of its own are known for {name}; it is taken as {taken_for}", Label(row.name_span, "borrows its data"),
                       fix=f"Give it a block `material {name}` in your own materials file where it differs.", material=name)
    fix = did_you_mean(name, library.names())
    return Finding("OPEN", "unknown-material", f"no data are known for {name}", Label(row.name_span, "goes on as a blank material"),
                   why="Checks of temperature, shear, flash point and company that need its data were not made.",
                   fix=f"{fix + ' ' if fix else ''}Else give it a block `material {name}` in your own materials file.", material=name)
