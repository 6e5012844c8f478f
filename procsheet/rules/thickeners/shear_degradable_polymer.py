"""A polyether of very long chain is stirred fast once it is dissolved.

Why it matters
    Its slip and its string come from the longest chains, and these break first under a fast stirrer. What is cut does not grow together.

Wrong
    type gel
    phase B: polymer
        0.3 %  PEG-90M
        3 %  glycerin
    method
        disperse B in main, into the vortex, with propeller
        hydrate main for 2 h with paddle
        homogenise main for 10 min

Right
    type gel
    phase B: polymer
        0.3 %  PEG-90M
        3 %  glycerin
    method
        disperse B in main, into the vortex, with propeller
        hydrate main for 2 h with paddle

Limits
    Over 2 min of it together, in the steps after the one in which the polymer meets the water: any high-shear tool, a stirrer faster than 5 m/s,
    fast or vigorous stirring in words. Where the time is not said, it counts.

Exceptions
    `briefly`. The step that disperses it: that is published with high agitation.

Source
    public threads and teaching pages; common practice, no source, for the figures
"""

from procsheet.findings import Finding, Label
from procsheet.intervals import BEYOND
from procsheet.rules import polymers
from procsheet.rules.words import minutes

NAME = "shear-degradable-polymer"
LEVEL = "WARN"
WHY = "Slip and string come from the longest chains, and these break first under a fast stirrer. What is cut does not grow together."


def check(batch):
    for one in batch.trace.exposures:
        met = polymers.meets_water(batch, one) if one.material.is_a("polyether resin") else None
        hard = [moment for moment in batch.trace.later(met) if moment.part == 0 and _is_fast(batch, moment)] if met is not None else []
        unsaid = any(moment.duration is None for moment in hard)
        if hard and (unsaid or sum(moment.duration.high for moment in hard) > batch.limit(NAME, "of fast stirring") + 1e-6):
            yield _finding(batch, one.row, met, hard, unsaid)
            return


def _is_fast(batch, moment) -> bool:
    words = moment.step.has("fast stirring", "vigorous stirring")
    return (words or moment.shear.beyond(batch.limit(NAME, "at the edge")) == BEYOND) and not moment.step.has("briefly")


def _finding(batch, row, met, hard, unsaid) -> Finding:
    longest = max(hard, key=lambda moment: moment.duration.high if moment.duration else 1e9)
    how_long = "for a time that is not said" if unsaid else f"for {minutes(sum(moment.duration.high for moment in hard))}"
    also = (Label(met.span, "dissolves from here on"), *(Label(moment.span, "and here") for moment in hard if moment is not longest), Label(row.span, "very long chains"))
    return Finding(LEVEL, NAME, f"{row.name} is stirred fast in {longest.vessel}, {how_long}, after line {met.span.line} has dissolved it",
                   Label(longest.span, "breaks its chains"), also, WHY,
                   f"Do what needs shear before line {met.span.line}; from there on only a paddle or anchor, slowly.", batch.source(NAME), material=row.name,
                   step=longest.step.number)
