"""The base of a carbomer gel is not soluble in so much alcohol.

Why it matters
    The polymer and its base make a salt. In too much alcohol that salt is not soluble: the gel clouds, then the polymer falls out and the
    batch is thin.

Wrong
    type hydroalcoholic
    phase B: polymer
        0.4 %  carbomer
    phase C: alcohol
        68 %  ethanol 96 %
    phase D: base
        0.5 %  triethanolamine
    method
        disperse B in main
        add C to main
        neutralise main with D

Right
    type hydroalcoholic
    phase B: polymer
        0.4 %  carbomer
    phase C: alcohol
        68 %  ethanol 96 %
    phase D: base
        0.3 %  aminomethyl propanol
    method
        disperse B in main
        add C to main
        neutralise main with D

Limits
    Alcohol by mass in the vessel, the most it holds from the base on. Triethanolamine to 60 %; sodium and potassium hydroxide to 50 %, and a
    hint from 20 % on, where sources disagree. One maker of gels reports 63 % with triethanolamine: a trial is a reason to sign.

Exceptions
    Aminomethyl propanol and other amines that the limits do not name; plants may name theirs.

Source
    formulators' forum on alcohol gels; from memory, for 20 %
"""

from procsheet.findings import Finding, Label
from procsheet.rules import polymers
from procsheet.rules.words import share

NAME = "neutraliser-alcohol"
LEVEL = "WARN"
HINT = "NOTE"
NEARLY = 1e-6
WHY = "The salt of polymer and base is not soluble in so much alcohol: the gel clouds, then the polymer falls out and the batch is thin."


def check(batch):
    for one in batch.trace.exposures:
        start = polymers.swells(batch, one) if polymers.wants_base(one.material) else None
        if start is not None and (found := _found(batch, one, start)) is not None:
            yield found
            return


def _found(batch, one, start):
    strongest = max(batch.trace.path(start), key=lambda moment: polymers.part(batch, moment.contents, "alcohol"))
    alcohol = polymers.part(batch, strongest.contents, "alcohol")
    for base in batch.trace.holds(strongest, "base"):
        for words, level in (("a warning", LEVEL), ("a hint", HINT)):
            limit = _limit(batch, base, words)
            if limit is not None and alcohol > limit + NEARLY:
                return _finding(batch, one.row, base, strongest, alcohol, limit, level)
    return None


def _limit(batch, base, words) -> float | None:
    of = f"for {polymers.first_name(base.material)}: {words}"
    return batch.limit(NAME, of) if batch.thresholds(NAME, of) else None


def _finding(batch, row, base, moment, alcohol, limit, level) -> Finding:
    return Finding(level, NAME, f"{row.name} is neutralised with {base.name} at {share(alcohol)} of alcohol; its salt stays dissolved to {share(limit)}",
                   Label(base.span, "falls out with the polymer"), (Label(moment.span, "so much alcohol here"), Label(row.span, "the polymer")), WHY,
                   f"Take aminomethyl propanol in place of {base.name}, about 0.9 parts to one of {row.name}, `as needed`, to the same pH.",
                   batch.source(NAME, polymers.first_name(base.material)), material=base.name, step=moment.step.number)
