"""A surfactant whose strength is not written, or one so strong that another strength was meant.

Why it matters
    Sodium laureth sulfate is sold at 27 % and at 70 %, cetrimonium chloride at 25 % and at 50 %. The store hands out what it has: with the
    wrong one the batch has a third or three times of its active matter, and the water does not fit.

Wrong
    type surfactant solution
    phase B: surfactant
        38 %  sodium laureth sulfate 70 % paste

Wrong
    type surfactant solution
    phase B: conditioner
        3 %  cetrimonium chloride

Right
    type surfactant solution
    phase B: surfactant
        38 %  sodium laureth sulfate 27 % solution

Limits
    A name with no figure, where the same surfactant is sold at strengths 1.7 times apart, is a warning; where the amount is said as active
    matter, nothing; less than 2.4 times apart, a hint. More than 20 % of active matter from one solution or paste is a warning: another
    strength was meant.

Exceptions
    Powders, which have one strength. Names that say powder, flakes or paste. Concentrates and soaps.

Needs
    assay

Source
    two public threads on formulas taken over from another strength
"""

from procsheet.findings import Finding, Label
from procsheet.model.material import SOLID
from procsheet.rules.words import listed, share

NAME = "surfactant-strength"
LEVEL = "WARN"
SAYS = ("%", "powder", "paste", "flakes", "needles", "noodles", "active", "granules", "concentrate")
GROUPS = ("surfactant", "cationic surfactant")
NEARLY = 1e-9
WHY = "The store hands out the strength it has: the batch then holds a third of its active matter, or three times as much, and the water does not fit."


def check(batch):
    for row in batch.method.rows:
        if row.material.is_a(*GROUPS) and not row.material.is_a("soap", "preservative") and row.material.text("form") not in SOLID and row.mass:
            found = _unsaid(batch, row) or _too_strong(batch, row)
            if found is not None:
                yield found


def _unsaid(batch, row) -> Finding | None:
    """No strength is written, and it is sold at several."""
    own = float(row.material.assay or 0)
    sold = {one for name in (entry.text for entry in row.material.entries("INCI")) for one in batch.method.library.strengths(name)} if own else set()
    apart = max((max(own, one) / min(own, one) for one in sold), default=1.0)
    if apart < batch.limit(NAME, "it matters") - NEARLY or any(word in row.name.lower() for word in SAYS) or row.written.as_pure or row.material.name == row.name:
        return None
    level = LEVEL if apart >= batch.limit(NAME, "it is another product") - NEARLY else "NOTE"
    strengths = listed(share(one) for one in sorted(sold))
    return Finding(level, NAME, f"{row.name} is sold at {strengths}; the batch is reckoned with {share(own)}", Label(row.span, "which strength is not said"), (), WHY,
                   f"Write the strength behind the name, `{row.material.name}`, and give the row for that strength.", f"data of {row.material.name}: assay", material=row.name)


def _too_strong(batch, row) -> Finding | None:
    """More active matter than a cleanser has of one surfactant."""
    active = batch.of_batch(row, *GROUPS)
    if batch.type != "surfactant solution" or active <= batch.limit(NAME, "seldom has") + NEARLY or row.written.as_pure:
        return None
    title = f"{share(batch.of_batch(row))} of {row.name} brings {share(active)} of active matter, more than a cleanser has of one surfactant"
    return Finding(LEVEL, NAME, title, Label(row.span, f"{share(float(row.material.assay or 1))} of it is active"), (), WHY,
                   "See whether the amount was meant for the thinner solution: then name that, or take as much less and add the water.", batch.source(NAME, "seldom has"),
                   material=row.name)
