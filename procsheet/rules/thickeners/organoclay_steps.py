"""An organoclay is not opened as it needs: wet in the oil under high shear, then an activator, then high shear again, before any water.

Why it matters
    The clay comes as closed stacks. High shear spreads them in the oil, the activator opens them, high shear again lets them link up. A clay
    that is not opened does not gel: oil bleeds out and pigment sinks.

Wrong
    type water-in-oil emulsion
    phase B: oil gel
        20 %  caprylic/capric triglyceride
        4 %  sorbitan oleate
        1 %  disteardimonium hectorite
    method
        charge B into side
        homogenise side for 10 min
        add main to side slowly, over 20 min
        transfer side to main

Right
    type water-in-oil emulsion
    phase B: oil gel
        20 %  caprylic/capric triglyceride
        4 %  sorbitan oleate
        1 %  disteardimonium hectorite
    phase C: activator
        0.33 %  propylene carbonate
    method
        charge B into side
        homogenise side for 10 min
        activate side with C
        homogenise side for 5 min
        add main to side slowly, over 20 min
        transfer side to main

Limits
    An activator from 20 % of the weight of the clay on; a third is usual. Steps whose tool is open count as high shear.

Exceptions
    Activator and clay charged together, where high shear follows. Gels of clay, oil and activator, and clays whose data ask for no activator.

Needs
    needs polar activator

Source
    common practice, no source, for the two steps of shear; public threads and teaching pages, for 20 to 33 % of activator
"""

from procsheet.findings import Finding, Label
from procsheet.rules.batch import TRACE
from procsheet.rules.words import share
from procsheet.trace.trace import HIGH

NAME = "organoclay-steps"
LEVEL = "WARN"
SUSPENSION = "STOP"
WHY = "A clay that is not opened does not gel: the oil bleeds out, pigment sinks, and the batch stays thin."


def check(batch):
    for one in batch.trace.exposures:
        if one.material.is_a("organoclay") and any("activator" in figure.words for figure in one.material.figures("needs")):
            faults = list(_faults(batch, one))
            if faults:
                yield _finding(batch, one.row, faults)


def _faults(batch, one):
    """Each fault and the moment it lies at."""
    dry, water = _before_water(batch, one)
    if not dry:
        yield "the water is there before the clay", water
        return
    opened = next((index for index, moment in enumerate(dry) if batch.trace.holds(moment, "polar activator") or moment.step.verb == "activate"), None)
    if opened is None:
        yield "no polar activator goes in before the water" if water else "no polar activator goes in", dry[0]
        if not any(map(_is_high, dry)):
            yield "no high shear before the water" if water else "no high shear", dry[-1]
        return
    if (strength := _strength(batch, one.row, dry[-1])) < batch.limit(NAME, "at least") - 1e-6:
        yield f"the activator is only {share(strength)} of its weight", dry[opened]
    if one.moment.before and batch.trace.holds(one.moment, "polar activator", before=True):
        yield "the activator is there before the clay is wetted", dry[0]
    if opened and not any(map(_is_high, dry[:opened])):
        yield "no high shear before the activator", dry[opened]
    if not any(map(_is_high, dry[opened:])):
        yield "no high shear after the activator" + (" and before the water" if water else ""), dry[opened]


def _before_water(batch, one):
    """The moments from the clay on until the water comes, and the moment it does, None where it never comes."""
    dry = []
    for moment in batch.trace.path(one.moment):
        if batch.watery(moment.contents) >= TRACE * moment.mass:
            return dry, moment
        dry.append(moment)
    return dry, None


def _is_high(moment) -> bool:
    return moment.shear.rank.high >= HIGH


def _strength(batch, row, moment) -> float:
    """kg of activator to one of clay."""
    activator = sum(moment.contents[one.code] for one in batch.trace.holds(moment, "polar activator"))
    clay = moment.contents.get(row.code, 0.0)
    return activator / clay if clay else 1.0


def _finding(batch, row, faults) -> Finding:
    first = faults[0][1]
    told = "; ".join(fault for fault, _ in faults)
    before = "before any water: " if any(row.material.is_a("water") for row in batch.method.rows) else ""
    places = {moment.span: Label(moment.span, fault) for fault, moment in reversed(faults) if moment.span != first.span}
    return Finding(SUSPENSION if batch.type == "suspension" else LEVEL, NAME, f"{row.name} is not opened: {told}", Label(first.span, faults[0][0]),
                   (Label(row.span, "a clay that has to be opened"), *places.values()), WHY,
                   f"In {first.vessel}, {before}high shear on the clay in the oil, then a third of its weight of propylene carbonate, "
                   "then high shear again for 5 min or more.",
                   batch.source(NAME, "high-shear"), material=row.name, step=first.step.number)
