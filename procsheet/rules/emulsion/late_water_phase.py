"""Much water goes in at one stroke after the emulsion is made, much colder or hotter than the batch.

Why it matters
    A water phase that comes late is meant to be small and near the batch's own warmth. Much of it, cold and at once, shocks the drops
    and stands in the cream in thin streaks.

Wrong
    phase B: oils
        12 %  cetyl alcohol
        4 %  cetearyl glucoside
    phase C: late
        20 %  glycerin
    method
        heat main to 75 °C
        charge B into side
        heat side to 75 °C
        add side to main with homogeniser, then for 5 min
        cool main to 50 °C with anchor
        add C to main

Right
    phase B: oils
        12 %  cetyl alcohol
        4 %  cetearyl glucoside
    phase C: late
        20 %  glycerin
    method
        heat main to 75 °C
        charge B into side
        heat side to 75 °C
        add side to main with homogeniser, then for 5 min
        cool main to 50 °C with anchor
        add C to main slowly, over 20 min

Limits
    Over 10 % of the batch, more than 20 °C from the batch.

Exceptions
    Slowly, in portions, or over a time; water that is made up at the end; emulsions without fats that set. What sets hot fat at one
    stroke is cold-water-addback's or equal-temps'.

Source
    common practice, no source
"""

from procsheet.findings import Finding, Label
from procsheet.rules.emulsion.equal_temps import SPREAD, quenched
from procsheet.rules.words import celsius, kelvin, share

NAME = "late-water-phase"
LEVEL = "WARN"
APART = ("make up", "rinse")            # small, and at the end (common practice, no source)
WHY = "Much water at another temperature, at once, shocks the drops around the place where it falls: streaks that stay thin, and drops that merge."


def check(batch):
    if batch.type != "oil-in-water emulsion":
        return
    for moment in batch.trace.moments:
        if moment.before_facts.emulsified and moment.before and moment.part == 0 and moment.step.verb not in APART and not moment.step.has(*SPREAD):
            yield from _judged(batch, moment)


def _judged(batch, moment):
    before = batch.trace.moments[moment.parents[0]].end
    late = batch.trace.weight(moment.added, "water") / float(batch.plan.mass)
    if late <= batch.limit(NAME, "added as water", max) + 1e-9 or moment.arriving is None or not batch.trace.holds(moment, "structures oil", before=True):
        return
    apart = max(before.low - moment.arriving.high, moment.arriving.low - before.high)
    if apart > batch.apart(NAME, "between batch") and quenched(batch, moment) is None:
        yield Finding(LEVEL, NAME, f"{share(late)} of the batch goes in late as water, at once, {kelvin(apart)} from the batch",
                      Label(moment.span, f"{celsius(moment.arriving)} into {celsius(before)}"),
                      tuple(Label(portion.row.span) for portion in moment.entering[:2]), WHY,
                      f"Write in line {moment.span.line} `slowly, over 20 min with anchor`; or bring what is added to {celsius(before)} first, or put it into the water phase.",
                      batch.source(NAME, "added as water"), step=moment.step.number)
