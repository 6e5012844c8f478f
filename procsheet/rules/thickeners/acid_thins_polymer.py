"""A carbomer gel is made acid.

Why it matters
    The base holds the chains apart. Acid takes that back: below pH 5 the gel runs like water, and what it carried sinks or rises.

Wrong
    type gel
    phase B: polymer
        0.5 %  carbomer
    phase C: base
        0.6 %  triethanolamine
    phase D: acid
        as needed, about 0.3 %, at most 1 %  citric acid 20 % solution
    method
        disperse B in main
        neutralise main with C
        adjust main to pH 4.0-4.5 with D

Right
    type gel
    phase B: polymer
        0.5 %  carbomer
    phase C: base
        0.6 %  triethanolamine
    phase D: acid
        as needed, about 0.1 %, at most 0.2 %  citric acid 20 % solution
    method
        disperse B in main
        neutralise main with C
        adjust main to pH 6.0-6.5 with D

Limits
    From the base on, and in the limits: below pH 5.5 a warning, below pH 5 a stop; for a polymer that stands less, its own figure. An acid
    of the formula that no base takes up, without any pH, is a warning.

Exceptions
    The acid dispersion before the base. Polymers that swell in acid. Where there is no base at all, carbomer-without-base tells.

Needs
    pH

Source
    from memory
"""

from procsheet.findings import Finding, Label
from procsheet.intervals import BEYOND, STRADDLES, below
from procsheet.rules import ph, polymers
from procsheet.rules.batch import gravest
from procsheet.rules.words import share

NAME = "acid-thins-polymer"
LEVEL = "STOP"
SOME, HINT = "WARN", "NOTE"
WHY = "Acid takes back what the base has done: the chains close, the gel runs like water, and what it carried sinks or rises."


def check(batch):
    swollen = [(one, moment) for one in batch.trace.exposures if _is_held_open(one.material) and (moment := _open_from(batch, one)) is not None]
    found = gravest(finding for one, moment in swollen for finding in _thinned(batch, one, moment))
    if found is not None:
        yield found


def _is_held_open(material) -> bool:
    return material.is_a("carbomer") and not polymers.is_alkali_swellable(material) and material.text("ionic") != "cationic"


def _open_from(batch, one):
    """Where its chains are open: from the base on, or from the start."""
    return polymers.swells(batch, one) if polymers.wants_base(one.material) else polymers.meets_water(batch, one)


def _thinned(batch, one, start):
    figure = one.material.figure("pH")
    own = figure.value.low if figure else batch.limit(NAME, "below which it is a stop")
    hard = min(own, batch.limit(NAME, "below which it is a stop"))
    soft = own if own < batch.limit(NAME, "below which it is a stop") else batch.limit(NAME, "below which it is a warning")
    sure = hard - (batch.limit(NAME, "remembered") if figure and figure.from_memory and own == hard else 0.0)
    said = [one_said for one_said in ph.stated(batch, one.row) if one_said.moment is None or one_said.moment.index >= start.index]
    for place in said:
        level = LEVEL if below(place.value, sure) == BEYOND else {BEYOND: SOME, STRADDLES: HINT}.get(below(place.value, soft))
        if level is not None:
            yield ph.told(batch, NAME, level, one.row, place, f"from pH {soft:.3g} on", WHY,
                          f"Keep what holds {one.row.name} at pH {soft:.3g} or above, or thicken with a gum that stands acid, such as xanthan or hydroxyethylcellulose.",
                          batch.source(NAME, "below which it is a warning"))
    unsaid = not said or all(place.value.missing for place in said)
    yield from _by_formula(batch, one.row, start, [acid for acid in ph.free_acids(batch) if unsaid or ph.late(batch, one.row, acid)])


def _by_formula(batch, row, start, acids):
    """An acid that nothing takes up, where no pH is said, or none after it."""
    for acid in acids:
        moment = ph.meeting(batch, row, acid)
        if moment is not None and not row.material.is_a("polymeric emulsifier"):
            yield Finding(SOME, NAME, f"{share(batch.of_batch(acid))} of {acid.name} meets swollen {row.name} in {moment.vessel}, and nothing neutralises it",
                          Label(max(moment, start, key=lambda one: one.index).span, "acid and gel"), (Label(acid.span, "the acid"), Label(row.span, "thins in acid")), WHY,
                          f"Neutralise {acid.name} before it goes in, or thicken with a gum that stands acid, such as xanthan or hydroxyethylcellulose.",
                          batch.source(NAME, "below which it is a warning"), material=acid.name, step=moment.step.number)
