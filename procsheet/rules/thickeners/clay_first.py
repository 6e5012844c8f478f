"""A clay finds the water already taken, or is cut short.

Why it matters
    The stacks of a smectite clay open in plain water. Gum or surfactant that is there first, or comes too early, coats them shut: the clay
    stays a filler, and the batch sinks.

Wrong
    phase B: gum
        3 %  glycerin
        0.4 %  xanthan gum
    phase C: clay
        2 %  magnesium aluminum silicate
    method
        disperse B in main with homogeniser
        disperse C in main with homogeniser

Wrong
    phase B: clay
        2 %  magnesium aluminum silicate
    phase C: gum
        3 %  glycerin
        0.4 %  xanthan gum
    method
        disperse B in main with homogeniser for 5 min
        add C to main with homogeniser

Right
    phase B: clay
        2 %  magnesium aluminum silicate
    phase C: gum
        3 %  glycerin
        0.4 %  xanthan gum
    method
        disperse B in main with homogeniser
        hydrate main for 45 min with homogeniser
        add C to main with homogeniser

Limits
    45 min in cold water, 15 min from 75 °C on, or what its own data say. Over 5 % of clay it is the body of a mask and nothing is said.

Exceptions
    Clay and gum dry-blended and put in together; blends sold so; `until hydrated`; steps whose length nobody knows. Salt: clay-salt tells.

Needs
    hydrates for

Source
    supplier's page on a smectite clay, for the times and the order
"""

from procsheet.findings import Finding, Label
from procsheet.rules import polymers
from procsheet.rules.words import listed, minutes

NAME = "clay-first"
LEVEL = "WARN"
TAKES = ("gum", "surfactant", "carbomer", "stock gel")
NEARLY = 1e-9
WHY = "The stacks of a clay open in plain water: gum or surfactant coats them shut, the clay stays a filler, and the batch sinks."


def check(batch):
    for one in batch.trace.exposures:
        if wants_plain_water(one.material) and batch.of_batch(one.row) <= batch.limit(NAME, "a mask") + NEARLY:
            met = polymers.meets_water(batch, one)
            found = met and (_taken(batch, one, met) or _short(batch, one, met))
            if found:
                yield _finding(batch, one.row, met, *found)
                return


def wants_plain_water(material) -> bool:
    return material.is_a("clay") and any("hydrate in plain" in words for words in material.words("needs"))


def needed(batch, one, met) -> float:
    """Seconds it needs in the water, by its own data or by how warm the water is."""
    own = [figure.value.high for figure in one.material.figures("hydrates for") if one.material.lines.get("hydrates for")]
    hot = met.peak.low >= batch.limit(NAME, "water is hot") - batch.plan.plant.temperature_tolerance
    return (min(own) if hot else max(own)) if own else batch.limit(NAME, "in hot water" if hot else "in cold water")


def _taken(batch, one, met):
    """The gums and surfactants that were in the water before the clay."""
    beside = {code for parent in met.parents if one.row.code in batch.trace.moments[parent].contents for code in batch.trace.moments[parent].contents}
    with_it = beside | {portion.row.code for portion in met.entering if one.row.code not in beside}
    first = [row for row in batch.trace.holds(met, *TAKES) if row.code not in with_it]
    return (met, f"finds {listed(row.name for row in first)} already in the water", first) if first else None


def _short(batch, one, met):
    """What comes before the clay has had its time."""
    need = needed(batch, one, met)
    end = polymers.swelling(batch, one, met, lambda moment, held: bool(_new(batch, moment, held)) or moment.facts.met == moment.index)
    if end is None or end[1] >= need - 1.0:
        return None
    moment, time = end
    new = _new(batch, moment, batch.trace.moments[moment.parents[0]].contents if moment.parents else {})
    what = listed(row.name for row in new) if new else "the oil phase"
    return moment, f"has {minutes(time)} in plain water before {what} comes; it needs {minutes(need)}", new


def _new(batch, moment, held):
    return [row for row in batch.trace.holds(moment, *TAKES) if row.code not in held]


def _finding(batch, row, met, moment, what, others) -> Finding:
    also = (Label(row.span, "wants plain water first"), *(Label(one.span, "comes too early") for one in others[:2]))
    return Finding(LEVEL, NAME, f"{row.name} {what}", Label(moment.span, "too early" if moment is not met else "the clay comes too late"), also, WHY,
                   f"Disperse {row.name} in the plain water first and hydrate it for {minutes(batch.limit(NAME, 'in cold water'))} under high shear, or 15 min at 75 °C; "
                   "everything else afterwards.", batch.source(NAME, "water"), material=row.name, step=moment.step.number)
