"""Nothing stirs the oil while the water goes into it.

Why it matters
    Water that is not taken up at once collects: pools of it stand on the oil, and when the stirrer starts they go in as coarse drops, or the batch
    turns over. How fine the drops get follows the work put in for each litre that goes in.

Wrong
    type water-in-oil emulsion
    phase B: oils
        20 %  caprylic/capric triglyceride
        4 %  sorbitan oleate
    method
        charge B into side
        add main to side slowly, over 20 min without stirring
        homogenise side for 5 min
        transfer side to main

Right
    type water-in-oil emulsion
    phase B: oils
        20 %  caprylic/capric triglyceride
        4 %  sorbitan oleate
    method
        charge B into side
        add main to side slowly, over 20 min with homogeniser
        transfer side to main

Limits
    From a tenth of all the water on. `without stirring`, or a stirrer that was stopped, is a warning; where nothing is said of a stirrer it is a hint.

Exceptions
    A stirrer that runs on; `emulsify`; a step that goes on during a stirring of its own. That no free water shows on the surface is for the crew to see.

Source
    paper on water in oil made by adding the water bit by bit: how stiff it gets follows the energy for each volume; common practice, no source, for the rest
"""

from procsheet.findings import LOWER, Finding, Label
from procsheet.rules.words import share
from procsheet.trace.trace import HIGH, NONE

NAME = "rate-vs-mixing"
LEVEL = "WARN"
OIL = ("oil", "silicone")
SAID = ("stirring", "slow stirring", "gentle stirring", "moderate stirring", "fast stirring", "vigorous stirring", "by hand", "low shear", "medium shear",
        "high shear", "running before", "during", "speed")
WHY = "Water that is not taken up stands in pools on the oil; when the stirrer starts they go in as coarse drops, or the batch turns over."


def check(batch):
    if not batch.makes_water_in_oil:
        return
    whole = sum(batch.of_batch(row) for row in batch.method.rows if batch.trace.affinities[row.code] == "water") * float(batch.plan.mass)
    for moment in batch.trace.moments:
        part = batch.trace.weight(moment.added, "water") / whole if whole else 0.0
        if part >= batch.limit(NAME) and _into_oil(batch, moment) and (level := _unstirred(batch, moment)):
            yield _finding(batch, moment, part, level)
            return


def _into_oil(batch, moment) -> bool:
    weight = batch.trace.weight
    return weight(moment.before, *OIL) > weight(moment.before, "water") and weight(moment.added, "water") > weight(moment.added, *OIL)


def _unstirred(batch, moment) -> str | None:
    shear, step = moment.shear, moment.step
    if step.verb == "emulsify" or shear.tools or shear.rank.missing or shear.rank.high >= HIGH or step.has(*SAID):
        return None
    before = [batch.trace.moments[one] for one in moment.parents if batch.trace.moments[one].vessel == moment.vessel]
    if step.has("unstirred") or any(one.step.verb == "stop stirring" for one in before) or shear.rank.high == NONE:
        return LEVEL
    return None if any(one.step.has(*SAID) or one.turning for one in batch.trace.history(moment)[:-1] if one.vessel == moment.vessel) else LOWER[LEVEL]


def _finding(batch, moment, part, level) -> Finding:
    much = "the water" if part > 0.9 else f"{share(part)} of the water"
    return Finding(level, NAME, f"{much} goes into the oil in {moment.vessel}, and {'nothing stirs it' if level == LEVEL else 'nothing is said of a stirrer'}",
                   Label(moment.span, "unstirred" if level == LEVEL else "which tool turns?"), (), WHY,
                   f"Write in line {moment.span.line} what turns while the water goes in: with homogeniser and anchor; add no faster than it is taken up.",
                   batch.source(NAME), step=moment.step.number)
