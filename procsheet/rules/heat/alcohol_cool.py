"""Alcohol is in a batch that is too warm for it.

Why it matters
    Alcohol gives off vapour that a motor or a static spark can light, at body temperature and below. What boils off is missing in the pack.

Wrong
    phase C: alcohol
        10 %  ethanol 96 %
    method
        heat main to 60 °C
        add C to main

Right
    phase C: alcohol
        10 %  ethanol 96 %
    method
        heat main to 60 °C
        cool main to 30 °C
        add C to main below 30 °C

Limits
    Ethanol in water by the published table of flash points by strength, counted on the ethanol and water alone, which errs on the
    safe side; any other alcohol by its own flash point. From 3 % of a vessel; told from 10 °C below in an open vessel.
    Spoken of wherever the alcohol is: when it goes in, and at any later step.

Exceptions
    Under nitrogen, or in a vessel the plant calls inerted. A lid takes away the margin and makes the stop a warning.
    At room temperature there is nothing to cool: the caution beside the step is enough.

Needs
    flash point

Source
    published list of ethanol-water flash points; the margin is common practice, no source
"""

from procsheet.findings import Finding, Label
from procsheet.rules import warmth
from procsheet.rules.batch import gravest, not_checked
from procsheet.rules.words import celsius, kelvin
from procsheet.trace.flash import flammable

NAME = "alcohol-cool"
LEVEL = "STOP"
WHY = ("Alcohol gives off vapour that a motor or a static spark can light, well below its boiling point. "
       "What boils off is no longer in the product, and the strength on the label is not met.")


def check(batch):
    margin = batch.apart(NAME, "margin", max)
    found: dict[str, list[Finding]] = {}
    for moment in batch.trace.moments:
        spirits = [flash for flash in flammable(batch.trace, moment) if flash.row.material.is_a("alcohol")]
        flash = max(spirits, key=lambda one: moment.contents[one.row.code], default=None)
        level = batch.fire(moment, flash, margin) if flash is not None else None
        if level is not None:
            found.setdefault(flash.row.material.name, []).append(_finding(batch, moment, flash, level, margin))
    yield from map(gravest, found.values())
    for row in batch.method.rows:
        if row.material.known and row.material.is_a("alcohol") and not row.material.has("flash point"):
            yield not_checked(NAME, row, "flash point", "how warm the batch may be with it")


def _finding(batch, moment, flash, level, margin) -> Finding:
    row, hot, limit, made = flash.row, moment.allowed, flash.limit, warmth.brought(batch, flash.row, moment)
    over = hot.high - limit
    lies = "above the flash limit" if over > 0 else f"{kelvin(-over)} below the flash limit" if over < -0.05 else "at the flash limit"
    enters, elsewhere = row.code in made.added, made.index != moment.index
    warmed = batch.trace.warmed_by(moment)
    also = [] if enters else [Label(row.span, f"in {moment.vessel} by then")]
    also += [Label(warmed.span, f"leaves {warmed.vessel} at {celsius(warmed.end)}")] if warmed.index not in (moment.index, made.index) else []
    also += [Label(moment.span, f"{celsius(hot.high)} here, and the vessel is not closed")] if elsewhere else []
    return Finding(level, NAME, f"{warmth.found(row, moment, enters and not elsewhere, level, hot.high)}, {lies} of {celsius(limit)}{warmth.unsaid(moment, level)}",
                   Label(made.span, f"passes {celsius(limit)}" if over > 0 else f"within {kelvin(margin)} of {celsius(limit)}"), tuple(also), WHY,
                   _fix(batch, made, flash, margin),
                   _source(batch, flash, margin), material=row.name, step=made.step.number)


def _source(batch, flash, margin) -> str:
    published = batch.source(NAME, "flash point at") if "ethanol" in flash.basis else flash.figure.told
    return f"flash limit: {flash.basis} ({published}); margin {kelvin(margin)} in an open vessel ({batch.source(NAME, 'margin')})"


def _fix(batch, made, flash, margin) -> str:
    limit = max(flash.limit - margin, batch.plan.plant.room.high)
    step, cool = warmth.cooler(batch, flash.row, made, limit), warmth.cooled(batch, made, limit)
    after = f"Add it after line {cool.span.line}, at {celsius(limit)} or below" if cool is not None and flash.row.code in made.added else ""
    last = f"Do what needs heat before {flash.row.name} goes in, and add it last, at {celsius(limit)} or below"
    return f"{step or after or last}; or work under nitrogen in a vessel rated for it."
