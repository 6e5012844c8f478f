"""A vessel passes the flash limit of what it holds.

Why it matters
    Vapour over a warm vessel can be lit by a motor or a static spark, and what has boiled off is no longer in the product.

Wrong
    phase C: volatile
        8 %  cyclopentasiloxane
    method
        add C to main
        heat main to 80 °C

Right
    phase C: volatile
        8 %  cyclopentasiloxane
    method
        heat main to 80 °C
        cool main to 40 °C
        add C to main below 40 °C

Limits
    The lowest flash point known of each material that is not dilute: from 1 % of a vessel, or from half of it where the material
    dissolves in the water. In an open vessel it is told from 10 °C below; the finding says which figure it rests on.

Exceptions
    Under nitrogen, or in a vessel the plant calls inerted. A lid takes away the margin and makes the stop a warning. A method that
    sets the flash point as its own ceiling (`never above flash point of "x"`) gets a hint within the margin. At room temperature
    there is nothing to cool: the caution beside the step is enough. Alcohol is left to alcohol-cool, perfume to fragrance-temp.

Needs
    flash point

Source
    GHS chapter 2.6 for the meaning of a flash point; the margin is common practice, no source
"""

from procsheet.findings import Finding, Label
from procsheet.intervals import WITHIN
from procsheet.rules import warmth
from procsheet.rules.batch import gravest, not_checked
from procsheet.rules.words import celsius, kelvin
from procsheet.trace.flash import flammable

NAME = "flash-limit"
LEVEL = "STOP"
WHY = ("Above its flash point the vapour over the vessel can be lit by a motor or a static spark. "
       "It also boils off, so the pack no longer holds what the label says.")


def check(batch):
    margin = batch.apart(NAME, "margin", max)
    watched = any(getattr(step.value("never above"), "name", "") == "flash point" for step in batch.graph.course.steps)
    found: dict[str, list[Finding]] = {}
    for moment in batch.trace.moments:
        for flash in flammable(batch.trace, moment):
            level = batch.fire(moment, flash, margin) if not flash.row.material.is_a("alcohol") else None
            if level == "WARN" and watched and batch.hotter(moment.allowed, flash.limit) == WITHIN:
                level = "NOTE"
            if level is not None:
                found.setdefault(flash.row.code, []).append(_finding(batch, moment, flash, level, margin))
    yield from map(gravest, found.values())
    yield from _unknown(batch)


def _unknown(batch):
    """What should have a flash point, has none, and is in a vessel warmer than the room."""
    warm = {exposure.row.code: exposure.row for exposure in batch.trace.exposures if _lacks(exposure.material)
            and any(_may_be_lit(batch, moment) for moment in batch.trace.path(exposure.moment))}
    for row in warm.values():
        yield not_checked(NAME, row, "flash point", "how warm it may be")


def _lacks(material) -> bool:
    return material.known and "flash point" in material.decisive and not material.has("flash point") and not material.is_a("perfume", "alcohol")


def _may_be_lit(batch, moment) -> bool:
    return moment.peak.low > batch.plan.plant.room.high and not moment.closed and moment.cover != "nitrogen"


def _finding(batch, moment, flash, level, margin) -> Finding:
    row, hot, made = flash.row, moment.allowed, warmth.brought(batch, flash.row, moment)
    over = hot.high - flash.limit
    lies = "above its flash limit" if over > 0 else f"{kelvin(-over)} below its flash limit" if over < -0.05 else "at its flash limit"
    warmed = batch.trace.warmed_by(moment)
    also = [Label(row.span, f"in {moment.vessel} by then")]
    also += [Label(warmed.span, f"warms it to {celsius(warmed.end)}")] if warmed.index not in (moment.index, made.index) else []
    also += [Label(moment.span, f"{celsius(hot.high)} here, and the vessel is not closed")] if made.index != moment.index else []
    here = f"passes {celsius(flash.limit)} here" if over > 0 else f"within {kelvin(margin)} of {celsius(flash.limit)}, in an open vessel"
    return Finding(level, NAME, f"{warmth.found(row, moment, False, level, hot.high)}, {lies} of {celsius(flash.limit)}{warmth.unsaid(moment, level)}",
                   Label(made.span, here), tuple(also), WHY, _fix(batch, made, flash, margin),
                   f"data of {row.material.name}: flash point {' and '.join(one.told for one in row.material.figures('flash point'))}; {flash.basis}; "
                   f"margin {kelvin(margin)} in an open vessel ({batch.source(NAME, 'margin')})", material=row.name, step=made.step.number)


def _fix(batch, made, flash, margin) -> str:
    limit = max(flash.limit - margin, batch.plan.plant.room.high)
    step = warmth.cooler(batch, flash.row, made, limit)
    return f"{step or f'Give {flash.row.name} a phase of its own and add it {warmth.later(batch, made, limit)}'}; or work under nitrogen."
