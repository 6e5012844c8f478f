"""Gum, starch, protein or extract stands in warm water without a preservative.

Why it matters
    It is food in water at the temperature germs like. A shift is enough for a count that no preservative takes back, and what they leave
    behind, enzymes among it, goes on thinning the gum in the pack.

Wrong
    phase B: gum
        3 %  glycerin
        0.4 %  xanthan gum
    phase C: preservative
        0.9 %  phenoxyethanol
    method
        disperse B in main with propeller
        heat main to 40 °C
        hold main at 40 °C for 12 h
        add C to main

Right
    phase B: gum
        3 %  glycerin
        0.4 %  xanthan gum
    phase C: preservative
        0.9 %  phenoxyethanol
    method
        disperse B in main with propeller
        add C to main
        heat main to 40 °C
        hold main at 40 °C for 12 h

Limits
    All stated times between 25 and 65 °C count, from the step in which it meets the water to the step that brings a preservative: over 4 h is a
    warning, over 8 h a stop. Colder, over 24 h is a hint, where a
    preservative is to come.

Exceptions
    Any preservative or booster in the vessel; 15 % of alcohol; half of it polyol; pH 10 and more; batches that hold no water to speak of.

Source
    common practice, no source
"""

from procsheet.findings import Finding, Label
from procsheet.intervals import BEYOND, above
from procsheet.rules import polymers
from procsheet.rules.words import minutes
from procsheet.trace.acidity import acidity

NAME = "gum-warm-micro"
LEVEL = "STOP"
SOME, HINT = "WARN", "NOTE"
FOOD = ("gum", "starch", "protein", "extract", "stock gel")
KEEPS = ("preservative", "preservative booster", "oxidiser")
WATERY = 0.2                            # of the vessel: less water is bound (common practice, no source)
WHY = "It is food in water at the temperature germs like: a shift is enough for a count that no preservative takes back, and their enzymes go on thinning the gum in the pack."


def check(batch):
    found = [one for exposure in batch.trace.exposures if exposure.material.is_a(*FOOD) and (one := _stands(batch, exposure)) is not None]
    if found:
        yield _finding(batch, *max(found, key=lambda one: (one[1] == LEVEL, one[1] == SOME, one[2])))


def _stands(batch, exposure):
    """The row, the level, the seconds, and the step it stands longest in; None where it does not stand too long."""
    known = acidity(batch.trace)
    bare = [moment for moment in batch.trace.path(exposure.moment) if moment.duration is not None and _is_bare(batch, moment, exposure.row, known)]
    warm = [moment for moment in bare if above(moment.trough, batch.limit(NAME, "water is warm")) == BEYOND]
    time, cold = (sum(moment.duration.low for moment in some) for some in (warm, bare))
    for level, words, seconds, some in ((LEVEL, "a stop", time, warm), (SOME, "a warning", time, warm), (HINT, "a hint", cold, bare)):
        if seconds > batch.limit(NAME, words) and (level != HINT or _is_kept_later(batch, some[-1])):
            return exposure.row, level, seconds, max(some, key=lambda moment: moment.duration.low)
    return None


def _is_kept_later(batch, moment) -> bool:
    """Whether a preservative comes afterwards: a product that is to have none is not asked for it."""
    return any(batch.trace.holds(one, *KEEPS) for one in batch.trace.later(moment))


def _is_bare(batch, moment, row, known) -> bool:
    """Whether it is in water that germs can grow in."""
    held = moment.contents
    rows = [batch.graph.rows[code] for code in held if code in batch.graph.rows]
    if row.code not in held or moment.step.verb in ("fill", "pour", "discharge") or any(one.material.share(*KEEPS) for one in rows):
        return False
    kept = polymers.part(batch, held, "alcohol") >= batch.limit(NAME, "alcohol") or polymers.part(batch, held, "polyol") >= batch.limit(NAME, "polyol")
    hot = moment.trough.high >= batch.limit(NAME, "hotter") or known[moment.index].low >= batch.limit(NAME, "alkaline")
    return batch.watery(held) >= WATERY * moment.mass and not kept and not hot


def _finding(batch, row, level, seconds, moment) -> Finding:
    first = next(one for one in batch.trace.moments if row.code in one.contents)
    warm = "warm " if level != HINT else ""
    also = (Label(first.span, f"{row.name} goes in here"),) if first.span != moment.span else (Label(row.span, "food for germs"),)
    return Finding(level, NAME, f"{row.name} stands {minutes(seconds)} in {warm}water in {moment.vessel} without a preservative", Label(moment.span, "germs grow here"), also, WHY,
                   f"Add the preservative, or a part of it, before line {moment.span.line}; or make this part within one shift, or keep it above 65 °C.",
                   batch.source(NAME, "a hint" if level == HINT else "a stop"), material=row.name, step=moment.step.number)
