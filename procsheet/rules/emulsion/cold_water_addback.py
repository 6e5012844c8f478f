"""The rest of the water goes cold into a hot emulsion at one stroke, or was kept from an emulsion that is too rich without it.

Why it matters
    Part of the water added cold saves time and heat, while the batch stays above the setting of its fats until it is mixed. Below it
    the fat sets in streaks, as grains. And with too little water the emulsion can turn over before the rest comes.

Wrong
    phase B: oils
        12 %  stearyl alcohol
        4 %  cetearyl glucoside
    phase C: cold water
        40 %  purified water
    method
        heat main to 75 °C
        charge B into side
        heat side to 75 °C
        add side to main with homogeniser, then for 5 min
        add C to main with anchor

Right
    phase B: oils
        12 %  stearyl alcohol
        4 %  cetearyl glucoside
    phase C: cold water
        40 %  purified water
    method
        heat main to 75 °C
        charge B into side
        heat side to 75 °C
        add side to main with homogeniser, then for 5 min
        add C to main slowly, over 20 min with anchor

Limits
    What goes in is mostly water and takes the batch from above the highest melting range of its molten fats to below it, at one stroke.
    Before that, oil over 60 % of what the vessel holds, with half as much water as oil or more still to come.

Exceptions
    Slowly, in portions, over a time: the fat sets as in a jacket. A batch that is heated again afterwards; emulsions without fats that
    set. Anything else that goes in cold is equal-temps'.

Needs
    melts

Source
    paper on low-energy emulsification, for water that is kept back; common practice, no source, for the rest
"""

from procsheet.findings import Finding, Label
from procsheet.rules.drops import OILS, joining
from procsheet.rules.emulsion.equal_temps import quenched
from procsheet.rules.words import celsius, share

NAME = "cold-water-addback"
LEVEL = "WARN"
HALF = 0.5                              # as much water as oil, to come (common practice, no source)
COLD = "Fat that cold water meets sets in streaks before the stirrer has spread it: grains, and a thin cream that weeps."
RICH = "Drops that stand too close merge, and the emulsion turns over with oil outside; the water that comes afterwards no longer goes in."


def check(batch):
    if batch.type != "oil-in-water emulsion":
        return
    for moment in batch.trace.moments:
        hot = quenched(batch, moment) if moment.before_facts.emulsified else None
        if hot is not None and batch.trace.weight(moment.added, "water") > HALF * sum(moment.added.values()):
            yield _cold(batch, moment, *hot)
    joined = joining(batch)
    if joined is not None:
        yield from _rich(batch, joined)


def _cold(batch, moment, warm, fat) -> Finding:
    row, figure = fat
    title = f"cold water takes {moment.vessel} from {celsius(warm)} to {celsius(moment.start)} at one stroke, "
    return Finding(LEVEL, NAME, title + f"through the {celsius(figure.value.high)} that {row.name} sets at",
                   Label(moment.span, f"{share(sum(moment.added.values()) / float(batch.plan.mass))} of the batch goes in here"),
                   (Label(row.span, f"melts at {figure.written}"),), COLD,
                   f"Write in line {moment.span.line} `slowly, over 20 min with anchor`, or warm what is added first; or "
                   f"add it below {celsius(figure.value.low)}, when the cream has cooled in its jacket.",
                   f"{batch.source(NAME, 'at one stroke')}; data of {row.material.name}: melts {figure.told}", step=moment.step.number)


def _rich(batch, joined):
    """An emulsion that is too rich in oil until the rest of its water comes."""
    oil, water = (batch.trace.weight(joined.contents, *kinds) for kinds in (OILS, ("water",)))
    path = list(batch.trace.path(joined))
    coming = next((after for before, after in zip(path, path[1:]) if batch.trace.weight(after.contents, "water") - batch.trace.weight(before.contents, "water") >= HALF * oil
                   and after.step.verb != "make up"), None)
    if coming is not None and oil > batch.limit(NAME, "oil in the emulsion") * (oil + water):
        usual = share(batch.limit(NAME, "oil in the emulsion"))
        yield Finding(LEVEL, NAME, f"oil is {share(oil / (oil + water))} of the emulsion until the rest of the water comes; up to {usual} is usual",
                      Label(joined.span, "little water to hold the drops apart"), (Label(coming.span, "the rest of the water comes here"),), RICH,
                      f"Put more of the water of line {coming.span.line} into the vessel before line {joined.span.line}.", batch.source(NAME, "oil in the emulsion"),
                      step=joined.step.number)
