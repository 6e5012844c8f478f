"""A vessel is under vacuum.

Why it matters
    What is loose is drawn in, the batch rises, and a lid that is opened before the pressure is even snaps.

Wrong
    method
        deaerate main for 10 min under vacuum at -0.5 bar

Right
    method
        rest main for 1 h

Limits
    Once a vessel, at the step that first draws it; the figure as the gauge reads.

Source
    common practice, no source; the safety data sheets and the plant's own procedures decide
"""

from procsheet.rules.caution import caution, first_in_each_vessel

NAME = "vacuum"
LEVEL = "CAUTION"
ATMOSPHERE = 101325.0                   # Pa
ADVICE = "Lid and ports closed first, hands away from openings; watch the level, the batch rises. Vent slowly before opening."


def check(batch):
    for moment in first_in_each_vessel(moment for moment in batch.trace.moments if moment.cover == "vacuum"):
        drawn = [other.pressure for other in batch.trace.moments if other.vessel == moment.vessel and other.cover == "vacuum" and other.pressure is not None]
        gauge = f", down to \u2212{(ATMOSPHERE - min(drawn)) / 1e5:.2g}\u00a0bar" if drawn else ""
        yield caution(NAME, moment, f"Vacuum{gauge}", ADVICE)
