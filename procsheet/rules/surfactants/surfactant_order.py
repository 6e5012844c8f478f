"""Salt goes into the water before the surfactant.

Why it matters
    In brine a surfactant swells to lumps where it lands and dissolves slowly, and the kettle is thick before it is mixed. Salt that is in
    already cannot set the viscosity at the end any more.

Wrong
    type surfactant solution
    phase B: surfactant
        35 %  sodium laureth sulfate 27 % solution
    phase C: salt
        1 %  sodium chloride
    method
        add C to main until dissolved
        add B to main slowly with paddle

Right
    type surfactant solution
    phase B: surfactant
        35 %  sodium laureth sulfate 27 % solution
    phase C: salt
        1 %  sodium chloride
    method
        add B to main slowly with paddle
        add C to main, in portions

Limits
    From 0.3 % of salt, as needed or weighed, ahead of 3 % or more of anionic surfactant as active matter, in one vessel.

Exceptions
    Both in one step. Buffers, chelators, preservative salts. Less salt, which only sets the ions of the water.

Source
    teaching page on making shampoo: surfactant first, salt with colour and perfume last
"""

from procsheet.findings import Finding, Label
from procsheet.rules.salts import at_most, salts
from procsheet.rules.words import share

NAME = "surfactant-order"
LEVEL = "WARN"
NEARLY = 1e-9
WHY = "In brine the surfactant swells to lumps where it lands. What salt is in already cannot set the viscosity at the end any more."


def check(batch):
    rows = {row.code for row in salts(batch) if _counts(batch, row)}
    anionic = [row for row in batch.method.rows if row.material.is_a("anionic surfactant")]
    if batch.type == "surfactant solution" and sum(batch.of_batch(row, "anionic surfactant") for row in anionic) >= batch.limit(NAME, "salt curve") - NEARLY:
        first = next((one for one in batch.trace.exposures if one.row.code in rows and _is_early(batch, one)), None)
        if first is not None:
            yield _finding(batch, first, max(anionic, key=lambda row: batch.of_batch(row, "anionic surfactant")))


def _counts(batch, row) -> bool:
    return at_most(batch, row) >= batch.limit(NAME, "before the surfactant") - NEARLY and not row.material.is_a("buffer salt", "acid", "base", "carbonate", "phosphate buffer")


def _is_early(batch, one) -> bool:
    """Whether most of the anionic surfactant comes to it later."""
    total = sum(batch.of_batch(row, "anionic surfactant") for row in batch.method.rows) * float(batch.plan.mass)
    there = sum(one.moment.contents[row.code] * row.material.share("anionic surfactant") for row in batch.trace.holds(one.moment, "anionic surfactant"))
    met = next((later for later in batch.trace.later(one.moment) if batch.trace.holds(later, "anionic surfactant")), None)
    follows = met is not None and not batch.trace.holds(met, "anionic surfactant", before=True)
    return there <= total / 2 and follows and batch.trace.weight(one.moment.contents, "water") > 0


def _finding(batch, one, surfactant) -> Finding:
    row = one.row
    return Finding(LEVEL, NAME, f"{share(at_most(batch, row))} of {row.name} goes in before {surfactant.name}", Label(one.moment.span, "before the surfactant"),
                   (Label(row.span, "salt"), Label(surfactant.span, "should be in first")), WHY,
                   f"Take {row.name} out of line {one.moment.span.line}, and put it in last, when the batch is cool: adjust the viscosity with it, in portions, each for 10 min.",
                   batch.source(NAME, "before the surfactant"), material=row.name, step=one.moment.step.number)
