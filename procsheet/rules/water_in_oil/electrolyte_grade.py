"""Nothing says which hydrate of a salt, or which grade of kitchen salt, holds a water-in-oil emulsion.

Why it matters
    The heptahydrate of magnesium sulfate is half water: a drum of the dried salt in its place doubles the dose, the other way round halves it, and
    the cream sweats. Kitchen salt carries iodide and anticaking powder, which yellow the cream and cloud its water.

Wrong
    type water-in-oil emulsion
    phase B: oils
        20 %  caprylic/capric triglyceride
        4 %  sorbitan oleate
    phase C: salt
        0.8 %  magnesium sulfate
    method
        charge B into side
        dissolve C in main
        add main to side slowly, over 20 min with homogeniser
        transfer side to main

Right
    type water-in-oil emulsion
    phase B: oils
        20 %  caprylic/capric triglyceride
        4 %  sorbitan oleate
    phase C: salt
        0.8 %  magnesium sulfate heptahydrate
    method
        charge B into side
        dissolve C in main
        add main to side slowly, over 20 min with homogeniser
        transfer side to main

Limits
    A hint for a salt of which 60 % or less is left without its crystal water, written without saying which; a warning for kitchen salt.

Exceptions
    Less than 0.1 % of the batch. The name of a mineral, such as Epsom salt, says which.

Source
    molar masses, for the half; common practice, no source, for the grade
"""

from procsheet.findings import Finding, Label
from procsheet.rules.words import share

NAME = "electrolyte-grade"
LEVEL = "NOTE"
KITCHEN_LEVEL = "WARN"
HALF = 0.6                              # salt in a hydrate, up to which the dose would be about half (molar masses)
SALTS = ("electrolyte", "buffer salt")
SAYS_WHICH = ("hydrate", "h2o", "anhydr", "dried", "epsom", "crystal", "bitter")
KITCHEN = ("table salt", "common salt", "cooking salt", "kitchen salt", "iodised", "iodized", "fine salt", "sea salt")
KITCHEN_WHY = "Iodide and anticaking powder come with it: they yellow the cream and cloud its water."
WHY = "With and without its crystal water the same weight holds twice or half the salt: taken for the other, the drops are held too little."


def check(batch):
    if not batch.makes_water_in_oil:
        return
    for row in batch.method.rows:
        name = row.name.lower()
        if not row.material.is_a(*SALTS) or row.material.is_a("preservative") or batch.of_batch(row) < batch.limit(NAME, "from which"):
            continue
        if any(word in name for word in KITCHEN) and "non-iod" not in name:
            yield _finding(batch, row, KITCHEN_LEVEL, f"{row.name} is kitchen salt, with iodide or anticaking powder in it", KITCHEN_WHY, "sodium chloride, of pharmacopoeia grade")
        elif _is_hydrate(row) and not any(word in name for word in SAYS_WHICH):
            title = f"which hydrate of {row.name} is meant is not said; it is taken as {row.material.name}, {share(float(row.material.assay))} of it salt"
            yield _finding(batch, row, LEVEL, title, WHY, row.material.name)


def _is_hydrate(row) -> bool:
    """Whether it is a solid that holds crystal water."""
    material = row.material
    return material.assay is not None and material.assay < HALF and material.text("form") in ("crystals", "powder", "granules") and "hydrate" in material.name


def _finding(batch, row, level, title, why, name) -> Finding:
    return Finding(level, NAME, title, Label(row.span, "state hydrate and grade"), (), why, f"Write in line {row.span.line}: {share(batch.of_batch(row))} {name}.",
                   batch.source(NAME, "from which"), material=row.name)
