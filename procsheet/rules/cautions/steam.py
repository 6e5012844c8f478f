"""A vessel is heated by steam, or by a medium under pressure.

Why it matters
    A jacket is built for one pressure. Steam scalds through a loose joint, and condensate hammers.

Wrong
    method
        heat main to 75 °C on a steam bath

Right
    method
        heat main to 75 °C on a water bath

Limits
    `on a steam bath`, and a jacket whose medium the plant gives as 120 °C or hotter: 1 bar above the air's pressure for saturated steam. Once
    a vessel, where it is first heated.

Source
    steam tables (IAPWS) for 120 °C; common practice, no source; the plant's own procedures decide
"""

from procsheet.rules.caution import caution, first_in_each_vessel
from procsheet.rules.words import celsius

NAME = "steam"
LEVEL = "CAUTION"
ADVICE = "Relief valve and pressure limit of the jacket seen to first; drain the condensate, open slowly. Steam scalds."


def check(batch):
    hot = batch.plan.plant.hot
    pressed = hot is not None and hot >= batch.limit(NAME) - 0.01
    for moment in first_in_each_vessel(moment for moment in batch.trace.moments if moment.step.has("steam bath") or pressed and _by_jacket(batch, moment)):
        yield caution(NAME, moment, "Heated by steam" if moment.step.has("steam bath") else f"Jacket under pressure: its medium is {celsius(hot)}", ADVICE)


def _by_jacket(batch, moment) -> bool:
    kettle = batch.plan.kettles.get(moment.vessel)
    return moment.step.verb in ("heat", "melt") and kettle is not None and bool(kettle.jacket_area)
