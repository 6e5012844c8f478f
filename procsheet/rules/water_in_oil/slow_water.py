"""The water goes into the oil of a water-in-oil emulsion faster than the oil can take it up, or nothing says how slowly.

Why it matters
    Water that is not taken up collects in pools. The emulsion turns over into oil-in-water, or keeps coarse drops that sink out.

Wrong
    type water-in-oil emulsion
    phase B: oils
        20 %  caprylic/capric triglyceride
        4 %  sorbitan oleate
    method
        charge B into side
        add main to side over 2 min
        transfer side to main

Wrong
    type water-in-oil emulsion
    phase B: oils
        20 %  caprylic/capric triglyceride
        4 %  sorbitan oleate
    method
        charge B into side
        add main to side with homogeniser
        transfer side to main

Right
    type water-in-oil emulsion
    phase B: oils
        20 %  caprylic/capric triglyceride
        4 %  sorbitan oleate
    method
        charge B into side
        add main to side slowly with homogeniser
        transfer side to main

Limits
    A batch of 20 kg or more: all of the water in 20 min or more; under 10 min the batch is stopped. On the bench 10 and 5 min. A part
    of the water may go in within its part of that time; a rate is worked out from the weight.

Exceptions
    Up to 20 % of water. `slowly`, `very slowly`, `in portions` and `drop by drop` are taken at their word; from 20 kg on a hint asks for
    the minutes.

Source
    formulators' forum and supplier page, for very slowly; Dynamics of transitional phase inversion (2010), for a critical time;
    the minutes are common practice, no source
"""

from procsheet.findings import Finding, Label
from procsheet.intervals import BEYOND, INFINITY, STRADDLES, WITHIN, Interval, below
from procsheet.model import quantities
from procsheet.rules.words import minutes, share, weight

NAME = "slow-water"
LEVEL = "STOP"
UNSAID, VAGUE = "WARN", "NOTE"
PART = 0.1                              # of all the water: a smaller portion, such as a rinse, is taken up at once (common practice, no source)
SLOW = ("slowly", "very slowly", "in portions", "drop by drop", "one at a time")
FAST = ("at once", "quickly", "briefly")
WATER, OIL = ("water",), ("oil", "silicone")
WHY = "Water that is not taken up collects in pools: the emulsion turns over into oil-in-water, or keeps coarse drops that sink out."


def check(batch):
    whole = sum(batch.of_batch(row) for row in batch.method.rows if batch.trace.affinities[row.code] == "water")
    if not batch.makes_water_in_oil or whole <= batch.limit(NAME, "water in the batch"):
        return
    for moment in batch.trace.moments:
        part = batch.trace.weight(moment.added, *WATER) / (whole * batch.plan.mass)
        if part >= PART and _into_oil(batch, moment) and (judged := _judged(batch, moment, part)):
            yield _finding(batch, moment, part, *judged)


def _into_oil(batch, moment) -> bool:
    """Water goes into oil here, or into what is already an emulsion; or both go into an empty vessel together."""
    held, joined = batch.trace.weight, batch.is_joined
    oil, coming = held(moment.before, *OIL), held(moment.added, *OIL)
    if any(joined(batch.trace.moments[one].contents) for one in moment.poured):
        return False
    if not moment.before:
        return joined(moment.added)
    return held(moment.added, *WATER) > coming and oil > 0 and (joined(moment.before) or oil >= held(moment.before, *WATER))


def _judged(batch, moment, part: float):
    """The level, and the time in question; None for nothing to say. part: of all the water."""
    size = "at production size" if batch.plan.mass >= batch.limit(NAME, "batch from which") else "on the bench"
    least, stop = (batch.limit(NAME, words, safest) * part for words, safest in ((size, max), (f"{size} a stop", min)))
    time = _time(moment) or _of_host(batch, moment)
    if moment.step.has(*FAST):
        return LEVEL, Interval(0, 0), least
    if time is None:
        slow = moment.step.has(*SLOW)
        return None if slow and size == "on the bench" else (VAGUE if slow else UNSAID, None, least)
    verdicts = below(time, stop), below(time, least)
    if verdicts == (WITHIN, WITHIN):
        return None
    return (LEVEL if verdicts[0] == BEYOND else UNSAID if STRADDLES in verdicts[:1] or verdicts[1] == BEYOND else VAGUE), time, least


def _time(moment) -> Interval | None:
    """How long the water goes in [s], from the step's own words; None where they give no figure."""
    step = moment.step
    over = quantities.interval(step.value("over"))
    if over is not None:
        return Interval(max(over.low, 0.0), over.high)
    rate = quantities.interval(step.value("rate"))
    if rate is not None and rate.low > 0:
        kilograms = sum(moment.added.values())
        per_second = 1000.0 if quantities.dimension(step.value("rate")) == "volume rate" else 1.0
        return Interval(kilograms / (rate.high * per_second) if rate.high < INFINITY else 0.0, kilograms / (rate.low * per_second))
    if step.has("each for", "within", "for") and (step.has("each for", "within") or not step.has(*SLOW)):
        return moment.duration
    return None


def _of_host(batch, moment) -> Interval | None:
    """The time of the step it stands inside: `add side to main during joining`."""
    host = batch.graph.nodes[moment.node].inside
    return next((other.duration for other in batch.trace.moments if host and other.step.number == host and other.part == 0), None)


def _finding(batch, moment, part, level, time, least) -> Finding:
    much = "the water" if part > 0.9 else f"{share(part)} of the water"
    all_of_it = minutes(least / part)
    clause = moment.step.clause("over", "rate", "each for", "within", *FAST) if time is not None else None
    if time is None:
        title = f"nothing says how slowly {much} goes into the oil" if level == UNSAID else f"how many minutes {much} takes into the oil is not said"
    else:
        title = (f"{much} goes into the oil in {minutes(time.high) if time.high else 'one go'}; "
                 f"all of it takes {all_of_it} or more in a batch of {weight(float(batch.plan.mass))}")
    return Finding(level, NAME, title, Label(clause.span if clause else moment.span, "too fast" if time is not None else "no time is said"), (), WHY,
                   f"Write in line {moment.span.line}: slowly, over {all_of_it.split()[0]}-60 min, with the stirrer on; less a minute once half of it is in.",
                   batch.source(NAME), step=moment.step.number)
