"""Plant oil is held hot for an hour or more before any antioxidant is in it.

Why it matters
    An antioxidant keeps fresh oil fresh; it does not mend oil that has taken up air. What an hour of heat has begun goes on in the pack, and the
    tocopherol that comes with the perfume is too late.

Wrong
    phase B: oil
        20 %   sunflower oil
        3 %    cetyl alcohol
        3 %    glyceryl stearate (and) PEG-100 stearate
    phase C: late
        0.2 %  tocopherol
    method
        heat main to 75 °C
        charge B into side
        heat side to 75 °C until melted
        hold side at 75 °C for 2 h
        emulsify side into main with homogeniser
        cool main to 40 °C
        add C to main

Right
    phase B: oil
        20 %   sunflower oil
        3 %    cetyl alcohol
        3 %    glyceryl stearate (and) PEG-100 stearate
        0.2 %  tocopherol
    method
        heat main to 75 °C
        charge B into side
        heat side to 75 °C until melted
        hold side at 75 °C for 2 h
        emulsify side into main with homogeniser

Limits
    An hour and more above 70 °C, as far as times are written or the plant gives them, where a fifth of the vessel or more is plant oil or butter
    and no antioxidant is in it. Above 80 °C for more than 20 min the open vessel is told by oil-held-hot-open.

Exceptions
    A lid, nitrogen, vacuum; mineral oil, esters, silicones and caprylic/capric triglyceride, which hold. Soap; the finished emulsion. Sources
    disagree whether the antioxidant goes in with the oil or just before the phases meet: before a long hold it has to be in.

Source
    common practice, no source
"""

from procsheet.findings import Finding, Label
from procsheet.rules.words import celsius, listed, minutes

NAME = "oxidation-oil-hold"
LEVEL = "NOTE"
KINDS = ("plant oil", "butter")
OPEN_TOO_HOT = "oil-held-hot-open"
WHY = "An antioxidant keeps fresh oil fresh; it does not mend oil that has taken up air. What the heat has begun goes on in the pack."


def check(batch):
    if batch.type == "soap":
        return
    bare = [moment for moment in batch.trace.moments if _is_bare(batch, moment)]
    for vessel in dict.fromkeys(moment.vessel for moment in bare):
        here = [moment for moment in bare if moment.vessel == vessel]
        if _hours(batch, here, NAME) >= batch.limit(NAME, "above that") and not _is_told(batch, here):
            yield _finding(batch, vessel, here)


def _is_bare(batch, moment) -> bool:
    """Plant oil in the open, apart from the water, with nothing that keeps it."""
    oils = sum(moment.contents[row.code] for row in batch.trace.holds(moment, *KINDS))
    kettle = batch.plan.kettles.get(moment.vessel)
    lidded = moment.closed or moment.cover != "open" or kettle is not None and kettle.closed
    enough = moment.mass > 0 and oils >= batch.limit(NAME, "of plant oil") * moment.mass
    return enough and not lidded and not moment.facts.emulsified and not batch.trace.holds(moment, "antioxidant")


def _hours(batch, moments, rule: str) -> float:
    """Seconds above what a rule calls hot, at least."""
    return sum(batch.trace.time_above(moment, batch.limit(rule, "above which")) or 0.0 for moment in moments)


def _is_told(batch, moments) -> bool:
    return _hours(batch, moments, OPEN_TOO_HOT) > batch.limit(OPEN_TOO_HOT, "a hint")


def _finding(batch, vessel: str, moments) -> Finding:
    hot = batch.limit(NAME, "above which")
    longest = max(moments, key=lambda moment: batch.trace.time_above(moment, hot) or 0.0)
    names = listed(row.name for row in batch.trace.holds(longest, *KINDS))
    late = next((row for row in batch.method.rows if row.material.is_a("antioxidant")), None)
    keeps = late.name if late is not None else "an antioxidant"
    return Finding(LEVEL, NAME, f"{names} in {vessel} stands above {celsius(hot)} for {minutes(_hours(batch, moments, NAME))} with no antioxidant in it",
                   Label(longest.span, "takes up air here"), (Label(late.span, "goes in later"),) if late is not None else (), WHY,
                   f"Put {keeps} into {vessel} before line {longest.span.line}, or hold it for less than an hour.", batch.source(NAME, "above that"), step=longest.step.number)
