"""A protein goes under a high-shear head in air.

Why it matters
    Protein foams, and the foam stays: the kettle runs over, the pack is filled short, and the skin of each bubble is protein that is no longer in the
    product.

Wrong
    type gel
    phase B: active
        2 %    hydrolyzed wheat protein solution
    method
        add B to main with homogeniser

Right
    type gel
    phase B: active
        2 %    hydrolyzed wheat protein solution
    method
        add B to main with paddle

Right
    type gel
    phase B: active
        2 %    hydrolyzed wheat protein solution
    method
        add B to main with homogeniser
        deaerate main for 10 min under vacuum at -0.6 bar

Limits
    From 0.5 % of the vessel, as supplied, under a tool of high shear, without vacuum and with no deaeration afterwards.

Exceptions
    Under vacuum. A whisk, which is there to beat air in. Gelatin.

Source
    common practice, no source
"""

from procsheet.findings import Finding, Label
from procsheet.rules.words import share
from procsheet.trace.trace import HIGH

NAME = "protein-foam"
LEVEL = "NOTE"
WHY = "Protein foams, and the foam stays: the kettle runs over, packs are filled short, and what is in the bubbles' skin is not in the product."


def check(batch):
    for exposure in batch.trace.exposures:
        if exposure.material.is_a("protein") and not exposure.material.is_a("thickener of water"):
            moment = next((one for one in batch.trace.path(exposure.moment) if _foams(batch, exposure, one)), None)
            if moment is not None:
                yield _finding(batch, exposure, moment)
                return


def _foams(batch, exposure, moment) -> bool:
    enough = moment.contents.get(exposure.row.code, 0.0) >= batch.limit(NAME, "of the vessel") * moment.mass
    hard = moment.shear.rank.low >= HIGH and "whisk" not in moment.shear.tools
    aired = any(one.step.verb == "deaerate" or one.cover == "vacuum" for one in batch.trace.path(moment))
    return enough and hard and not aired and not moment.closed and batch.trace.watery(moment.contents) > 0


def _finding(batch, exposure, moment) -> Finding:
    row = exposure.row
    part = share(moment.contents[row.code] / moment.mass)
    entry = (Label(exposure.moment.span, f"{row.name} goes in here"),) if exposure.moment is not moment else ()
    return Finding(LEVEL, NAME, f"{part} of {row.name} is under {moment.shear.told} in air", Label(moment.span, "beats it to foam"), entry, WHY,
                   f"Add {row.name} after line {moment.span.line}, with a stirrer; or deaerate afterwards under vacuum." if entry else
                   f"In line {moment.span.line}, take a stirrer: an anchor, a paddle; or deaerate afterwards under vacuum.",
                   batch.source(NAME), material=row.name, step=moment.step.number)
