"""A gum goes dry onto water.

Why it matters
    Dry gum swells at once where it meets water: a skin closes round each clot, and no high shear takes the lumps out again. They clog
    the strainer, and what is in them does not thicken.

Wrong
    phase B: gum
        5 %  glycerin
        0.4 %  xanthan gum
    method
        add "glycerin" to main
        add "xanthan gum" to main with propeller

Right
    phase B: gum
        5 %  glycerin
        0.4 %  xanthan gum
    method
        charge "glycerin" into pail
        disperse "xanthan gum" in pail by hand until lump-free
        add pail to main with propeller

Right
    phase B: gum
        0.4 %  xanthan gum
    method
        add B to main, sprinkled, into the vortex, over 5 min with propeller

Exceptions
    Wetted first in three parts or more of polyol, oil or alcohol, or mixed dry with three parts or more of another powder. Sprinkled,
    into the vortex, stirred fast, or under high shear. `disperse`, `dissolve` and `until dispersed` name their own end. Grades that
    wet by themselves have no `pre-wet in` in their data; a cellulose that is wetted in hot water goes into hot water.

Limits
    Charged into an empty vessel together with its polyol and the water, nothing says which comes first: a hint.

Needs
    pre-wet in

Source
    public threads and teaching pages, for the lumps; 1:3 to 1:10 is common practice, no source
"""

from procsheet.findings import Finding, Label
from procsheet.rules import polymers
from procsheet.rules.words import share, weight
from procsheet.syntax import tree

NAME = "gum-predisperse"
LEVEL = "WARN"
WHY = "It swells where it meets the water and a skin closes round each clot: lumps that no high shear takes out, and a batch that stays thin."


def check(batch):
    told = set()
    for one in batch.trace.exposures:
        if one.material.is_a("gum") and one.material.has("pre-wet in") and one.row.code not in told and (found := _dry(batch, one)):
            told.add(one.row.code)
            yield _finding(batch, one.row, *found)


def _dry(batch, one):
    """Where a gum meets water unwetted, the parts it was wetted in, and the level; None where it is wetted."""
    moment = polymers.meets_water(batch, one)
    if moment is None or _wets(batch, moment, one):
        return None
    together = not moment.parents
    parts = polymers.wetted(batch, moment, one.row, "gum")
    if parts >= _least(batch):
        return (moment, parts, "NOTE") if together else None
    return moment, parts, LEVEL


def _wets(batch, moment, one):
    """Whether the step by itself keeps the gum from clotting."""
    hot = next((figure.value.low for figure in one.material.figures("pre-wet in")), None)
    return polymers.is_wetting(moment) or hot is not None and moment.start.high >= hot - batch.plan.plant.temperature_tolerance


def _least(batch) -> float:
    """Parts to one of gum, from `1:3`."""
    return min(float(word.low.split(":")[1].split("-")[0]) for line in batch.thresholds(NAME, "at least") for word in line.words if isinstance(word, tree.Quantity))


def _finding(batch, row, moment, parts, level) -> Finding:
    least = _least(batch)
    how = ("goes in with its liquid and the water at once" if level == "NOTE" else
           f"meets the water in {moment.vessel} wetted in only {parts:.2g} parts" if parts else f"goes dry onto the water in {moment.vessel}")
    liquid = next((one.name for one in batch.method.rows if one.material.is_a("polyol") and not one.material.text("form") == "solution"), "glycerin")
    enough = weight(least * float(row.mass or 0) * float(batch.plan.factor))
    return Finding(level, NAME, f"{share(batch.of_batch(row))} of {row.name} {how}", Label(moment.span, "it meets the water here"), (Label(row.span, "a gum"),), WHY,
                   f"Disperse it first in {enough} or more of {liquid} in a pail and add the pail into the vortex; "
                   f'or give it a step of its own: add "{row.name}" to {moment.vessel}, sprinkled, into the vortex, over 5 min.',
                   batch.source(NAME, "at least"), material=row.name, step=moment.step.number)
