"""A gel or paste is filled with the air that was beaten into it.

Why it matters
    A gel that stands up by itself holds every bubble. It looks frothy, and packs filled by volume are a few per cent light.

Wrong
    product Froth
    type gel
    basis 1 kg
    to 100 %  purified water
    1 %       carbomer
    0.5 %     triethanolamine
    vessel main
    method
        charge "purified water" into main
        disperse "carbomer" in main with propeller until lump-free
        neutralise main with "triethanolamine" slowly with propeller
        homogenise main for 30 s with homogeniser
        fill main

Right
    product Clear
    type gel
    basis 1 kg
    to 100 %  purified water
    1 %       carbomer
    0.5 %     triethanolamine
    vessel main
    method
        charge "purified water" into main
        disperse "carbomer" in main with propeller until lump-free
        neutralise main with "triethanolamine" slowly with propeller
        homogenise main for 30 s with homogeniser
        deaerate main for 10 min under vacuum at -0.5 bar
        fill main

Limits
    Gels, pastes and suspensions: high shear in the open below 50 °C on a swollen thickener, or on a fifth of powder, and after it neither
    vacuum nor `deaerate` nor a rest of 1 h or more. Fast stirring without high shear is a hint.

Exceptions
    `without air`, `without foam`, closed and inerted vessels, foams in a can. Emulsions that are sheared cold: over-shear-cool. Carbomer
    that is sheared for long: carbomer-shear. Air beaten in before it is neutralised: deaerate-before-neutralise.

Source
    public threads on beaten gels; common practice, no source, for the limits
"""

from procsheet.findings import Finding, Label
from procsheet.model.material import fold
from procsheet.trace.swelling import swelling
from procsheet.trace.trace import HIGH, MEDIUM

NAME = "deaerate"
LEVEL = "WARN"
READY = fold("pre-neutralised polymer")    # as a kind is kept
TYPES = ("gel", "paste", "suspension")
QUIET = ("without air", "without foam")
WHY = "A gel or paste that stands up by itself holds every bubble: it looks frothy, and packs filled by volume are a few per cent light."


def check(batch):
    if batch.type not in TYPES or any(row.material.is_a("propellant") for row in batch.method.rows):
        return
    filled = next((moment for moment in batch.trace.moments if moment.step.verb in ("fill", "discharge")), None)
    swollen = swelling(batch.trace) if filled is not None else ()
    beaten = [one for one in batch.trace.history(filled) if _beats_in(batch, one, swollen)] if filled is not None else []
    if beaten and not any(_lets_out(batch, one) for one in batch.trace.later(beaten[-1])):
        yield _finding(batch, beaten[-1], filled)


def _beats_in(batch, moment, swollen) -> bool:
    """A fast tool in the open, on what holds bubbles."""
    fast = moment.shear.rank.low >= MEDIUM and not moment.step.has(*QUIET) and moment.cover != "vacuum" and not moment.closed
    return fast and moment.step.vessel in batch.method.vessels and moment.peak.high < batch.limit(NAME, "from which bubbles") and _holds_bubbles(batch, moment, swollen)


def _holds_bubbles(batch, moment, swollen) -> bool:
    thick = [row for row in batch.trace.holds(moment, "thickener of water") if _is_swollen(row, moment, swollen) and not _is_told(batch, row, moment)]
    powder = batch.trace.share(moment, "powder")
    return bool(thick) or batch.type == "paste" and batch.limit(NAME, "powder in a paste") <= powder and bool(batch.trace.weight(moment.contents, "water"))


def _is_swollen(row, moment, swollen) -> bool:
    if row.material.is_a("carbomer"):
        return moment.before_facts.neutralised or row.material.kind == READY
    return swollen[moment.index].get(row.code, False) and row.code in moment.before


def _is_told(batch, row, moment) -> bool:
    """Whether carbomer-shear tells of the same step: without it there is no air either."""
    long = moment.duration is None or moment.duration.high > batch.limit("carbomer-shear", "a warning")
    return row.material.is_a("carbomer") and moment.shear.rank.high >= HIGH and long


def _lets_out(batch, moment) -> bool:
    """Vacuum, a long enough rest, heat that lets bubbles rise, or the crew sees none."""
    until = getattr(moment.step.value("until"), "names", ())
    rests = moment.step.verb in ("rest", "set aside") and (moment.duration is None or moment.duration.high >= batch.limit(NAME, "rest that"))
    return moment.cover == "vacuum" or moment.step.verb == "deaerate" or "free of air" in until or rests or moment.peak.low >= batch.limit(NAME, "from which bubbles")


def _finding(batch, beaten, filled) -> Finding:
    level = LEVEL if beaten.shear.rank.low >= HIGH else "NOTE"
    vessel = batch.trace.moments[filled.parents[0]].vessel
    return Finding(level, NAME, f"air is stirred into {beaten.vessel} ({beaten.shear.told}), and nothing lets it out before filling", Label(beaten.span, "draws in air"),
                   (Label(filled.span, "filled with it"),), WHY,
                   f"Put a step before line {filled.span.line}: deaerate {vessel} for 10 min under vacuum at -0.5 bar; or, without vacuum: rest {vessel} until free of air.",
                   batch.source(NAME, "rest that"), step=beaten.step.number)
