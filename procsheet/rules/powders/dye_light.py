"""A dye goes in dry by the milligram, or before the batch is heated.

Why it matters
    A dye is dosed in parts per million: dry, a grain too much is another shade, and specks show for hours. Heat, and the light over an open kettle, bleach
    it while it waits for the rest.

Wrong
    type surfactant solution
    phase B: colour
        0.002 %  CI 42090
    method
        add B to main with paddle

Wrong
    type surfactant solution
    phase B: colour
        1 %  glycerin
        0.002 %  CI 42090
    method
        charge B into pail
        add pail to main with paddle
        heat main to 75 °C with paddle

Right
    type surfactant solution
    phase B: colour
        1 %  glycerin
        0.002 %  CI 42090
    method
        charge B into pail
        add pail to main with paddle

Limits
    Dry up to 0.02 % of the batch, into half of the batch or more. 60 °C after it has gone in.

Exceptions
    A solution, or a premix in a vessel of its own. A dye that is to go through the heat, such as one of a soap bar or a melt.

Source
    common practice, no source: a preserved solution of 0.1 to 1 %, last
"""

from procsheet.findings import Finding, Label
from procsheet.model.material import fold
from procsheet.rules.words import celsius, weight

NAME = "dye-light"
LEVEL = "NOTE"
TYPES = ("surfactant solution", "solution", "gel", "hydroalcoholic", "oil-in-water emulsion")
DYE = fold("colour")                    # kinds are compared as names are
HALF = 0.5                              # of the batch (common practice, no source)
WHY = "Dry, a grain too much is another shade and specks show for hours; heat and the light over an open kettle bleach it."


def check(batch):
    if batch.type not in TYPES:
        return
    for one in batch.trace.exposures:
        if one.material.kind != DYE or one.material.text("form") not in ("powder", "crystals"):
            continue
        hot = next((moment for moment in batch.trace.path(one.moment) if moment.peak.low > batch.limit(NAME, "heat")), None)
        dry = one.moment.mass >= HALF * float(batch.plan.mass) and 0 < batch.of_batch(one.row) <= batch.limit(NAME, "dry")
        if hot is not None:
            yield _finding(batch, one, hot, f"{one.row.name} is in {hot.vessel} at {celsius(hot.peak)}", "heat bleaches it",
                           f"Add {one.row.name} last, after the batch has cooled, as a preserved solution of 0.1–1 %.")
        elif dry:
            much = weight(one.moment.added.get(one.row.code, 0.0))
            yield _finding(batch, one, one.moment, f"{much} of {one.row.name} goes dry into {weight(one.moment.mass)}", "dry, by the grain",
                           f"Dissolve {one.row.name} to 0.1–1 % in preserved water in a vessel of its own, and add that.")


def _finding(batch, one, moment, title, label, fix) -> Finding:
    return Finding(LEVEL, NAME, title, Label(moment.span, label), (Label(one.row.span, "a dye"),), WHY, fix, batch.source(NAME), material=one.row.name, step=moment.step.number)
