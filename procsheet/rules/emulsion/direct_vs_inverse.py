"""The water goes into the oil for an oil-in-water emulsion, and quickly.

Why it matters
    The emulsifier decides which phase is outside, not the order of pouring; but the order changes the drops. Water that goes slowly
    into the oil makes the emulsion turn over, and the drops are fine; all at once it makes coarse ones.

Wrong
    phase B: oils
        10 %  mineral oil
        5 %  stearyl alcohol
        3 %  cetearyl glucoside
    method
        heat main to 75 °C
        charge B into side
        heat side to 75 °C
        add main to side over 30 s with homogeniser
        transfer side to main

Right
    phase B: oils
        10 %  mineral oil
        5 %  stearyl alcohol
        3 %  cetearyl glucoside
    method
        heat main to 75 °C
        charge B into side
        heat side to 75 °C
        add main to side over 10 min with homogeniser
        transfer side to main

Limits
    Less than a minute for the water, or nothing that says how slowly. It is a hint: sources that are right make it both ways.

Exceptions
    Slowly, in portions, at a rate; oil into water; oil outside, which has rules of its own.

Source
    paper on inversion by adding water to oil, on the bench
"""

from procsheet.findings import Finding, Label
from procsheet.model import quantities
from procsheet.rules.drops import OILS, joining

NAME = "direct-vs-inverse"
SPREAD = ("slowly", "very slowly", "in portions", "drop by drop", "rate")
LEVEL = "NOTE"
WHY = "The emulsion has to turn over in the kettle. Slowly it makes fine drops on the way; at once it makes coarse ones, and the next batch differs."


def check(batch):
    joined = joining(batch)
    if batch.type != "oil-in-water emulsion" or joined is None or joined.facts.outside != "water":
        return
    weight = batch.trace.weight
    into_oil = weight(joined.before, *OILS) > weight(joined.before, "water") and weight(joined.added, "water") > weight(joined.added, *OILS)
    time = quantities.interval(joined.step.value("over")) if joined.step.has("over") else None
    quick = time.high < batch.limit(NAME, "to add the water") if time is not None else not joined.step.has(*SPREAD)
    if into_oil and quick:
        how = f"in {time.high:.0f} s" if time is not None else "at once" if joined.step.has("at once") else "in a time that is not said"
        yield Finding(LEVEL, NAME, f"the water goes into the oil {how}, so the emulsion has to turn over", Label(joined.span, "coarse drops"), (), WHY,
                      f"Write in line {joined.span.line} `over 10 min`, under the homogeniser; or put the oil into the water.", batch.source(NAME), step=joined.step.number)
