"""More water for evaporation, copied from the bench to a large batch.

Why it matters
    A beaker loses a tenth of its water in twenty minutes, a kettle of 200 kg far below one per cent. The overage stays in the batch:
    everything else is too thin, the preservative too.

Wrong
    product Thin
    type gel
    basis 200 kg
    to 100 %  purified water
    5 %       glycerin
    vessel main
    method
        charge "purified water" into main plus 10 % for evaporation
        add "glycerin" to main with propeller
        heat main to 80 °C with propeller
        cool main to 30 °C with propeller
        fill main

Right
    product Made up
    type gel
    basis 200 kg
    to 100 %  purified water
        hold back 3 %
    5 %       glycerin
    vessel main
    method
        charge "purified water" into main
        add "glycerin" to main with propeller
        heat main to 80 °C with propeller
        cool main to 30 °C with propeller
        make up main with "purified water" to 100 %
        fill main

Limits
    An overage (`plus`) in a batch of ten times the size it was tried at (`proven at`, else the basis) or more; and one of more than 5 % in a
    batch of 50 kg or more.

Exceptions
    An overage of what a plant of that size loses: 5 % or less, written for that size.

Source
    public threads and teaching pages on scale; common practice, no source, for the limits
"""

from procsheet.findings import Finding, Label
from procsheet.intervals import SMALL
from procsheet.model import quantities
from procsheet.rules.words import share, weight

NAME = "overage-scaled"
LEVEL = "WARN"
WHY = "A large vessel has less surface to its content and loses less: the overage stays in the batch, and everything else in it is thinner, the preservative too."


def check(batch):
    for moment in batch.trace.moments:
        more = quantities.interval(moment.step.value("plus")) if moment.step.has("plus") else None
        if more is not None and more.high > 0:
            yield from _judged(batch, moment, more)


def _judged(batch, moment, more):
    mass, tried = float(batch.plan.mass), float(batch.method.header.proven_at or batch.method.mass)
    copied = mass >= tried * batch.limit(NAME, "of the size") - SMALL
    too_much = mass >= batch.limit(NAME, "batch from which") and more.low > batch.limit(NAME, "more water") + SMALL
    if not copied and not too_much:
        return
    figure = share(more.high) if more.is_point else f"{share(more.low)} to {share(more.high)}"
    title = f"{figure} more for evaporation, as at {weight(tried)}, in a batch of {weight(mass)}" if copied else f"{figure} more for evaporation in a batch of {weight(mass)}"
    line = moment.span.line
    closing = batch.method.closing.name if batch.method.closing is not None else "purified water"
    yield Finding(LEVEL, NAME, title, Label(moment.span, "it does not boil off here"), (), WHY,
                  f'Take `plus` out of line {line}, and put back what boiled off once it is cool: make up {moment.vessel} with "{closing}" to 100 %.',
                  batch.source(NAME, "of the size" if copied else "more water"), step=moment.step.number)
