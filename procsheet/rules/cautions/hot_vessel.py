"""What a vessel holds is hot enough to burn.

Why it matters
    Hot oil and wax stick and burn deep; water or wet powder in oil near 100 °C boils up and throws it out.

Wrong
    phase B: wax
        8 %  white beeswax
    method
        charge B into side
        heat side to 75 °C

Right
    phase B: wax
        8 %  white beeswax
    method
        charge B into side
        heat side to 60 °C

Limits
    Above 60 °C, once a vessel, at the step that first takes it there; the figure is the hottest it becomes in that vessel. Water into oil
    at 95 °C or more is told at its own step.

Source
    common practice, no source; the safety data sheets and the plant's own procedures decide
"""

from procsheet.rules.caution import caution, first_in_each_vessel
from procsheet.rules.words import celsius

NAME = "hot-vessel"
LEVEL = "CAUTION"
OUT = ("fill", "pour", "discharge")
OIL = ("oil", "silicone")


def check(batch):
    limit, near_boiling = batch.limit(NAME, "burns"), batch.limit(NAME, "boils") - 0.01
    boiling = [moment for moment in batch.trace.moments if _boils_up(batch, moment, near_boiling)]
    hot = [moment for moment in batch.trace.moments if _is_hot(moment, limit)]
    for moment in first_in_each_vessel(hot):
        if moment not in boiling:
            yield caution(NAME, moment, f"{_what(batch, moment)}, {_how_hot(hot, moment.vessel, limit)}", _advice(batch, moment))
    for moment in boiling:
        yield caution(NAME, moment, f"Water into oil at {celsius(batch.trace.moments[moment.parents[0]].end.high)}: it boils up",
                      "Add it slowly, a little first, with room left in the vessel; nobody leans over the manhole.")


def _is_hot(moment, limit: float) -> bool:
    """Hotter than a limit [K]: for certain, by a written range, or because it is heated and nobody says how far."""
    peak = moment.peak
    return peak.low > limit + 0.01 or peak.high > limit + 0.01 and (not peak.missing or moment.step.verb in ("heat", "melt"))


def _boils_up(batch, moment, near_boiling: float) -> bool:
    """Water goes into oil that is nearly as hot as its boiling point."""
    if not moment.before:
        return False
    there = batch.trace.moments[moment.parents[0]].end
    return (max(there.low, 0.0 if there.missing else there.high) >= near_boiling and any(batch.graph.rows[code].material.is_a("water") for code in moment.added)
            and batch.trace.weight(moment.before, *OIL) > batch.trace.weight(moment.before, "water"))


def _what(batch, moment) -> str:
    if moment.step.verb in OUT:
        return "Hot product"
    oil, water = batch.trace.share(moment, *OIL), batch.trace.share(moment, "water")
    if oil > 0.5:
        return "Hot oil and wax" if batch.trace.holds(moment, "structures oil") else "Hot oil"
    return "Hot water phase" if water > 0.5 and oil < 0.01 else "Hot batch"


def _how_hot(hot, vessel: str, limit: float) -> str:
    """The hottest that a vessel becomes."""
    top = max((moment.peak for moment in hot if moment.vessel == vessel), key=lambda peak: peak.high)
    if top.missing:
        return f"above {celsius(top.low)}" if top.low > limit else "how hot is not said"
    return f"up to {celsius(top.high)}"


def _advice(batch, moment) -> str:
    return "Burns. Keep water and wet powder out of it, and the lid on." if batch.trace.share(moment, *OIL) > 0.5 else "Burns, and steam when the lid is opened."
