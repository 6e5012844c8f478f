"""A carbomer meets the water badly: dry and unsprinkled, or where the base is already in.

Why it matters
    In plain water a carbomer makes a thin acid dispersion that wets through. Dropped on in a heap, or where base is in the water, each clot
    swells a skin at once: fish-eyes that stay, and a gel that is short of polymer.

Wrong
    type gel
    phase B: base
        0.6 %  triethanolamine
    phase C: polymer
        0.5 %  carbomer
    method
        add B to main with propeller
        disperse C in main, sprinkled, with propeller

Wrong
    type gel
    phase B: polymer
        0.5 %  carbomer
    phase C: base
        0.6 %  triethanolamine
    method
        add B to main with anchor
        neutralise main with C

Right
    type gel
    phase B: polymer
        0.5 %  carbomer
    phase C: base
        0.6 %  triethanolamine
    method
        disperse B in main, sprinkled, into the vortex, with propeller until lump-free
        neutralise main with C with anchor

Limits
    Over 0.1 % of polymer. Wetted first in three parts or more of oil or polyol, nothing is said.

Exceptions
    Sprinkled, into the vortex, stirred fast, under high shear; `disperse`, `dissolve` and `until dispersed` name their own end, and so may the
    step behind it. Grades that wet by themselves, and liquid ones. Polymers in oil, whose base waits in the water. Into alcohol:
    carbomer-in-water-first tells.

Source
    supplier's page on carbomers, for the un-neutralised dispersion; common practice, no source, for the wetting
"""

from procsheet.findings import Finding, Label
from procsheet.model.material import SOLID
from procsheet.rules import polymers
from procsheet.rules.words import listed, share
from procsheet.syntax import tree
from procsheet.trace.trace import HIGH

NAME = "carbomer-disperse"
LEVEL = "WARN"
HINT = "NOTE"
NEARLY = 1e-9
WHY = "A skin closes round each clot: fish-eyes that neither time nor base takes out, and a gel that is short of what is in them."


def check(batch):
    told = set()
    for one in batch.trace.exposures:
        if one.row.code not in told and _is_dry_polymer(batch, one.row) and (found := _fault(batch, one)):
            told.add(one.row.code)
            yield _finding(batch, one.row, *found)


def _is_dry_polymer(batch, row) -> bool:
    clots = polymers.wants_base(row.material) or row.material.is_a("carbomer") and row.material.has("pre-wet in")
    return clots and row.material.text("form") in SOLID and batch.of_batch(row) > batch.limit(NAME, "nothing is said") + NEARLY


def _fault(batch, one):
    """Where it meets the water, the bases that are there, and the level; None where all is well."""
    moment = polymers.meets_water(batch, one)
    if moment is None or polymers.wetted(batch, moment, one.row, "carbomer", "gum") >= _least(batch) and moment.parents:
        return None
    bases = batch.trace.holds(moment, "base", "neutraliser") if polymers.wants_base(one.material) else []
    bases = [row for row in bases if row.code in moment.before or not moment.step.verb == "neutralise"]
    if bases:
        return moment, bases, LEVEL
    in_spirit = polymers.part(batch, moment.contents, "alcohol") > batch.limit("carbomer-in-water-first", "meet dry") + NEARLY
    if polymers.is_wetting(moment) or _is_worked(batch, moment) or one.material.is_a("wets by itself") or in_spirit:
        return None
    return moment, [], HINT if one.material.is_a("holds drops", "polymeric emulsifier") else LEVEL


def _is_worked(batch, moment) -> bool:
    """Whether the next step takes the clots apart before there is a base."""
    after = next(batch.trace.later(moment), None)
    worked = after is not None and (after.shear.rank.low >= HIGH or polymers.looks(after.step) & {*polymers.UNTIL, "hydrated", "smooth"})
    return bool(worked) and not after.facts.neutralised


def _least(batch) -> float:
    """Parts to one of polymer, from `1:3`."""
    return min(float(word.low.split(":")[1]) for line in batch.thresholds(NAME, "at least") for word in line.words if isinstance(word, tree.Quantity))


def _finding(batch, row, moment, bases, level) -> Finding:
    how = f"goes into {moment.vessel}, where {listed(one.name for one in bases)} is already in" if bases else f"goes dry onto the water in {moment.vessel}"
    fix = (f"Disperse {row.name} in the plain water first and neutralise it with {listed(one.name for one in bases)} in a step of its own, last." if bases else
           f'Give it a step of its own: disperse "{row.name}" in {moment.vessel}, sprinkled, into the vortex, until lump-free.')
    return Finding(level, NAME, f"{share(batch.of_batch(row))} of {row.name} {how}", Label(moment.span, "it meets the water here"),
                   tuple(Label(one.span, "the base") for one in bases) or (Label(row.span, "a powder that clots"),), WHY, fix, batch.source(NAME, "at least"),
                   material=row.name, step=moment.step.number)
