"""A phase is held at temperature for less time than waxes need.

Why it matters
    Wax that looks molten may still hold crystals; they seed grains when the cream cools.

Wrong
    phase B: oils
        5 %  stearyl alcohol
        3 %  cetearyl glucoside
    method
        heat main to 75 °C
        charge B into side
        heat side to 75 °C
        hold side at 75 °C for 3 min
        add side to main with homogeniser

Right
    phase B: oils
        5 %  stearyl alcohol
        3 %  cetearyl glucoside
    method
        heat main to 75 °C
        charge B into side
        heat side to 75 °C
        hold side at 75 °C for 15 min
        add side to main with homogeniser

Limits
    All holds at 65 °C or more of a vessel that holds fat that sets, before the phases meet: under 10 min together.

Exceptions
    No hold at all: many proven methods have none, and sources disagree whether it is needed. `until melted`, `until clear` in the hold.
    All-liquid oils.

Source
    common practice, no source; craft teachers and plants ask for it, many suppliers' methods do not
"""

from procsheet.findings import Finding, Label
from procsheet.rules.drops import joining
from procsheet.rules.words import celsius, minutes

NAME = "hot-hold"
LEVEL = "NOTE"
WHY = "Wax that looks molten may still hold crystals. They seed grains when the cream cools, and nobody sees them before."


def check(batch):
    joined = joining(batch)
    if joined is None:
        return
    hot = batch.limit(NAME, "from which")
    before = (one for one in batch.trace.history(joined) if one.index < joined.index and one.step.verb == "hold" and one.end.high >= hot)
    holds = [one for one in before if batch.trace.holds(one, "structures oil")]
    if not holds or any(one.duration is None or one.step.has("until") for one in holds):
        return
    time, least = sum(one.duration.high for one in holds), batch.limit(NAME, "before the phases meet")
    if time < least:
        last = holds[-1]
        yield Finding(LEVEL, NAME, f"{last.vessel} is held at {celsius(last.end)} for {minutes(time)}; {minutes(least)} is usual where fat is to melt",
                      Label(last.span, "a short hold"),
                      tuple(Label(row.span) for row in batch.trace.holds(last, "structures oil")[:2]), WHY, f"Write in line {last.span.line} `for 10-20 min`.",
                      batch.source(NAME, "before the phases meet"), step=last.step.number)
