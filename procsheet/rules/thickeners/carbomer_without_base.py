"""A carbomer, and no base that opens it.

Why it matters
    Carbomer in water is a thin acid milk of pH 3. Only a base opens the chains: without one the batch never thickens, and at that pH it
    stings.

Wrong
    type gel
    phase B: polymer
        0.5 %  carbomer
    method
        disperse B in main

Right
    type gel
    phase B: polymer
        0.5 %  carbomer
    phase C: base
        0.6 %  triethanolamine
    method
        disperse B in main
        neutralise main with C

Limits
    Over 0.05 % of carbomer. Where a material of the formula is not known, which may be the base, it is a warning.

Exceptions
    Pre-neutralised polymers. Any base, amine, soap, carbonate, borate or 0.3 % of a salt of pH 8.5 in the formula. Stock dispersions that are made to go into other
    methods, and batches without water. In water-in-oil the polymer itself is the mistake: oil-rheology-only tells.

Source
    three public threads on carbomer gels that stayed liquid
"""

from procsheet.findings import Finding, Label
from procsheet.rules import polymers
from procsheet.rules.words import share

NAME = "carbomer-without-base"
LEVEL = "STOP"
UNSURE = "WARN"
ALKALINE = 8.5                          # pH of a salt by itself (common practice, no source)
NEARLY = 1e-9
OPENS = ("base", "neutraliser", "amine", "soap", "carbonate", "borate", "amidoamine")
WHY = "Carbomer in water is a thin acid milk of pH 3. Only a base opens the chains: without one the batch never thickens, and it stings."


def check(batch):
    rows = batch.method.rows
    if batch.is_water_in_oil or batch.method.as_material or any(_opens(batch, row) for row in rows):
        return
    for one in batch.trace.exposures:
        if _stays_shut(batch, one) and batch.of_batch(one.row, "carbomer") > batch.limit(NAME, "nothing is said"):
            yield _finding(batch, one.row, UNSURE if any(not row.material.known for row in rows) else LEVEL)
            return


def _opens(batch, row) -> bool:
    """A base, or enough of a salt that is alkaline by itself."""
    own = row.material.figure("own pH")
    return row.material.is_a(*OPENS) or own is not None and own.value.low >= ALKALINE and batch.of_batch(row) >= batch.limit(NAME, "alkaline salt") - NEARLY


def _stays_shut(batch, one) -> bool:
    waits = polymers.wants_base(one.material) and not polymers.is_alkali_swellable(one.material)
    return waits and polymers.meets_water(batch, one) is not None and polymers.swells(batch, one) is None


def _finding(batch, row, level) -> Finding:
    return Finding(level, NAME, f"{share(batch.of_batch(row, 'carbomer'))} of {row.name}, and no base in the formula to open it", Label(row.span, "stays shut without a base"), (), WHY,
                   "Give the formula a base in a phase of its own, such as triethanolamine or sodium hydroxide, `as needed`, and put at the end: "
                   "neutralise main with it until pH 6-7. Or take a pre-neutralised polymer.", batch.source(NAME, "nothing is said"), material=row.name)
