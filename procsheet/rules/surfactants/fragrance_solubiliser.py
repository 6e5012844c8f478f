"""Perfume goes into water without what dissolves it.

Why it matters
    Perfume put to water floats as a film and clings to the vessel. Once it floats, a solubiliser that follows does not catch it any
    more: the batch stays hazy, the first bottles smell and the last irritate.

Wrong
    type solution
    phase B: perfume
        0.1 %  fragrance
        0.5 %  polysorbate 20
    method
        add "fragrance" to main
        add "polysorbate 20" to main

Wrong
    type solution
    phase B: perfume
        0.3 %  lavender oil
    method
        add B to main

Right
    type solution
    phase B: perfume
        0.1 %  fragrance
        0.5 %  polysorbate 20
    method
        charge "polysorbate 20" into pail
        add "fragrance" to pail by hand until clear
        add pail to main

Limits
    From 0.02 % of perfume in the vessel, where it first meets as much water as itself. One part of solubiliser or surfactant to one of
    perfume, before that; where it stands in the water already, the premix is asked for all the same.

Exceptions
    5 % of surfactant as active matter, or 40 % of alcohol or solvent, takes perfume up by itself. Emulsions, pastes thick with powder
    or clay, and gels with a polymer that holds drops. Products with no water.

Source
    five public threads on essential oil in water; common practice, no source, for the capacities
"""

from procsheet.findings import Finding, Label
from procsheet.rules.words import share

NAME = "fragrance-solubiliser"
LEVEL = "WARN"
FOAMING = ("surfactant anionic", "surfactant amphoteric", "surfactant nonionic", "soap")
HOLDS = ("solubiliser", *FOAMING)
DROPS = ("holds drops", "polymeric emulsifier", "inverse emulsion polymer", "emulsifier ow")
LIQUID = ("solution", "surfactant solution", "gel", "hydroalcoholic")
NEARLY = 1e-9
WHY = "It floats as a film and clings to the vessel. What follows does not catch it: the batch stays hazy, and the first bottles get most of it."


def check(batch):
    if batch.type not in LIQUID:
        return
    told = set()
    for one in batch.trace.exposures:
        if one.material.is_a("perfume") and one.row.code not in told and (found := _afloat(batch, one)):
            told.add(one.row.code)
            yield _finding(batch, one.row, *found)
            return


def _afloat(batch, one):
    """Where it meets the water, and how many parts of what dissolves it come with it; None where it is taken up."""
    moment = next((moment for moment in batch.trace.path(one.moment) if batch.watery(moment.contents) > moment.contents.get(one.row.code, 0.0)), None)
    perfume = sum(moment.contents[row.code] for row in batch.trace.holds(moment, "perfume")) if moment is not None else 0.0
    if moment is None or not moment.mass or perfume < batch.limit(NAME, "from which it counts") * moment.mass or _takes_up(batch, moment):
        return None
    comes = next((batch.trace.moments[parent].contents for parent in moment.parents if one.row.code in batch.trace.moments[parent].contents), None) or {}
    parts = _active(batch, comes, HOLDS) / perfume
    return None if parts >= batch.limit(NAME, "at least") - NEARLY or _strong(batch, comes) else (moment, parts)


def _active(batch, held, groups) -> float:
    rows = batch.graph.rows
    return sum(mass * rows[code].material.share(*groups) for code, mass in held.items() if code in rows)


def _strong(batch, held) -> bool:
    """Whether it is mostly alcohol and water with enough alcohol."""
    solvent = sum(mass for code, mass in held.items() if code in batch.graph.rows and batch.graph.rows[code].material.is_a("alcohol", "solvent"))
    return solvent > 0 and solvent >= batch.limit(NAME, "alcohol that") * (solvent + batch.watery(held))


def _takes_up(batch, moment) -> bool:
    """Whether the vessel dissolves or holds it by itself."""
    if moment.before_facts.emulsified or batch.trace.holds(moment, *DROPS) or _strong(batch, moment.contents):
        return True
    return _active(batch, moment.before or moment.contents, FOAMING) >= batch.limit(NAME, "by itself") * sum((moment.before or moment.contents).values())


def _finding(batch, row, moment, parts) -> Finding:
    least = batch.limit(NAME, "at least")
    solubiliser = max((one for one in batch.method.rows if one.material.is_a("solubiliser")), key=lambda one: (one.code not in moment.before, batch.of_batch(one)), default=None)
    how = f"with {parts:.2g} parts of solubiliser to one" if parts > 0.01 else "without a solubiliser" if solubiliser is None else f"not stirred into {solubiliser.name} first"
    name = solubiliser.name if solubiliser is not None else "polysorbate 20"
    more = "" if solubiliser is not None and batch.of_batch(solubiliser) >= least * batch.of_batch(row) else f", {least:.2g} to 5 parts to one of it,"
    return Finding(LEVEL, NAME, f"{share(batch.of_batch(row))} of {row.name} goes into the water in {moment.vessel} {how}", Label(moment.span, "it meets the water here"),
                   (Label(row.span, "does not dissolve in water"), *((Label(solubiliser.span, "would dissolve it"),) if solubiliser is not None else ())), WHY,
                   f"Stir {row.name} into {name}{more} in a cup until clear, and add the cup to {moment.vessel} in line {moment.span.line}.",
                   batch.source(NAME, "at least"), material=row.name, step=moment.step.number)
