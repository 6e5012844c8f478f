"""Cationic guar gets no acid, or gets it after the surfactant.

Why it matters
    Its coat lets it spread in neutral water and comes off in acid: only then does it swell. Where the surfactant comes first it stays a fine
    grit, and the shampoo neither thickens nor conditions.

Wrong
    type surfactant solution
    phase B: guar
        0.3 %  guar hydroxypropyltrimonium chloride
    phase C: surfactant
        30 %  sodium laureth sulfate 27 % solution
    method
        disperse B in main, sprinkled, with propeller
        hydrate main for 30 min with propeller
        add C to main with paddle

Right
    type surfactant solution
    phase B: guar
        0.3 %  guar hydroxypropyltrimonium chloride
    phase C: surfactant
        30 %  sodium laureth sulfate 27 % solution
    phase D: acid
        0.1 %  citric acid 50 % solution
    method
        disperse B in main, sprinkled, with propeller
        add D to main with propeller
        hydrate main for 30 min with propeller
        add C to main with paddle

Limits
    Any acid in its vessel before the surfactant; before the guar itself only where that is wetted in three parts of polyol. Surfactant from 5 % of active matter in the vessel.

Exceptions
    Self-hydrating grades: their data ask for no acid. Guar put dry into anionic surfactant, of which anionic-cationic tells.

Needs
    needs

Source
    cationic guar suppliers' pages: swells below pH 7
"""

from procsheet.findings import Finding, Label
from procsheet.intervals import BEYOND, below
from procsheet.rules import polymers
from procsheet.trace.acidity import acidity

NAME = "cationic-guar"
LEVEL = "WARN"
ACIDS = ("acid", "hydroxy acid", "ascorbic")
NEUTRAL = 7.0                           # pH
PARTS = 3.0                             # of polyol to one of guar, wetted in which it does not clot (common practice, no source)
WHY = "Its coat comes off in acid: only then does it swell. Where surfactant comes first it stays a fine grit, and the batch neither thickens nor conditions."


def check(batch):
    for one in batch.trace.exposures:
        if any(words == "acid to hydrate" for words in one.material.words("needs")):
            met = polymers.meets_water(batch, one)
            found = met and _fault(batch, one, met)
            if found:
                yield _finding(batch, one.row, *found)
                return


def _fault(batch, one, met):
    """What is wrong, at which step, and the step to change."""
    known = acidity(batch.trace)
    path = list(batch.trace.path(met))
    soaped = next((moment for moment in path if polymers.part(batch, moment.contents, "surfactant") >= batch.limit(NAME)), None)
    if soaped is met:
        anionic = polymers.part(batch, met.before, "anionic surfactant") >= batch.limit(NAME) or polymers.part(batch, met.contents, "anionic surfactant") >= batch.limit(NAME)
        return None if anionic else (met, "meets the water only with the surfactant")
    if batch.trace.holds(met, *ACIDS, before=True) and polymers.wetted(batch, met, one.row, "gum") < PARTS:
        return met, "goes into water that is acid already, and clots where it falls"
    acid = next((moment for moment in path if batch.trace.holds(moment, *ACIDS) or below(known[moment.index], NEUTRAL) == BEYOND), None)
    if acid is None:
        return (soaped or met), "gets no acid" + (" before the surfactant" if soaped else "") + "; it swells below pH 7"
    return (soaped, "gets its acid only after the surfactant") if soaped is not None and acid.index > soaped.index else None


def _finding(batch, row, moment, what) -> Finding:
    return Finding(LEVEL, NAME, f"{row.name} {what}", Label(moment.span, "too early" if row.code in moment.before else "it meets the water here"), (Label(row.span, "swells in acid"),), WHY,
                   f"Disperse {row.name} in the plain water, bring it to pH 4-6 with a little citric acid, hydrate it for 30 min, and add the surfactant afterwards.",
                   "cationic guar suppliers' pages (supplier)", material=row.name, step=moment.step.number)
