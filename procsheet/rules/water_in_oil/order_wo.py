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
LEAST = 0.1                             # of all the oil: a smaller portion is no oil phase (common practice, no source)
WHY = "What stands in the kettle first tends to stay outside: this comes out as an oil-in-water emulsion, or as curds that never turn over."


def check(batch):
    if not batch.is_water_in_oil:
        return
    oil_of_all = sum(batch.of_batch(row) for row in batch.method.rows if batch.trace.affinities[row.code] in ("oil", "silicone"))
    wrong = next((moment for moment in batch.trace.moments if _oil_into_water(batch, moment, oil_of_all)), None)
    if wrong is not None:
        yield _finding(batch, wrong)


def _oil_into_water(batch, moment, oil_of_all: float) -> bool:
    weight = batch.trace.weight
    coming, there = weight(moment.added, "oil", "silicone"), weight(moment.before, "oil", "silicone")
    water = weight(moment.before, "water")
    return (coming > weight(moment.added, "water") and coming >= LEAST * oil_of_all * batch.plan.mass and water > coming + there
            and not batch.is_joined(moment.before) and not any(batch.is_joined(batch.trace.moments[one].contents) for one in moment.poured))


def _finding(batch, moment) -> Finding:
    source = batch.trace.moments[moment.poured[0]].vessel if moment.poured else ""
    oil = share(batch.trace.weight(moment.added, "oil", "silicone") / batch.plan.mass)
    fix = f"Turn it round: add {moment.vessel} to {source}" if source else "Put the oils into the vessel first and add the water to them"
    return Finding(LEVEL, NAME, f"the oil, {oil} of the batch, goes into the water in {moment.vessel}, but the oil is to be outside", Label(moment.span, "the oil goes into the water"),
                   (Label(batch.trace.moments[moment.parents[0]].span, f"{moment.vessel} holds the water"),), WHY,
                   f"{fix}, slowly, over 20–60 min under the stirrer.", batch.source(NAME) or "common practice, no source", step=moment.step.number)
