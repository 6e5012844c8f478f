"""A melt or a hot gel is poured when it has begun to set, or far too hot.

Why it matters
    What has begun to set on the wall pours in lumps and grains, and the stick breaks where one pour met the next. What is poured far too hot shrinks:
    a hole runs down the middle, and oil sweats out.

Wrong
    product Stick
    type anhydrous
    basis 1 kg
    phase A: wax
        25 %      white beeswax
        to 100 %  castor oil
    vessel main
    mould stick "stick case"
    method
        charge A into main
        heat main to 80 °C until melted
        cool main to 50 °C with anchor
        pour main into stick
    limits
        set point 55-58 °C

Wrong
    product Stick
    type anhydrous
    basis 1 kg
    phase A: wax
        25 %      white beeswax
        to 100 %  castor oil
    vessel main
    mould stick "stick case"
    method
        charge A into main
        heat main to 90 °C until melted
        pour main into stick
    limits
        set point 55-58 °C

Right
    product Stick
    type anhydrous
    basis 1 kg
    phase A: wax
        25 %      white beeswax
        to 100 %  castor oil
    vessel main
    mould stick "stick case"
    method
        charge A into main
        heat main to 80 °C until melted
        cool main to 65 °C with anchor
        pour main into stick
    limits
        set point 55-58 °C

Limits
    Below the set point of the limits or of a check a warning, inside its range a hint; more than 10 °C above it a hint, more than 20 °C a warning. Without
    a set point: below that of a gelling gum in it, or 20 °C and more below the melting range of a wax that makes up a tenth of it.

Exceptions
    Where the gate of the pouring step is not met, that is told by temperature-not-reached. What is filled soft, not poured. Soap.

Needs
    sets, melts

Source
    common practice, no source
"""

from procsheet.findings import Finding, Label
from procsheet.intervals import SMALL, Interval
from procsheet.model import quantities
from procsheet.rules.words import celsius, kelvin
from procsheet.syntax import tree

NAME = "pour-temp"
LEVEL = "WARN"
HINT = "NOTE"
WHY = "What has begun to set pours in lumps, and breaks where one pour met the next. What is poured far too hot shrinks to a hole and sweats oil."


def check(batch):
    if batch.type == "soap":
        return
    for moment in batch.trace.moments:
        known = moment.step.verb in ("pour", "fill") and moment.parents and not moment.start.missing and not any(gate.verdict == "missed" for gate in moment.gates)
        point = _stated(batch, moment) if known else None
        found = _against(batch, moment, point) if point is not None else _guessed(batch, moment) if known and moment.step.verb == "pour" else None
        if found is not None:
            yield found


def _stated(batch, moment) -> Interval | None:
    """The set point that a check before the pouring, or the limits, ask for."""
    measures = [one.step.written.slots.get("MEASURE") for one in reversed(batch.trace.history(moment))] + [limit.measure for limit in batch.method.limits]
    asked = [measure.target for measure in measures if isinstance(measure, tree.Measure) and measure.name == "set point"]
    return next((value for target in asked if isinstance(target, tree.Quantity) and (value := quantities.interval(target)) is not None), None)


def _against(batch, moment, point: Interval) -> Finding | None:
    warm, slack = moment.start, batch.plan.plant.temperature_tolerance + SMALL
    hint, far = (batch.apart(NAME, words) for words in ("a hint", "a warning"))
    if warm.high < point.low - SMALL:
        return _cold(batch, moment, LEVEL, f"it sets at {celsius(point)}", celsius(point.high + hint / 2))
    if warm.high < point.high - SMALL:
        return _cold(batch, moment, HINT, f"it sets at {celsius(point)}", celsius(point.high + hint / 2))
    if warm.low > point.high + hint + slack:
        return _hot(batch, moment, LEVEL if warm.low > point.high + far + slack else HINT, point, hint)
    return None


def _guessed(batch, moment) -> Finding | None:
    """By what makes it set, where nobody says where it does."""
    warm = moment.start
    for row in batch.trace.holds(moment, "gum"):
        sets = row.material.figure("sets")
        if sets is not None and warm.high < sets.value.low - SMALL:
            return _cold(batch, moment, LEVEL, f"{row.name} sets at {sets.written}", celsius(sets.value.high + batch.apart(NAME, "a hint") / 2), f"data of {row.material.name}: sets {sets.told}")
    waxes = [row for row in batch.trace.holds(moment, "wax") if moment.contents[row.code] >= batch.limit(NAME, "a tenth") * moment.mass]
    melts = {row.name: figure for row in waxes if (figure := row.material.figure("melts")) is not None}
    name = max(melts, key=lambda one: melts[one].value.low, default=None)
    if name is None or warm.high >= melts[name].value.low - batch.apart(NAME, "far below"):
        return None
    return _cold(batch, moment, LEVEL, f"{name} in it melts at {melts[name].written}", celsius(melts[name].value.low), f"data of {name}: melts {melts[name].told}")


def _cold(batch, moment, level, fact, wanted, source="") -> Finding:
    vessel = batch.trace.moments[moment.parents[0]].vessel
    warmed = batch.trace.warmed_by(batch.trace.moments[moment.parents[0]])
    also = (Label(warmed.span, f"leaves it at {celsius(warmed.end)}"),) if warmed.step.verb == "cool" else ()
    place = f"cool it in line {warmed.span.line} no further than that" if also else f"heat it before line {moment.span.line}"
    return Finding(level, NAME, f"{vessel} is {moment.step.verb}ed at {celsius(moment.start)}; {fact}", Label(moment.span, "has begun to set"), also, WHY,
                   f"Keep {vessel} at {wanted} until it is poured: {place}.", source or batch.source(NAME, "a hint"), step=moment.step.number)


def _hot(batch, moment, level, point, margin) -> Finding:
    vessel = batch.trace.moments[moment.parents[0]].vessel
    return Finding(level, NAME, f"{vessel} is {moment.step.verb}ed at {celsius(moment.start)}, {kelvin(moment.start.low - point.high)} and more above the {celsius(point)} at which it sets",
                   Label(moment.span, "shrinks and sweats"), (), WHY,
                   f"Put a step before line {moment.span.line}: cool {vessel} to {celsius(point.high + margin / 2)}-{celsius(point.high + margin)}, stirring.",
                   batch.source(NAME, "a hint"), step=moment.step.number)
