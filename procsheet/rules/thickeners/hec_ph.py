"""A surface-treated cellulose ether meets alkali too early, or never.

Why it matters
    The coat of a treated grade keeps it from clotting in neutral water and comes off in alkali, or slowly by itself. Where base is there first
    it clots like any other; where none comes, nor warmth, nor time, the batch stays thin and thickens in the drum.

Wrong
    type gel
    phase B: base
        0.5 %  triethanolamine
    phase C: ether
        1 %  hydroxyethylcellulose, surface-treated
    method
        add B to main
        disperse C in main with propeller

Right
    type gel
    phase B: base
        0.1 %  triethanolamine
    phase C: ether
        1 %  hydroxyethylcellulose, surface-treated
    method
        disperse C in main with propeller for 5 min
        add B to main with propeller
        hydrate main for 30 min with propeller

Limits
    An hour of stated time, or 40 °C, does for the base.

Exceptions
    Untreated grades, of which gum-predisperse tells; `until hydrated`; steps whose length nobody knows.

Needs
    needs

Source
    handbook page on cellulose ethers, for treated grades; from memory, for pH 8
"""

from procsheet.findings import Finding, Label
from procsheet.rules import polymers
from procsheet.rules.words import listed

NAME = "hec-ph"
LEVEL = "WARN"
BASES = ("base", "neutraliser", "borate", "carbonate")
WHY = "The coat keeps it from clotting in neutral water and comes off in alkali: too early it clots, never it stays thin and thickens in the drum."


def check(batch):
    for one in batch.trace.exposures:
        if any("ph above" in words for words in one.material.words("needs")):
            met = polymers.meets_water(batch, one)
            early = batch.trace.holds(met, *BASES) if met else []
            if early:
                yield _finding(batch, one.row, met, f"goes into water that {listed(row.name for row in early)} is already in", early,
                               f"Disperse {one.row.name} in the neutral water first, stir 5 min, then add {listed(row.name for row in early)}.")
                return
            if met and not _swells(batch, met):
                yield _finding(batch, one.row, met, "gets no base, no warmth and no time to swell", [],
                               f"After line {met.span.line}, bring {met.vessel} to pH 8-9 with a little base, or hydrate it for 60 min; set the final pH afterwards.")
                return


def _swells(batch, met) -> bool:
    path = list(batch.trace.path(met))
    warm = any(moment.peak.high >= batch.limit(NAME, "faster") for moment in path)
    unknown = any(moment.duration is None and (moment.step.has("until") or moment.step.verb in polymers.TAKES_TIME) for moment in path)
    time = sum(moment.duration.high for moment in path if moment.duration is not None)
    return warm or unknown or time >= batch.limit(NAME, "anyway") or any(batch.trace.holds(moment, *BASES) for moment in path)


def _finding(batch, row, moment, what, bases, fix) -> Finding:
    also = tuple(Label(base.span, "a base") for base in bases) or (Label(row.span, "a treated grade"),)
    return Finding(LEVEL, NAME, f"{row.name} {what}", Label(moment.span, "it meets the water here"), also, WHY, fix, batch.source(NAME), material=row.name,
                   step=moment.step.number)
