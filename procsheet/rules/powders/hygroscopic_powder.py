"""A solid that draws water from the air stands about open before it goes into its liquid.

Why it matters
    Within an hour in moist air it cakes, sticks to its beaker or runs. What the balance showed is no longer what goes in, and what sticks stays
    behind.

Wrong
    phase B: salt
        3 %  urea
    method
        charge B into pail
        set aside pail
        add pail to main

Right
    phase B: salt
        3 %  urea
    method
        charge B into pail
        set aside pail covered
        add pail to main

Limits
    A rest, a wait or a vessel set aside, open, of 30 min or more or of a time that is not said, while it lies dry.

Exceptions
    A cover or nitrogen; a solution. Weigh it last: that is for the one who weighs, and its label can say so (`before weighing`).

Source
    common practice, no source
"""

from procsheet.findings import Finding, Label
from procsheet.rules.batch import TRACE
from procsheet.trace.trace import Moment

NAME = "hygroscopic-powder"
LEVEL = "NOTE"
STANDS = ("rest", "set aside", "wait", "hold")
LIQUID = ("water", "oil", "silicone", "alcohol")
WHY = "It cakes, sticks or runs within an hour in moist air: what was weighed is not what goes in."


def check(batch):
    told: set[int] = set()
    for one in batch.trace.exposures:
        if one.material.is_a("hygroscopic") and (moment := _stands(batch, one)) is not None and moment.index not in told:
            told.add(moment.index)
            yield Finding(LEVEL, NAME, f"{one.row.name} lies dry and open in {moment.vessel}; it draws water from the air", Label(moment.span, "open"),
                          (Label(one.row.span, "draws water from the air"),), WHY,
                          f"Write `covered` in line {moment.span.line}, or weigh {one.row.name} just before it goes into its liquid.", batch.source(NAME),
                          material=one.row.name, step=moment.step.number)


def _stands(batch, one) -> Moment | None:
    """The first step in which it lies dry and open for long."""
    for moment in batch.trace.path(one.moment):
        wet = batch.trace.weight(moment.contents, *LIQUID) - sum(moment.contents[row.code] for row in batch.trace.holds(moment, "hygroscopic"))
        if wet >= TRACE * moment.mass:
            return None
        if moment.step.verb in STANDS and moment.cover == "open" and not moment.closed and (moment.duration is None or moment.duration.high >= batch.limit(NAME)):
            return moment
    return None
