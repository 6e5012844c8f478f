"""A carbomer goes dry into alcohol.

Why it matters
    Carbomer swells in water. In alcohol it wets at once and swells hardly: lumps stay shut, and the gel comes hours later, thinner, with
    fish-eyes.

Wrong
    type hydroalcoholic
    phase B: alcohol
        60 %  ethanol 96 %
    phase C: polymer
        0.4 %  carbomer
    phase D: base
        0.3 %  aminomethyl propanol
    method
        add B to main
        disperse C in main
        neutralise main with D

Right
    type hydroalcoholic
    phase B: alcohol
        60 %  ethanol 96 %
    phase C: polymer
        0.4 %  carbomer
    phase D: base
        0.3 %  aminomethyl propanol
    method
        disperse C in main, sprinkled, into the vortex, until lump-free
        add B to main
        neutralise main with D

Limits
    From 20 % of alcohol in the vessel it goes into dry; sprinkled or into the vortex, well stirred, from 75 %, where stirring no longer helps
    it swell. Mixing the alcohol and the water first is published, with the advice to take care with lumps.

Exceptions
    Grades that wet by themselves, up to the same 75 %.

Source
    formulators' forum and two suppliers' pages on alcohol gels; common practice, no source, for the shares
"""

from procsheet.findings import Finding, Label
from procsheet.model.material import SOLID
from procsheet.rules import polymers
from procsheet.rules.words import share

NAME = "carbomer-in-water-first"
LEVEL = "WARN"
NEARLY = 1e-6
WHY = "In alcohol it wets at once and swells hardly: lumps stay shut, and the gel comes hours later, thinner and with fish-eyes."


def check(batch):
    for one in batch.trace.exposures:
        if polymers.wants_base(one.material) and one.material.text("form") in SOLID:
            alcohol = polymers.part(batch, one.moment.contents, "alcohol")
            if alcohol > batch.limit(NAME, "no stirring helps" if _is_careful(one) else "meet dry") + NEARLY:
                yield _finding(batch, one, alcohol)
                return


def _is_careful(one) -> bool:
    return one.moment.step.has(*polymers.WETTING) or one.material.is_a("wets by itself")


def _finding(batch, one, alcohol) -> Finding:
    row, moment = one.row, one.moment
    spirit = max(batch.trace.holds(moment, "alcohol"), key=lambda held: moment.contents[held.code], default=row)
    return Finding(LEVEL, NAME, f"{row.name} goes dry into {share(alcohol)} of alcohol in {moment.vessel}", Label(moment.span, "into alcohol"),
                   (Label(spirit.span, "the alcohol"), Label(row.span, "swells in water")), WHY,
                   f"Charge the water first, disperse {row.name} in it, sprinkled, into the vortex, until lump-free, and add {spirit.name} to it afterwards.",
                   batch.source(NAME), material=row.name, step=moment.step.number)
