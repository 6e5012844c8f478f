"""Vacuum is drawn on a batch that already holds alcohol, perfume or another volatile.

Why it matters
    Vacuum pulls them out: the odour is weak, the strength is short, and what comes out of the pump can be lit.

Wrong
    phase C: perfume
        0.5 %  lavender oil
    method
        add C to main
        deaerate main for 10 min under vacuum at -0.6 bar

Right
    phase C: perfume
        0.5 %  lavender oil
    method
        deaerate main for 10 min under vacuum at -0.6 bar
        add C to main

Limits
    Any vacuum from 3 % of alcohol in the vessel is a stop, on less a warning; perfume and volatile oils and silicones stand -0.3 bar.
    A vacuum without a figure on these, and `deaerate` without a word on vacuum, are open points.

Exceptions
    The last vacuum of a paste on up to 2 % of flavour: a hint at -0.7 bar or less, at room temperature, for 15 min or less.

Source
    common practice, no source
"""

from procsheet.findings import Finding, Label
from procsheet.intervals import SMALL
from procsheet.rules.batch import gravest

NAME = "vacuum-before-volatile"
LEVEL = "WARN"
ALCOHOL = "STOP"
ATMOSPHERE = 101325.0                   # Pa
MOST = 0.5                              # of what is deaerated: less in the vessel by then, and air comes in with the rest (common practice, no source)
WHY = "Vacuum pulls out what is volatile: the odour comes out weak, the strength short, and the pump blows vapour into the room."


def check(batch):
    found: dict[str, list[Finding]] = {}
    for moment in batch.trace.moments:
        if moment.cover == "vacuum" or moment.step.verb == "deaerate":
            for row in batch.trace.holds(moment, "alcohol", "perfume", "volatile"):
                level = _judged(batch, moment, row)
                if level is not None:
                    found.setdefault(row.code, []).append(_finding(batch, moment, row, level))
    yield from map(gravest, found.values())


def _judged(batch, moment, row) -> str | None:
    if moment.cover != "vacuum":
        return "OPEN"
    if row.material.is_a("alcohol"):
        spirits = sum(moment.contents[one.code] for one in batch.trace.holds(moment, "alcohol"))
        return ALCOHOL if spirits >= batch.limit(NAME, "alcohol in the vessel") * moment.mass else LEVEL
    if moment.pressure is None:
        return "OPEN"
    if moment.pressure >= batch.limit(NAME, "perfume and volatile", max) - 1:
        return None
    return "NOTE" if _is_usual(batch, moment, row) else LEVEL


def _is_usual(batch, moment, row) -> bool:
    """A paste that leaves its mixer under vacuum loses little of a little flavour, in a short time in the cold."""
    return (batch.type == "paste" and row.material.is_a("perfume") and moment.duration is not None
            and moment.pressure >= batch.limit(NAME, "flavour of a paste stands", max) - 1
            and moment.duration.high <= batch.limit(NAME, "flavour of a paste at most") + SMALL
            and moment.contents[row.code] <= batch.limit(NAME, "flavour in a paste") * moment.mass + SMALL
            and moment.peak.high <= batch.plan.plant.room.high + SMALL)


def _finding(batch, moment, row, level) -> Finding:
    enters = next((one for one in reversed(batch.trace.history(moment)) if row.code in one.added and one.entering), moment)
    deep = f"at {(moment.pressure - ATMOSPHERE) / 1e5:.2g} bar" if moment.pressure is not None else ""
    unsaid = "how deep the vacuum is" if moment.cover == "vacuum" else "whether a vacuum is drawn"
    title = (f"{moment.vessel} is put under vacuum {deep}".rstrip() + f" with {row.name} in it" if level != "OPEN" else
             f"{unsaid} in line {moment.span.line} is not said, so the loss of {row.name} was not checked")
    return Finding(level, NAME, title, Label(moment.span, "draws it out"), (Label(enters.span, f"{row.name} goes in here"),), WHY,
                   _fix(batch, moment, row), batch.source(NAME), material=row.name, step=moment.step.number)


def _fix(batch, moment, row) -> str:
    """Before it goes in, where the batch stands in the vessel by then; else a weaker vacuum, or what catches the vapour."""
    meets = next((one for one in batch.trace.history(moment) if one.vessel == moment.vessel and row.code in one.added), moment)
    if meets is moment:
        return f"Vent before line {moment.span.line}."
    if sum(meets.before.values()) >= MOST * moment.mass:
        return f"Move line {moment.span.line} before line {meets.span.line}."
    line = moment.span.line
    if row.material.is_a("alcohol"):
        return f"Leave out the vacuum in line {line}: let the batch stand until the air is out, or stir it slowly so that none gets in."
    stands = (batch.limit(NAME, "perfume and volatile", max) - ATMOSPHERE) / 1e5
    return f"Write in line {line} a vacuum no deeper than {stands:.2g} bar, and keep it short; or catch the vapour in a cold trap and make up what is lost."
