"""What holds water goes hot into its pack.

Why it matters
    Hot product steams under the closure: water drips back on the surface and feeds mould. It shrinks as it cools, pulls bottles in, and
    leaves a skin, a hollow or a short weight.

Wrong
    method
        heat main to 75 °C
        fill main

Right
    method
        heat main to 75 °C
        cool main to 30 °C
        fill main

Limits
    A warning above 60 °C, a hint above 45 °C; a hint, too, where the filling step itself asks for more than 60 °C. A fifth of water or more
    in it.

Exceptions
    What is poured to set in its mould or pack; a stick, and what sets above 45 °C (`set point`); soap. Below its window a step that asks for a
    temperature is judged by temperature-not-reached, fat by pour-temp, alcohol by alcohol-cool.

Source
    common practice, no source
"""

from procsheet.findings import Finding, Label
from procsheet.rules.words import celsius

NAME = "fill-temp"
LEVEL = "WARN"
DRY = ("anhydrous", "powder", "soap")
OUT = ("fill", "discharge")
GATES = ("at", "at most", "at least", "below", "above")
WHY = ("Hot product steams in its pack: the water drips back on the surface and feeds mould. As it cools it shrinks, "
       "and leaves a skin, a hollow or a bottle drawn in.")


def check(batch):
    for moment in batch.trace.moments if batch.type not in DRY else ():
        if moment.step.verb in OUT and moment.parents and _is_wet(batch, moment):
            yield from _judged(batch, moment)


def _is_wet(batch, moment) -> bool:
    return batch.trace.watery(moment.contents) >= batch.limit(NAME, "under which") * moment.mass and not _sets(batch, moment)


def _sets(batch, moment) -> bool:
    """Poured hot because it sets: its gate or a check names a set point, or soap holds it."""
    measured = (one.step.written.slots.get("MEASURE") for one in batch.trace.history(moment))
    return "set point" in moment.start.missing or any(getattr(one, "name", "") == "set point" for one in measured) or bool(batch.trace.holds(moment, "soap"))


def _judged(batch, moment):
    warn, hint = batch.limit(NAME, "a warning"), batch.limit(NAME, "a hint")
    if moment.start.low <= hint + batch.plan.plant.temperature_tolerance or any(gate.verdict != "met" for gate in moment.gates):
        return
    asked = moment.step.has(*GATES)
    level = LEVEL if moment.start.low > warn and not asked else "NOTE"
    warmed = batch.trace.warmed_by(moment)
    also = (Label(warmed.span, f"{warmed.vessel} comes to {celsius(warmed.end)} here"),) if warmed.index != moment.index else ()
    vessel = batch.trace.moments[moment.parents[0]].vessel
    yield Finding(level, NAME, f"{vessel} is filled at {celsius(moment.start)}", Label(moment.span, "hot into the pack"), also, WHY,
                  f"Put a step before line {moment.span.line}: cool {vessel} to 25-35 °C; or write in line {moment.span.line} how warm it is filled, and why the pack stands it.",
                  batch.source(NAME, "a warning" if level == LEVEL else "a hint"), step=moment.step.number)
