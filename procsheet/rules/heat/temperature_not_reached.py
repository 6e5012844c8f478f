"""A step asks for a temperature that nothing before it brings about.

Why it matters
    `below 40 °C` is what the thermometer must show before the step starts; it cools nothing. If no step cools the vessel,
    the crew either adds hot or stands waiting.

Wrong
    phase C: late
        1 %  glycerin
    method
        heat main to 75 °C
        add C to main below 40 °C

Right
    phase C: late
        1 %  glycerin
    method
        heat main to 75 °C
        cool main to 35 °C
        add C to main below 40 °C

Exceptions
    The plant's tolerance is given: below 25 °C after `cool main to 25 °C` is met. A range the chemist wrote that lies partly
    beyond the figure is told one level lower; a rest whose cooling nobody stated is an open point.

Source
    meaning of the language; common practice, no source
"""

from procsheet.findings import Finding, Label
from procsheet.rules.words import celsius

NAME = "temperature-not-reached"
LEVEL = "STOP"
LEVELS = {"missed": "STOP", "straddles": "WARN", "undecided": "OPEN"}
WHY = "The figure asks; it warms and cools nothing. The crew adds too hot or too cold, or stands waiting for what does not come."


def check(batch):
    for moment in batch.trace.moments:
        for gate in moment.gates:
            if gate.verdict in LEVELS:
                yield _finding(batch, moment, gate)


def _finding(batch, moment, gate) -> Finding:
    clause = moment.step.clause(gate.kind, f"added {gate.kind}")
    missing = f"; {gate.found.missing} is not said" if gate.verdict == "undecided" and gate.found.missing else ""
    verb = "cool" if gate.found.high > gate.asked.high else "heat"
    warmed = _left_by(batch, moment, gate)
    also = (Label(warmed.span, f"leaves {gate.vessel} at {celsius(warmed.end)}"),) if warmed is not None else ()
    return Finding(LEVELS[gate.verdict], NAME, f"{gate.vessel} is asked to be {celsius(gate.asked)}, but it is {celsius(gate.found)}{missing}",
                   Label(clause.span if clause else moment.span, "this must show before the step starts"), also, WHY,
                   f"Put a step before line {moment.span.line}: {verb} {gate.vessel} to {celsius(gate.asked)}.",
                   step=moment.step.number)


def _left_by(batch, moment, gate):
    """The step that last set the temperature of the vessel that is asked, None where nothing did."""
    parents = [batch.trace.moments[one] for one in moment.parents]
    before = next((one for one in parents if one.vessel == gate.vessel), parents[0] if parents else None)
    warmed = batch.trace.warmed_by(before) if before is not None else None
    return warmed if warmed is not None and (warmed is not before or warmed.step.verb in ("heat", "cool", "melt")) else None
