"""A side vessel is emptied and not rinsed, or rinsed too late.

Why it matters
    Half a per cent to three of the oil phase stays on the wall: fat, emulsifier and what was dissolved in them are short in the batch. Fat
    that is rinsed into a cold batch sets there as grains.

Wrong
    phase B: oil
        20 %  jojoba oil
    phase C: for the rinse
        5 %   rose water
            hold back 2 %
    method
        charge B into side
        add C to main
        add side to main with homogeniser

Right
    phase B: oil
        20 %  jojoba oil
    phase C: for the rinse
        5 %   rose water
            hold back 2 %
    method
        charge B into side
        add C to main
        add side to main with homogeniser
        rinse side with the hold-back into main

Limits
    Where something is held back and never used to rinse: a vessel of half oil or powder that is emptied. Fat rinsed into a batch colder than
    it melts. A small premix of which the thinnest film on the wall is 1.5 % or more: a hint.

Exceptions
    Without a hold-back a larger vessel is not asked for: drained hot it leaves little. Soap, and melts, where a rinse has no place.

Source
    common practice, no source
"""

from procsheet.findings import Finding, Label
from procsheet.rules.batch import gravest
from procsheet.rules.words import celsius, share, weight
from procsheet.trace.loss import left_behind

NAME = "rinse-down"
LEVEL = "WARN"
HINT = "NOTE"
DRY = ("anhydrous", "powder", "soap")
OILS = ("oil", "silicone", "powder")
WHY = "What clings to the wall is missing in the batch: fat, emulsifier, colour. Rinsed in late and cold, fat sets where it falls, as grains."


def check(batch):
    if batch.type in DRY:
        return
    kept = _kept_back(batch)
    for moment in batch.trace.moments:
        if moment.step.verb == "rinse":
            yield from _too_cold(batch, moment)
        elif moment.poured and moment.vessel in batch.method.vessels:
            found = (_unrinsed(batch, moment, batch.trace.moments[index], kept) for index in moment.poured)
            yield from filter(None, (gravest(found),))


def _kept_back(batch):
    """The row something is held back of that no step but the make-up uses; None where there is none."""
    used = {portion.row.code for node in batch.graph.nodes for portion in node.entering if portion.use == "hold-back"}
    return next((row for row in batch.method.rows if row.hold_back and row.code not in used), None)


def _unrinsed(batch, moment, other, kept) -> Finding | None:
    if other.vessel == moment.vessel or other.mass <= 0 or any(one.step.verb == "rinse" and one.step.vessel == other.vessel for one in batch.trace.later(moment)):
        return None
    line, stays = moment.span.line, left_behind(batch.trace, moment).low
    if kept is not None and batch.trace.share(other, *OILS) >= batch.limit(NAME, "oil or powder"):
        return Finding(LEVEL, NAME, f"{other.vessel} is emptied and not rinsed, and the {kept.name} held back is not used", Label(moment.span, f"what clings to {other.vessel} is short"),
                       (Label(kept.span, "held back for nothing"),), WHY,
                       f"Put a step behind line {line}: rinse {other.vessel} with the hold-back into {moment.vessel}, as hot as the batch.",
                       batch.source(NAME, "oil or powder"), step=moment.step.number)
    if stays >= batch.limit(NAME, "a hint") * other.mass:
        return Finding(HINT, NAME, f"of {weight(other.mass)} in {other.vessel} at least {weight(stays)} ({share(stays / other.mass)}) stay on its wall", Label(moment.span, "not rinsed"),
                       (), WHY, f"Put a step behind line {line} that rinses {other.vessel} with a little of the batch or of the water.",
                       batch.source(NAME, "a hint"), step=moment.step.number)
    return None


def _too_cold(batch, moment):
    """The rinse brings fat into a batch in which it sets."""
    emptied = next((one for one in reversed(batch.trace.moments[:moment.index]) if any(batch.trace.moments[index].vessel == moment.step.vessel for index in one.poured)), None)
    other = next((batch.trace.moments[index] for index in emptied.poured if batch.trace.moments[index].vessel == moment.step.vessel), None) if emptied is not None else None
    fats = [figure.value.low for row in batch.trace.holds(other, "structures oil") if (figure := row.material.figure("melts")) is not None] if other is not None else []
    if fats and moment.start.high < max(fats) and emptied.start.low > max(fats):
        yield Finding(LEVEL, NAME, f"{moment.step.vessel}, with fat that melts at {celsius(max(fats))}, is rinsed into {moment.vessel} at {celsius(moment.start)}",
                      Label(moment.span, "the fat sets here"), (Label(emptied.span, f"{moment.step.vessel} is emptied here"),), WHY,
                      f"Move line {moment.span.line} behind line {emptied.span.line}, while {moment.vessel} is hot.", batch.source(NAME, "oil or powder"), step=moment.step.number)
