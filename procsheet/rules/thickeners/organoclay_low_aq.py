"""There is much water beside an organoclay while it opens.

Why it matters
    A trace of water works with the activator at the edges of the plates. More of it wets the clay instead of the oil: the plates stick
    together, the gel stays grainy and thin.

Wrong
    type water-in-oil emulsion
    phase B: oil gel
        20 %  caprylic/capric triglyceride
        4 %  sorbitan oleate
        1 %  disteardimonium hectorite
    phase C: activator
        0.5 %  purified water
    method
        charge B into side
        homogenise side for 10 min
        activate side with C
        homogenise side for 5 min

Right
    type water-in-oil emulsion
    phase B: oil gel
        20 %  caprylic/capric triglyceride
        4 %  sorbitan oleate
        1 %  disteardimonium hectorite
    phase C: activator
        0.33 %  ethanol 96 %
    method
        charge B into side
        homogenise side for 10 min
        activate side with C
        homogenise side for 5 min

Limits
    More than 5 % of water, by the weight of the clay, as long as the vessel holds no water phase: water that is added, and the water of
    diluted alcohol. Where the water phase is there, organoclay-steps speaks.

Exceptions
    Gels of clay, oil and activator. A product without water whose formula has water in it: balm-no-water tells.

Needs
    needs polar activator

Source
    from memory
"""

from procsheet.findings import Finding, Label
from procsheet.rules.batch import TRACE
from procsheet.rules.words import share

NAME = "organoclay-low-aq"
LEVEL = "NOTE"
NEARLY = 1e-6
WHY = "A trace of water helps an organoclay to open; more of it wets the clay in place of the oil, and the plates stick: grainy and thin."


def check(batch):
    if batch.type == "anhydrous":
        return
    for one in batch.trace.exposures:
        if one.material.is_a("organoclay") and one.material.has("needs") and (moment := _wet(batch, one)) is not None:
            yield _finding(batch, one.row, moment)
            return


def _wet(batch, one):
    """The first moment in which the clay stands in oil beside too much water, before the water phase is there."""
    limit = batch.limit(NAME)
    for moment in batch.trace.path(one.moment):
        if batch.watery(moment.contents) >= TRACE * moment.mass:
            return None
        if _water(batch, moment) > limit * moment.contents[one.row.code] + NEARLY:
            return moment
    return None


def _water(batch, moment) -> float:
    """kg of water: as such, and in diluted alcohol."""
    spirits = batch.trace.holds(moment, "alcohol")
    return batch.watery(moment.contents) + sum(moment.contents[row.code] * (1 - row.material.share("alcohol")) for row in spirits)


def _finding(batch, row, moment) -> Finding:
    water = _water(batch, moment) / moment.contents[row.code]
    rows = [batch.graph.rows[code] for code in moment.contents if code in batch.graph.rows]
    wet = [one for one in rows if batch.watery({one.code: 1.0}) or one.material.is_a("alcohol")]
    return Finding(LEVEL, NAME, f"{row.name} opens beside {share(water)} of its weight of water; {share(batch.limit(NAME))} helps, more hinders",
                   Label(moment.span, "water on the clay"), (*(Label(one.span, "brings water") for one in wet), Label(row.span, "the clay")), WHY,
                   f"Open {row.name} with propylene carbonate, or with ethanol 96 %, a third of its weight, and add water only with the water phase.",
                   batch.source(NAME), material=row.name, step=moment.step.number)
