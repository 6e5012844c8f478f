"""The final viscosity is measured on a batch that has not rested.

Why it matters
    The structure is still growing: the figure is not the product's, and the batch is corrected for nothing.

Wrong
    product Fresh
    type gel
    basis 1 kg
    to 100 %  purified water
    1 %  xanthan gum
    vessel main
    method
        charge all into main
        hydrate main for 30 min
        check main viscosity 9000-14000 mPa.s at 25 °C
        fill main

Right
    product Rested
    type gel
    basis 1 kg
    to 100 %  purified water
    1 %  xanthan gum
    vessel main
    method
        charge all into main
        hydrate main for 30 min
        rest main for 24 h
        check main viscosity 9000-14000 mPa.s at 25 °C
        fill main

Limits
    12 h after the last addition, heating, cooling or mixing, or as long as the limit of the product says (`after 24 h`).

Exceptions
    A check in between, which more additions follow; a check that says `after 24 h` itself; what is poured hot or holds no structure.

Source
    common practice, no source
"""

from procsheet.findings import Finding, Label
from procsheet.model import quantities
from procsheet.rules.words import minutes

NAME = "rest-before-test"
LEVEL = "WARN"
NONE_GROWS = ("anhydrous", "powder", "soap", "solution")
QUIET = ("check", "sample", "compare", "rest", "set aside", "cure", "close", "open", "strain", "transfer", "fill", "pour", "discharge", "stop stirring",
         "stop heating", "prepare")
WHY = ("Gums, waxes and emulsion films go on building for a day. A figure taken before is not the product's: "
       "the batch is corrected for nothing, or passed by mistake.")


def check(batch):
    if batch.type in NONE_GROWS:
        return
    limit = next((limit for limit in batch.method.limits if limit.measure.name == "viscosity"), None)
    asked = _after(limit.clauses) if limit is not None else None
    least = asked if asked is not None else batch.limit(NAME, "before the final")
    checks = [moment for moment in batch.trace.moments if moment.step.verb == "check" and _measured(moment) == "viscosity"]
    for moment in checks:
        if _is_final(batch, moment, checks) and (_after(moment.step.written.clauses) or 0.0) < least:
            yield from _judged(batch, moment, least, limit if asked is not None else None)


def _measured(moment) -> str:
    measure = moment.step.written.slots.get("MEASURE")
    return getattr(measure, "name", "")


def _after(clauses) -> float | None:
    """The age that a limit or check asks for [s]."""
    clause = next((clause for clause in clauses if clause.kind == "after time"), None)
    value = quantities.interval(clause.value) if clause is not None else None
    return value.low if value is not None else None


def _is_final(batch, moment, checks) -> bool:
    later = list(batch.trace.later(moment))
    return not any(one in checks for one in later) and not any(one.entering or one.step.verb in ("heat", "cool", "homogenise") for one in later)


def _judged(batch, moment, least, limit):
    history = batch.trace.history(moment)
    changed = next((one for one in reversed(history[:-1]) if one.step.verb not in QUIET), None)
    if changed is None:
        return
    rested = [one.duration for one in history if one.index > changed.index and one.step.verb in ("rest", "set aside", "cure")]
    waits = sum(_wait(node) for node in batch.graph.nodes if changed.node < node.index < moment.node)
    time = sum(one.low for one in rested if one is not None) + waits
    if time >= least - 1:
        return
    unsaid = any(one is None for one in rested)
    title = (f"how long the batch rests before its viscosity is checked is not said; {minutes(least)} is asked" if unsaid else
             f"the viscosity is checked {f'after {minutes(time)} of rest' if time else 'on the fresh batch'}; {minutes(least)} is asked")
    also = [Label(changed.span, "the last that was done to it")] + ([Label(limit.span, "the limit is for a rested batch")] if limit is not None else [])
    yield Finding("OPEN" if unsaid else LEVEL, NAME, title, Label(moment.span, "its structure is still growing"), tuple(also), WHY,
                  f"Put a step before line {moment.span.line}: rest {moment.vessel} for {minutes(least)}; "
                  f"or keep a sample: write `after {minutes(least)}` behind the check.",
                  batch.source(NAME), step=moment.step.number)


def _wait(node) -> float:
    value = quantities.interval(node.step.written.slots["t"]) if node.step.verb == "wait" and "t" in node.step.written.slots else None
    return max(value.low, 0.0) if value is not None else 0.0
