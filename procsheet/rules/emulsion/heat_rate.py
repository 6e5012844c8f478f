"""A vessel is heated so hard that its content burns at the wall, or so slowly that it dries out.

Why it matters
    What lies at the wall gets as hot as the jacket: thick or unstirred contents burn there, and brown specks go into the batch. Heated
    for hours in an open vessel, the water leaves.

Wrong
    phase B: gum
        2 %  xanthan gum
    method
        disperse B in main
        heat main to 75 °C, jacket not above 130 °C with anchor

Wrong
    phase B: gum
        2 %  xanthan gum
    method
        disperse B in main
        heat main to 75 °C without stirring

Right
    phase B: gum
        2 %  xanthan gum
    method
        disperse B in main
        heat main to 75 °C, jacket not above 100 °C with anchor

Limits
    A jacket that may be more than 40 °C above what the batch is heated to is a warning, more than 30 °C a hint. Heating by 20 °C or
    more without stirring, where a gum, polymer, starch or 5 % of powder is in it, or an emulsion. Over 5 °C/min; in an open vessel less
    than 0.3 °C/min is a hint.

Exceptions
    Nothing is asked where no jacket, rate or stirrer is written: most methods leave that to the plant. Fats that are melted in a side
    vessel.

Source
    common practice, no source, for the figures; trade article on troubleshooting topical products, for both failures
"""

from procsheet.findings import Finding, Label
from procsheet.model import quantities
from procsheet.rules.words import celsius, kelvin
from procsheet.trace.trace import NONE

NAME = "heat-rate"
LEVEL = "WARN"
THICK = ("thickener of water", "gum", "starch", "cationic polymer")
POWDER = 0.05                           # of the vessel (common practice, no source)
LAST = 333.15                           # K: from here on an open vessel loses water (common practice, no source)
BURNS = "What lies at the wall gets as hot as the jacket: gum and powder bake on there, and brown specks come off into the batch."
DRIES = "An open vessel that takes hours to get hot loses much of its water on the way, and everything else in it gets stronger."


def check(batch):
    for moment in batch.trace.moments:
        if moment.step.verb in ("heat", "melt") and moment.part == 0:
            yield from _jacket(batch, moment) or _still(batch, moment) or _rate(batch, moment)


def _jacket(batch, moment):
    ceiling = quantities.interval(moment.step.value("jacket not above")) if moment.step.has("jacket not above") else None
    if ceiling is None:
        return []
    apart, (least, most) = ceiling.high - moment.end.high, (batch.apart(NAME, "between the jacket", pick) for pick in (min, max))
    if apart <= least + 1e-6:
        return []
    return [_finding(batch, moment, LEVEL if apart > most + 1e-6 else "NOTE",
                     f"the jacket may be {kelvin(apart)} hotter than the {celsius(moment.end)} that {moment.vessel} is heated to", BURNS,
                     f"Write in line {moment.span.line} `jacket not above {celsius(moment.end.high + least)}`.", "between the jacket")]


def _still(batch, moment):
    """Thick contents that are heated without stirring."""
    rise = moment.end.low - moment.start.high
    thick = batch.trace.holds(moment, *THICK)
    if moment.shear.rank.high > NONE or rise < batch.apart(NAME,
                                                           "of heating from") or not (thick or moment.before_facts.emulsified or batch.trace.share(moment,
                                                                                                                                                   "powder") >= POWDER):
        return []
    what = thick[0].name if thick else "the emulsion" if moment.before_facts.emulsified else "the powder"
    return [_finding(batch, moment, LEVEL, f"{moment.vessel} is heated to {celsius(moment.end)} without stirring, with {what} in it", BURNS,
                     f"Write in line {moment.span.line} a stirrer that wipes the wall, such as `with anchor at 30 rpm`.", "of heating from")]


def _rate(batch, moment):
    rate = quantities.interval(moment.step.value("heat rate")) if moment.step.has("heat rate") else None
    if rate is None:
        return []
    fast, slow = batch.limit(NAME, "while it is heated"), batch.limit(NAME, "in an open vessel")
    fix = f"Write in line {moment.span.line} `at 0.5-2 °C/min`."
    if rate.low > fast + 1e-9:
        return [_finding(batch, moment, LEVEL, f"{moment.vessel} is heated by {rate.low * 60:.2g} °C/min", BURNS, fix, "while it is heated")]
    if rate.high < slow - 1e-9 and moment.cover == "open" and moment.end.high > LAST and batch.trace.share(moment, "water") > POWDER:
        return [_finding(batch, moment, "NOTE", f"{moment.vessel} stands open while it is heated by {rate.high * 60:.2g} °C/min", DRIES, f"Cover it; or: {fix}",
                         "in an open vessel")]
    return []


def _finding(batch, moment, level, title, why, fix, words) -> Finding:
    return Finding(level, NAME, title, Label(moment.span, "too hard" if why is BURNS else "too slowly"), (), why, fix, batch.source(NAME, words), step=moment.step.number)
