"""Salt is in the water before a clay has opened.

Why it matters
    The stacks of a clay open because the water pushes their charges apart. Salt takes that push away: a clay that meets salt first never
    swells, and what it should carry sinks.

Wrong
    phase B: salt
        0.5 %  sodium chloride
    phase C: clay
        2 %  magnesium aluminum silicate
    method
        add B to main
        disperse C in main with homogeniser
        hydrate main for 45 min with homogeniser

Right
    phase B: salt
        0.5 %  sodium chloride
    phase C: clay
        2 %  magnesium aluminum silicate
    method
        disperse C in main with homogeniser
        hydrate main for 45 min with homogeniser
        add B to main

Limits
    0.1 % of salt in the vessel, or what the clay's own data say it stands before it is hydrated; till the end of the time that clay-first asks.

Exceptions
    Salt afterwards; chelators and preservatives in their usual dose; over 5 % of clay, the body of a mask.

Needs
    never with, hydrates for

Source
    paper of a society's journal on a synthetic clay, for the fall of the yield value; common practice, no source, for the dose
"""

from procsheet.findings import Finding, Label
from procsheet.rules import polymers
from procsheet.rules.thickeners import clay_first
from procsheet.rules.words import listed, share

NAME = "clay-salt"
LEVEL = "WARN"
NEARLY = 1e-9
WHY = "Salt takes away the push that opens the stacks: a clay that meets salt first never swells, and what it should carry sinks."


def check(batch):
    for one in batch.trace.exposures:
        if clay_first.wants_plain_water(one.material) and batch.of_batch(one.row) <= batch.limit(clay_first.NAME, "a mask") + NEARLY:
            met = polymers.meets_water(batch, one)
            moment = met and _salted(batch, one, met)
            if moment:
                yield _finding(batch, one.row, met, moment)
                return


def _salted(batch, one, met):
    """The first step at which it is in salt water before its time is over."""
    if _is_salt(batch, one.material, met):
        return met
    end = polymers.swelling(batch, one, met, lambda moment, held: _is_salt(batch, one.material, moment))
    return end[0] if end is not None and end[1] < clay_first.needed(batch, one, met) - 1.0 else None


def _is_salt(batch, material, moment) -> bool:
    own = [figure.value.low for figure in material.figures("never with") if "hydration" in figure.words]
    return sum(_shares(batch, moment).values()) >= min(own, default=batch.limit(NAME)) - NEARLY


def _shares(batch, moment) -> dict[str, float]:
    """Row code -> its share of salt in the vessel."""
    held = {row.code: row for row in batch.trace.holds(moment, "electrolyte") if not row.material.is_a("preservative", "clay")}
    return {code: moment.contents[code] * row.material.share("electrolyte") / moment.mass for code, row in held.items()}


def _finding(batch, row, met, moment) -> Finding:
    shares = _shares(batch, moment)
    salts = [batch.graph.rows[code] for code in sorted(shares, key=shares.get, reverse=True)]
    return Finding(LEVEL, NAME, f"{share(sum(shares.values()))} of {listed(one.name for one in salts)} is in {moment.vessel} before {row.name} has opened",
                   Label(moment.span, "salt and shut clay"), (Label(salts[0].span, "the salt"), Label(row.span, "wants plain water first")), WHY,
                   f"Hydrate {row.name} in the plain water first, 45 min under high shear or 15 min at 75 °C, and add {listed(one.name for one in salts)} afterwards.",
                   batch.source(NAME), material=row.name, step=moment.step.number)
