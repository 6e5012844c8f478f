"""The oil is poured into the water, though the oil is to be outside.

Why it matters
    What stands in the kettle first tends to stay outside: oil poured into water comes out as an oil-in-water emulsion, or as curds
    that never turn over.

Wrong
    type water-in-oil emulsion
    phase B: oils
        20 %  caprylic/capric triglyceride
        4 %  sorbitan oleate
    method
        charge B into side
        add side to main slowly, over 20 min

Right
    type water-in-oil emulsion
    phase B: oils
        20 %  caprylic/capric triglyceride
        4 %  sorbitan oleate
    method
        charge B into side
        add main to side slowly, over 20 min
        transfer side to main

Exceptions
    More oil into the finished emulsion. A method that means the emulsion to turn over is signed for by name.

Source
    supplier page on a glyceryl oleate emulsifier and formulators' forum on water-in-oil emulsions
"""

from procsheet.findings import Finding, Label
from procsheet.rules.words import share

NAME = "order-wo"
LEVEL = "STOP"
LEAST = 0.1                             # of all the oil, of all the water: a smaller portion is no phase (common practice, no source)
OIL = ("oil", "silicone")
SOURCE = "supplier page on a glyceryl oleate W/O emulsifier (supplier); formulators' forum on W/O emulsions (practice)"
WHY = "What stands in the kettle first tends to stay outside: this comes out as an oil-in-water emulsion, or as curds that never turn over."


def check(batch):
    if not batch.makes_water_in_oil:
        return
    wrong = next((moment for moment in batch.trace.moments if _oil_into_water(batch, moment)), None)
    if wrong is not None:
        yield _finding(batch, wrong)


def _oil_into_water(batch, moment) -> bool:
    """The oil comes to the water, and neither is an emulsion yet."""
    weight = batch.trace.weight
    coming, water = weight(moment.added, *OIL), weight(moment.before, "water")
    return (coming > weight(moment.added, "water") and coming >= LEAST * _all(batch, *OIL)
            and water > weight(moment.before, *OIL) and water >= LEAST * _all(batch, "water")
            and not batch.is_joined(moment.before) and not any(batch.is_joined(batch.trace.moments[one].contents) for one in moment.poured))


def _all(batch, *affinities: str) -> float:
    """kg of them in the planned batch."""
    return sum(batch.of_batch(row) for row in batch.method.rows if batch.trace.affinities[row.code] in affinities) * float(batch.plan.mass)


def _finding(batch, moment) -> Finding:
    source = batch.trace.moments[moment.poured[0]].vessel if moment.poured else ""
    oil = share(batch.trace.weight(moment.added, *OIL) / float(batch.plan.mass))
    fix = f"Turn it round: add {moment.vessel} to {source}" if source else "Put the oils into the vessel first and add the water to them"
    return Finding(LEVEL, NAME, f"the oil, {oil} of the batch, goes into the water in {moment.vessel}, but the oil is to be outside",
                   Label(moment.span, "the oil goes into the water"),
                   (Label(batch.trace.moments[moment.parents[0]].span, f"{moment.vessel} holds the water"),), WHY,
                   f"{fix}, slowly, over 20-60 min, with the stirrer on.", SOURCE, step=moment.step.number)
