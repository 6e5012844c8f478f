"""An emulsion made by phase inversion is cooled slowly, or heated again.

Why it matters
    Its drops are fine because it was cooled quickly through the temperature at which it turns over. Near that temperature they merge:
    in a slow cooling, and again whenever the batch is warmed.

Wrong
    phase B: oils
        10 %  mineral oil
        4 %  ceteareth-12
    method
        heat main to 85 °C
        charge B into side
        heat side to 85 °C
        add side to main with anchor
        cool main to 30 °C with anchor
        heat main to 75 °C with anchor

Right
    phase B: oils
        10 %  mineral oil
        4 %  ceteareth-12
    method
        heat main to 85 °C
        charge B into side
        heat side to 85 °C
        add side to main with anchor
        cool main to 30 °C quickly with anchor

Limits
    Heated to 65 °C or more after it was at 45 °C or below; cooled `slowly`, or by less than 1 °C/min. Inversion temperatures depend on
    the oil and the salt: the 65 °C is from memory.

Exceptions
    Emulsifiers that do not invert in a plant's range; a second inversion on purpose, with its own quick cooling, is signed for.

Source
    from memory
"""

from procsheet.findings import Finding, Label
from procsheet.model import quantities
from procsheet.rules.drops import joining
from procsheet.rules.words import celsius

NAME = "post-inversion-temp"
LEVEL = "WARN"
GROUP = "phase-inversion emulsifier"
SLOW = 1 / 60                           # K/s: a cooling that is not quick (common practice, no source)
WHY = "Near the temperature at which it turns over its fine drops merge within minutes: the milk becomes coarse and creams in the pack."


def check(batch):
    joined = joining(batch)
    if batch.type != "oil-in-water emulsion" or joined is None or not batch.trace.holds(joined, GROUP):
        return
    again, cold = batch.limit(NAME, "not heated again"), batch.limit(NAME, "has cooled")
    cooled = None
    for moment in batch.trace.later(joined):
        if cooled is None and moment.step.verb == "cool" and moment.start.low >= again and _is_slow(moment):
            yield _finding(batch, joined, moment, f"it is cooled slowly from {celsius(moment.start)}",
                           f"Write in line {moment.span.line} `quickly`, or bring in cold water at once instead.")
        cooled = moment if moment.end.high <= cold else cooled
        if cooled is not None and moment.step.verb in ("heat", "melt", "hold") and moment.end.low >= again:
            yield _finding(batch, joined, moment, f"it is heated again, to {celsius(moment.end)}, after it was cold",
                           f"Leave out line {moment.span.line}: warm what has to go in, and not the emulsion.")
            return


def _is_slow(moment) -> bool:
    rate = quantities.interval(moment.step.value("heat rate")) if moment.step.has("heat rate") else None
    return moment.step.has("slowly", "very slowly") or rate is not None and rate.high < SLOW


def _finding(batch, joined, moment, what, fix) -> Finding:
    row = batch.trace.holds(joined, GROUP)[0]
    return Finding(LEVEL, NAME, f"the emulsion with {row.name} turns over in the heat, and {what}", Label(moment.span, "its drops merge here"),
                   (Label(row.span), Label(joined.span, "made here")), WHY, fix,
                   batch.source(NAME, "not heated again"), material=row.name, step=moment.step.number)
