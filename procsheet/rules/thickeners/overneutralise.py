"""More base than a carbomer takes.

Why it matters
    Beyond pH 9 the base no longer opens the chains: it screens them as salt does. The gel thins and clouds, and acid does not bring it back,
    for it adds salt.

Wrong
    type gel
    phase B: polymer
        0.5 %  carbomer
    phase C: base
        2 %  triethanolamine
    method
        disperse B in main
        neutralise main with C

Wrong
    type gel
    phase B: polymer
        0.5 %  carbomer
    phase C: base
        as needed, about 0.4 %, at most 3 %  sodium hydroxide 18 % solution
    method
        disperse B in main
        neutralise main with C until pH 9.5-10

Right
    type gel
    phase B: polymer
        0.5 %  carbomer
    phase C: base
        0.6 %  triethanolamine
    method
        disperse B in main
        neutralise main with C

Limits
    A pH above what the polymer's data say, or above 9. By weight: half as much again as the base that brings the polymer to pH 7, which is
    0.4 parts of sodium hydroxide or 1.5 of triethanolamine to one of polymer; others are reckoned from it.

Exceptions
    What is added `as needed` to a pH: only the pH counts. Where an acid or fatty acid of the formula takes base up, the weight says nothing.
    Bases that the limits do not name.

Needs
    pH

Source
    maker's data sheet on neutralising; public threads, for half as much again; from memory, for pH 9
"""

from procsheet.findings import Finding, Label
from procsheet.intervals import BEYOND, STRADDLES, above
from procsheet.rules import drops, ph, polymers
from procsheet.rules.batch import gravest
from procsheet.rules.words import share

NAME = "overneutralise"
LEVEL = "WARN"
HINT = "NOTE"
NEARLY = 1e-6
TAKES = ("acid", "hydroxy acid", "ascorbic", "saponifiable", "borate")
WHY = "Too much base screens the chains as salt does: the gel thins and clouds, and acid does not bring it back, for it adds salt."


def check(batch):
    waiting = [one for one in batch.trace.exposures if polymers.wants_base(one.material) and polymers.swells(batch, one) is not None]
    if waiting:
        found = gravest((*_by_ph(batch, waiting[0]), _by_weight(batch, waiting)))
        if found is not None:
            yield found


def _by_ph(batch, one):
    figure = one.material.figure("pH")
    limit = max(batch.limit(NAME, "stays thick"), max((own.value.high for own in one.material.figures("pH")), default=0.0)) if figure else batch.limit(NAME, "stays thick")
    for said in ph.stated(batch, one.row):
        level = {BEYOND: LEVEL, STRADDLES: HINT}.get(above(said.value, limit))
        if level is not None:
            yield ph.told(batch, NAME, level, one.row, said, f"up to pH {limit:.3g}", WHY, f"Stop the base at pH 6.5-7.5, where {one.row.name} is thickest, or thicken "
                          "with hydroxyethylcellulose, which stands alkali.", batch.source(NAME, "stays thick"))


def _by_weight(batch, waiting):
    """The base of the formula against what brings its polymers to pH 7."""
    if any(row.material.is_a(*TAKES) or drops.is_fatty_acid(row) for row in batch.method.rows):
        return None
    bases = [row for row in batch.method.rows if row.material.is_a("base") and row.kind == "figure" and batch.thresholds(NAME, polymers.first_name(row.material))]
    polymer = sum(batch.of_batch(row, "carbomer") for row in {one.row.code: one.row for one in waiting}.values())
    taken = sum(batch.of_batch(row, "base") / batch.limit(NAME, polymers.first_name(row.material)) for row in bases)
    if not bases or not polymer or taken / polymer <= batch.limit(NAME, "of what it takes") + NEARLY:
        return None
    most = max(bases, key=batch.of_batch)
    row = waiting[0].row
    moment = polymers.swells(batch, waiting[0])
    return Finding(LEVEL, NAME, f"{share(batch.of_batch(most))} of {most.name} is {taken / polymer:.2g} times what brings {share(polymer)} of {row.name} to pH 7",
                   Label(most.span, "more than it takes"), (Label(row.span, "the polymer"), Label(moment.span, "neutralised here")), WHY,
                   f"Take {share(batch.of_batch(most) * polymer / taken)} of {most.name}, or write `as needed` and neutralise until pH 6.5-7.",
                   batch.source(NAME, polymers.first_name(most.material)), material=most.name, step=moment.step.number)
