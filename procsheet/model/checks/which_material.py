"""A name stands for more than one material.

Why it matters
    One ingredient-list name covers several articles: hydrates, strengths, grades. Their data differ, and so do the amounts.
"""

from procsheet.findings import Finding, Label
from procsheet.syntax.slips import either


def finding(name: str, known: list[str], row) -> Finding:
    return Finding("OPEN", "which-material", f"{name} may be one of several materials", Label(row.name_span, "not clear which"),
                   why="Their data differ, so the checks that need them were not made.", fix=f"Write {either(known[:5])}.", material=name)
