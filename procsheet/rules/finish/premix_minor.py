"""A few grams go into a full kettle by themselves.

Why it matters
    What is less than a thousandth of the batch clings to the cup, the shaft or the wall where it falls. It is missing in the batch, or
    sits in one place as a speck of colour or a hot spot of active.

Wrong
    product Alone
    type gel
    basis 200 kg
    to 100 %  purified water
    1 %       xanthan gum
    0.02 %    bisabolol
    vessel main
    method
        charge "purified water" and "xanthan gum" into main
        add "bisabolol" to main with anchor
        fill main

Right
    product Premixed
    type gel
    basis 200 kg
    to 100 %  purified water
    1 %       xanthan gum
    1 %       polysorbate 20
    0.02 %    bisabolol
    vessel main
    vessel cup
    method
        charge "purified water" and "xanthan gum" into main
        charge "polysorbate 20" and "bisabolol" into cup
        add cup to main with anchor
        fill main

Limits
    Under 0.1 % of the batch, alone in its step, into a vessel that holds half of a batch of 20 kg or more. What goes in with a vessel that
    holds it diluted, or with others in one step, is fine.

Exceptions
    What the crew sees go in (`until clear`, `dissolve`), what is added below the surface or drop by drop; correctors, perfume, water, alcohol, chelators,
    ready solutions; what goes in before half of the batch and is stirred for the rest of the day.

Source
    common practice, no source; weighing residue: a pharmacy teaching page
"""

from procsheet.findings import Finding, Label
from procsheet.rules.words import share, weight

NAME = "premix-minor"
LEVEL = "WARN"
SEEN = ("until", "each until", "below the surface", "drop by drop")
ADDS = ("add", "disperse", "charge", "emulsify", "activate")
DILUTE = 0.2                            # as supplied: weaker, it is a premix already (common practice, no source)
FINE = ("water", "alcohol", "base", "acid", "chelator", "perfume")
WHY = "A few grams cling to the cup, the shaft or the wall where they fall. They are missing in the batch, or sit in one place as a speck or a hot spot."


def check(batch):
    minor, large, full = batch.limit(NAME, "under which"), batch.limit(NAME, "from which the vessel"), batch.limit(NAME, "in the vessel")
    if float(batch.plan.mass) < large:
        return
    for moment in batch.trace.moments:
        added = [portion for portion in moment.entering if portion.mass]
        alone = len(added) == 1 and not moment.poured or moment.step.has("one at a time", "in order")
        if not alone or moment.step.verb not in ADDS or moment.step.has(*SEEN) or sum(moment.before.values()) < full * float(batch.plan.mass):
            continue
        for portion in added:
            row = portion.row
            if batch.of_batch(row) < minor and portion.use == "" and _clings(row.material):
                yield _finding(batch, moment, row)


def _clings(material) -> bool:
    """Known, neat, and no liquid that is one with the batch at once."""
    return material.known and not material.is_a(*FINE) and material.text("form") not in ("solution", "dispersion") and float(material.assay or 1) > DILUTE


def _finding(batch, moment, row) -> Finding:
    kilograms = moment.added.get(row.code, 0.0)
    return Finding(LEVEL, NAME, f"{row.name}, {weight(kilograms)} ({share(batch.of_batch(row))}), goes by itself into {weight(sum(moment.before.values()))} in {moment.vessel}",
                   Label(moment.span, "it clings where it falls"), (Label(row.span),), WHY,
                   f"Before line {moment.span.line}, mix {row.name} in a cup with at least ten times as much of a liquid of the formula that takes it up, add the cup, and rinse it.",
                   batch.source(NAME, "under which"), material=row.name, step=moment.step.number)
