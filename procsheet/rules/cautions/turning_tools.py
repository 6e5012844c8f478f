"""A mixer turns in a vessel.

Why it matters
    A stirrer that pulls in a sleeve or a cup does not stop for it.

Wrong
    method
        stir main with anchor at 40 rpm

Right
    method
        rest main for 1 h

Limits
    Once a vessel, at the step where something first turns, with every tool that turns in it and the fastest tip that is known. Stirring by
    hand and shaking are left out.

Source
    common practice, no source; the safety data sheets and the plant's own procedures decide
"""

from procsheet.rules.caution import caution, first_in_each_vessel
from procsheet.rules.words import listed
from procsheet.trace.trace import LOW

NAME = "turning-tools"
LEVEL = "CAUTION"
FAST = 1.0                              # m/s: slower, the figure says nothing (common practice, no source)
ADVICE = "No hand, tool or cup below the rim while it turns; switched off and locked before anyone reaches in."


def check(batch):
    turning = [moment for moment in batch.trace.moments if moment.shear.rank.low >= LOW and not moment.step.has("by hand") and moment.step.verb != "shake"]
    for moment in first_in_each_vessel(turning):
        here = [other for other in turning if other.vessel == moment.vessel]
        tools = listed(tool for other in here for tool in other.shear.tools if tool != "?") or "stirrer"
        fastest = max((other.shear.tip.high for other in here if other.shear.tip is not None), default=None)
        yield caution(NAME, moment, f"Turning {tools}" + (f", up to {fastest:.3g}\u00a0m/s" if fastest and fastest >= FAST else ""), ADVICE)
