"""A gum comes in oil, and there is little water for it.

Why it matters
    Out of oil a gum takes the water at once. Where there is little of it, what comes first takes all: the rest stays dry in the cream, and
    the mixer stalls in a stiff paste.

Wrong
    type oil-in-water emulsion
    phase B: oils
        40 %  sweet almond oil
        2 %  xanthan gum
    phase C: water
        15 %  purified water
    method
        disperse B in side with propeller
        add C to side with propeller
        add side to main with propeller

Right
    type oil-in-water emulsion
    phase B: oils
        20 %  sweet almond oil
        0.4 %  xanthan gum
    phase C: water
        70 %  purified water
    method
        disperse B in main with propeller
        add C to main with propeller

Limits
    Gums and ready polymers that stand in oil, wax or alcohol, as the most of their vessel, until they meet the water: less than 20 parts of
    water to one is a warning. Where the rest of the water comes later, it is a hint.

Exceptions
    Gums that hold drops: the old way with acacia, four of oil, two of water and one of gum, makes its emulsion so. Products with oil
    outside, where oil-rheology-only tells. A large water phase: then oil is a good carrier.

Needs
    kind

Source
    a recipe that stalled, and a published method with a large water phase that works; common practice, no source, for 20 parts
"""

from procsheet.findings import Finding, Label
from procsheet.model.material import SOLID, fold
from procsheet.syntax import tree

NAME = "gum-in-oil-little-water"
LEVEL = "WARN"
HINT = "NOTE"
SWELLS = ("gum", fold("pre-neutralised polymer"))
CARRIERS = ("oil", "silicone", "alcohol")
HALF = 0.5                              # of a vessel: its carrier (common practice, no source)
NEARLY = 1e-6
WHY = "Out of oil a gum takes the water at once: what comes first takes all, the rest stays dry in the cream, and the mixer stalls in the paste."


def check(batch):
    if batch.makes_water_in_oil:
        return
    for one in batch.trace.exposures:
        if one.material.is_a(*SWELLS) and not one.material.is_a("holds drops") and one.material.text("form") in SOLID:
            found = _short(batch, one)
            if found is not None:
                yield _finding(batch, one.row, *found)
                return


def _short(batch, one):
    """The step that brings too little water to what oil carries, the parts of water, and the level."""
    last = None
    for moment in batch.trace.path(one.moment):
        if batch.watery(moment.contents):
            break
        last = moment
    else:
        return None
    if last is None or batch.trace.share(last, *CARRIERS) < HALF:
        return None
    first, last, least = _parts(batch, moment), _parts(batch, batch.trace.leaves(moment)), _least(batch)
    return (moment, first, LEVEL if last < least - NEARLY else HINT) if first < least - NEARLY else None


def _parts(batch, moment) -> float:
    """kg of water to one of all gums in a vessel."""
    gums = sum(moment.contents[row.code] for row in batch.trace.holds(moment, *SWELLS) if row.material.text("form") in SOLID)
    return batch.watery(moment.contents) / gums if gums else 0.0


def _least(batch) -> float:
    """Parts of water to one of gum, from `1:20`."""
    return min(float(word.low.split(":")[1].split("-")[0]) for line in batch.thresholds(NAME) for word in line.words if isinstance(word, tree.Quantity))


def _finding(batch, row, moment, parts, level) -> Finding:
    return Finding(level, NAME, f"{row.name} comes in oil and has {parts:.2g} parts of water to swell in; it needs {_least(batch):.3g}",
                   Label(moment.span, "so little water for it"), (Label(row.span, "swells in water"),), WHY,
                   f"Sprinkle {row.name} into the water before the oil comes, and let it swell; or bring it down to a twentieth of the water.",
                   batch.source(NAME), material=row.name, step=moment.step.number)
