"""A methylcellulose or its like is wetted cold, or never gets cold.

Why it matters
    These ethers dissolve in cold water and not in hot. Put into cold water each clot closes; put into hot water they spread, and dissolve when
    it cools. A batch that stays hot stays thin, with grains.

Wrong
    type gel
    phase B: ether
        1 %  hydroxypropyl methylcellulose
    method
        disperse B in main with propeller

Right
    type gel
    phase B: ether
        1 %  hydroxypropyl methylcellulose
    method
        heat main to 85 °C
        disperse B in main with propeller
        cool main to 25 °C with propeller

Limits
    Wetted in a third to two thirds of the water at 80 °C or above; cold enough, 40 °C, before it is filled.

Exceptions
    Sprinkled into a vortex, under high shear, or in three parts of polyol, oil or powder: these go cold. Surface-treated grades. A heap on cold
    water is told of by gum-predisperse.

Needs
    pre-wet in

Source
    handbook page on cellulose ethers; common practice, no source, for 40 °C
"""

from procsheet.findings import Finding, Label
from procsheet.intervals import BEYOND, above, below
from procsheet.rules import polymers
from procsheet.rules.words import celsius
from procsheet.trace.trace import HIGH

NAME = "cellulose-hot"
LEVEL = "WARN"
PARTS = 3.0                             # to one of ether (common practice, no source)
WHY = "Each clot closes in cold water: grains that stay. Hot water spreads them, and they dissolve as it cools."


def check(batch):
    for one in batch.trace.exposures:
        if any("hot water" in words for words in one.material.words("pre-wet in")):
            met = polymers.meets_water(batch, one)
            found = met and (_cold(batch, one, met) or _stays_hot(batch, one, met))
            if found:
                yield _finding(batch, one.row, *found)
                return


def _cold(batch, one, met):
    """Where it is dispersed in cold water."""
    limit = batch.limit(NAME, "does not swell")
    careful = met.step.has(*polymers.WETTING) or met.shear.rank.low >= HIGH
    if careful or not polymers.is_wetting(met) or polymers.wetted(batch, met, one.row, "gum") >= PARTS:
        return None
    if below(met.start, limit - batch.plan.plant.temperature_tolerance) != BEYOND:
        return None
    fix = f"Heat a third to two thirds of the water to {celsius(limit + 5)} first, disperse {one.row.name} in it, then add the rest cold and cool; or sprinkle it into the vortex."
    return met, f"{one.row.name} is dispersed in water of {celsius(met.start)}; it wets without clots from {celsius(limit)} on", "cold water", fix


def _stays_hot(batch, one, met):
    """Where it goes into the pack before it has dissolved."""
    limit = batch.limit(NAME, "dissolves")
    left = batch.trace.leaves(met)
    path = [moment for moment in batch.trace.path(met) if moment.index <= left.index]
    if any(above(moment.trough, limit) != BEYOND for moment in path):
        return None
    fix = f"Put a step before line {left.span.line}: cool {batch.trace.moments[left.parents[0]].vessel if left.parents else left.vessel} to 25 °C with a slow stirrer until clear."
    return left, f"{one.row.name} is never colder than {celsius(limit)}, where it dissolves", "still hot", fix


def _finding(batch, row, moment, title, label, fix) -> Finding:
    return Finding(LEVEL, NAME, title, Label(moment.span, label), (Label(row.span, "dissolves cold, wets hot"),), WHY, fix, batch.source(NAME, "does not swell"),
                   material=row.name, step=moment.step.number)
