"""Perfume is in a batch that is too warm for it.

Why it matters
    Hot perfume boils off: the odour is weak and shifted, and its vapour can be lit.

Wrong
    phase C: perfume
        0.5 %  lavender oil
    method
        heat main to 75 °C
        add C to main

Right
    phase C: perfume
        0.5 %  lavender oil
    method
        heat main to 75 °C
        cool main to 40 °C
        add C to main below 45 °C

Limits
    45 °C, or the perfume's own `add below` where its sheet gives one. Its own flash point in an open vessel is a stop, and 10 °C
    below it a warning. Held against the batch when it goes in and at any time after.

Exceptions
    A stick or balm that is poured warmer than that: there the perfume may go in at up to 10 °C above pouring. Nitrogen or an inerted
    vessel keeps the vapour in, and so does a lid once the perfume is in; with a lid its flash point is a warning.

Needs
    flash point

Source
    the material's own data; common practice, no source
"""

from procsheet.findings import Finding, Label
from procsheet.rules import warmth
from procsheet.rules.batch import gravest, judge, not_checked
from procsheet.rules.words import celsius
from procsheet.trace.flash import Flash

NAME = "fragrance-temp"
LEVEL = "WARN"
POURING = 10.0                          # K above pouring that a perfume may be hotter in a stick (common practice, no source)
WHY = "Hot perfume boils off: the odour comes out weak and shifted. Above its flash point what rises from the open vessel can be lit."


def check(batch):
    found: dict[str, list[Finding]] = {}
    for exposure in batch.trace.exposures:
        if exposure.material.is_a("perfume"):
            found.setdefault(exposure.row.code, []).extend(_along(batch, exposure))
    yield from filter(None, map(gravest, found.values()))


def _along(batch, exposure):
    margin, figure = batch.apart(NAME, "margin"), exposure.material.figure("flash point")
    for moment in batch.trace.path(exposure.moment):
        flash = Flash(exposure.row, figure, figure.value.low, "its own") if figure is not None else None
        lit = batch.fire(moment, flash, margin) if flash is not None else None
        if lit is not None:
            yield _finding(batch, exposure, moment, lit, min(flash.limit - margin, _limit(batch, exposure)), "flash point")
        limit = _limit(batch, exposure)
        goes_in = moment.index == exposure.moment.index and not moment.closed      # through an opened lid
        level = judge(LEVEL, batch.hotter(moment.allowed, limit)) if goes_in or _in_air(moment) else None
        if level is not None:
            yield _finding(batch, exposure, moment, level, limit, "add below")
        if figure is None and exposure.material.known and _in_air(moment) and moment.peak.low > batch.limit(NAME, "whose flash point is not known"):
            yield not_checked(NAME, exposure.row, "flash point", f"whether it may be lit at {celsius(moment.peak)}")


def _in_air(moment) -> bool:
    return moment.cover == "open" and not moment.closed


def _limit(batch, exposure) -> float:
    """Its own figure, else the usual one; where the product is poured warmer, what pouring needs."""
    own = exposure.material.figure("add below") if exposure.material.lines.get("add below") else None
    limit = own.value.low if own is not None else batch.limit(NAME, "when perfume goes in", max)
    left = batch.trace.leaves(exposure.moment)
    if "set point" in left.start.missing:
        return float("inf")
    sets = batch.type == "anhydrous" or left.step.verb == "pour"
    return max(limit, left.start.high + POURING) if sets and left.start.low > limit else limit


def _finding(batch, exposure, moment, level, limit, why) -> Finding:
    row = exposure.row
    figure = row.material.figure(why) if why == "flash point" or row.material.lines.get(why) else None
    lies = f"its flash point is {celsius(figure.value.low)}" if why == "flash point" else f"perfume goes in at {celsius(limit)} or below"
    return Finding(level, NAME, f"{warmth.found(row, moment, moment.index == exposure.moment.index, level, limit)}; {lies}{warmth.unsaid(moment, level)}",
                   Label(moment.span, f"up to {celsius(moment.allowed.high)} here"), warmth.causes(batch, exposure, moment), WHY,
                   f"Add {row.name} {warmth.later(batch, moment, limit)}.",
                   f"data of {row.material.name}: {why} {figure.told}" if figure is not None else batch.source(NAME, "when perfume goes in"),
                   material=row.name, step=moment.step.number)
