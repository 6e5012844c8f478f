"""A vessel stands under nitrogen.

Why it matters
    Nitrogen drives out the air. Nobody smells it, and two breaths of it are enough to fall.

Wrong
    method
        mix main for 10 min under nitrogen

Right
    method
        mix main for 10 min covered

Limits
    Once a vessel, at the step that first lays it over the batch.

Source
    common practice, no source; the safety data sheets and the plant's own procedures decide
"""

from procsheet.rules.caution import caution, first_in_each_vessel

NAME = "nitrogen"
LEVEL = "CAUTION"
ADVICE = "Nobody leans or climbs in; the room is ventilated and its oxygen watched, as the plant's procedure says."


def check(batch):
    for moment in first_in_each_vessel(moment for moment in batch.trace.moments if moment.cover == "nitrogen"):
        yield caution(NAME, moment, "Nitrogen: no air to breathe", ADVICE)
