"""A vessel holds, or is given, something whose vapour can be lit.

Why it matters
    Vapour runs along the floor to a motor, a heater or a static spark, and the flame runs back.

Wrong
    phase B: volatile
        8 %  isododecane
    method
        add B to main

Right
    phase B: oil
        8 %  caprylic/capric triglyceride
    method
        add B to main

Limits
    A flash point below 60 °C where it goes in; in a vessel also one that is 10 °C or less above what the vessel holds is warm, whatever its
    figure. Ethanol in water by its strength. Once a vessel and material.

Needs
    flash point

Source
    GHS chapter 2.6 for 60 °C; the margin is common practice, no source; the safety data sheets and the plant's own procedures decide
"""

from procsheet.rules.caution import caution
from procsheet.rules.words import celsius, listed
from procsheet.trace.flash import flammable

NAME = "flammable-vapour"
LEVEL = "CAUTION"
ADVICE = "Closed vessel, extraction on, vessel and drum earthed; no flame, no spark, nothing electrical that is not rated for it."


def check(batch):
    seen: set = set()
    warmest, margin = batch.limit(NAME, "flash point the warmest"), batch.apart(NAME, "margin")
    for moment in batch.trace.moments if _burns(batch) else ():
        new: dict[str, float] = {}
        for row, flash in _lit(batch, moment, warmest, margin):
            if (moment.vessel, row.material.name) not in seen:
                new[row.name] = min(flash, new.get(row.name, flash))
        seen |= {(moment.vessel, batch.graph.rows[code].material.name) for code in moment.contents if batch.graph.rows[code].name in new}
        if new:
            lowest = min(new.values())
            hot = f", at {celsius(moment.peak.high)}" if lowest >= warmest else ""
            yield caution(NAME, moment, f"Flammable vapour: {listed(sorted(new, key=new.get))}, flash point {celsius(lowest)}{hot}", ADVICE)


def _burns(batch) -> bool:
    """Whether the hottest of the batch comes near anything's flash point."""
    hottest = max((moment.peak.high for moment in batch.trace.moments), default=0.0)
    near = max(hottest + batch.apart(NAME, "margin"), batch.limit(NAME, "flash point the warmest"))
    return any(figure.value.low < near for row in batch.method.rows if (figure := row.material.figure("flash point")) is not None)


def _lit(batch, moment, warmest: float, margin: float):
    """What may be lit here: row and flash point [K]."""
    for portion in moment.entering:
        figure = portion.row.material.figure("flash point")
        if figure is not None and figure.value.low < warmest:
            yield portion.row, figure.value.low
    for flash in flammable(batch.trace, moment):
        if flash.limit < warmest or moment.peak.high > flash.limit - margin:
            yield flash.row, flash.limit
