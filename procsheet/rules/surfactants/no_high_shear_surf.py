"""High shear on a foaming surfactant in air.

Why it matters
    A rotor-stator draws air in and divides it: the vessel fills with foam that stands for days, the fill is short and the batch
    cannot be measured. A cleanser has no drops to make, so nothing is gained.

Wrong
    type surfactant solution
    phase B: surfactant
        30 %  sodium laureth sulfate 27 % solution
    method
        add B to main with homogeniser at 10 m/s

Right
    type surfactant solution
    phase B: surfactant
        30 %  sodium laureth sulfate 27 % solution
    method
        add B to main slowly, without foam, with paddle at 1.5 m/s

Limits
    From 1 % of foaming surfactant or soap as active matter, 5 % in an emulsion. A solubiliser that foams counts in clear waters. A
    stirrer faster than 3 m/s is a hint. Told once a method, at the hardest step.

Exceptions
    Under vacuum, in a closed line. Cationic surfactants, which hardly foam. Mixtures with no water. Alkali and oil before they are
    soap. Drawing the air off afterwards is none: the foam rises with it.

Needs
    assay

Source
    three public threads on homogenised shampoo; common practice, no source, for 3 m/s
"""

from procsheet.findings import LEVELS, Finding, Label
from procsheet.intervals import BEYOND
from procsheet.rules.drops import makes_soap
from procsheet.rules.words import share
from procsheet.trace.trace import HIGH

NAME = "no-high-shear-surf"
LEVEL = "WARN"
FOAMING = ("surfactant anionic", "surfactant amphoteric", "surfactant nonionic", "soap")
CLEAR = ("surfactant solution", "solution")
WATERY = 0.1                            # of the vessel: with less there is nothing to foam (common practice, no source)
NEARLY = 1e-9
WHY = "The head draws air in and divides it: foam that stands for days, a short fill, and no reading that can be trusted. There are no drops to make."


def check(batch):
    found = [(level, moment) for moment in batch.trace.moments if (level := _level(batch, moment)) is not None]
    if found:
        level, moment = min(found, key=lambda one: (LEVELS.index(one[0]), -one[1].shear.rank.high, one[1].index))
        yield _finding(batch, moment, level)


def _level(batch, moment) -> str | None:
    if moment.cover == "vacuum" or moment.step.verb == "mill" or not _foams(batch, moment):
        return None
    if moment.shear.rank.low >= HIGH:
        return LEVEL
    return "NOTE" if moment.shear.rank.high < HIGH and moment.shear.beyond(batch.limit(NAME, "tip speed")) == BEYOND else None


def _foams(batch, moment) -> bool:
    least = batch.limit(NAME, "in an emulsion" if batch.is_emulsion and not _is_foam(batch) else "active matter")
    return batch.trace.share(moment, "water") > WATERY and _surfactant(batch, moment) >= least - NEARLY


def _surfactant(batch, moment) -> float:
    """The share of active matter in a vessel; what makes soap of itself counts in a foam that is filled with propellant."""
    groups = (*FOAMING, "solubiliser") if batch.type in CLEAR else FOAMING
    groups = (*groups, "fatty acid", "liquid fatty acid") if _is_foam(batch) and makes_soap(batch) and batch.trace.holds(moment, "base", "amine") else groups
    rows = batch.graph.rows
    return sum(mass * rows[code].material.share(*groups) for code, mass in moment.contents.items() if code in rows) / moment.mass if moment.mass else 0.0


def _is_foam(batch) -> bool:
    """Filled with a propellant, or called a foam."""
    return any(row.material.is_a("propellant") for row in batch.method.rows) or any(word in batch.method.header.product.lower() for word in ("foam", "mousse"))


def _finding(batch, moment, level) -> Finding:
    rows = batch.trace.holds(moment, *FOAMING, "solubiliser", "fatty acid", "liquid fatty acid")
    main = max(rows, key=lambda row: moment.contents[row.code] * row.material.share(*FOAMING, "solubiliser", "fatty acid", "liquid fatty acid"))
    title = f"{moment.shear.told} in {moment.vessel}, with {share(_surfactant(batch, moment))} of foaming surfactant, {main.name} first"
    return Finding(level, NAME, title, Label(moment.span, "beats air in here"), (Label(main.span, "foams"),), WHY,
                   f"Turn {moment.vessel} with a paddle at 1.5 m/s, without foam, in line {moment.span.line}; or draw a vacuum first. "
                   "What needs the head goes in before the surfactant.", batch.source(NAME, "active matter"), material=main.name, step=moment.step.number)
