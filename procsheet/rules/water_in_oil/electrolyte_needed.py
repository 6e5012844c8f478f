"""The water of a water-in-oil or water-in-silicone emulsion carries too little dissolved salt.

Why it matters
    Without salt water wanders from small drops to large ones and the drops merge: the cream thins and sweats water in the drum.

Wrong
    type water-in-oil emulsion
    phase B: oils
        20 %  caprylic/capric triglyceride
        4 %  sorbitan oleate
    method
        charge B into side
        add main to side slowly, over 20 min

Right
    type water-in-oil emulsion
    phase B: oils
        20 %  caprylic/capric triglyceride
        4 %  sorbitan oleate
    phase C: salt
        0.8 %  magnesium sulfate heptahydrate
    method
        charge B into side
        dissolve C in main
        add main to side slowly, over 20 min

Limits
    What the emulsifier's own data ask for; where they ask for nothing, 0.5 % of the batch. Of a solution only the salt in it counts;
    a crystal water counts as salt, and the salt of a preservative does not. Where a maker's sheet asks for it the batch is stopped, else it is a warning.

Exceptions
    Borax and wax, which make their own soap; clay as the only emulsifier; aluminium salts, which are salts themselves;
    15 % of water or less.

Needs
    needs electrolyte

Source
    Journal of Colloid and Interface Science 242 (2001) 437, less coalescence with magnesium sulfate; US 4446051, claim 1(d),
    0.1 to 5 % of a magnesium salt; supplier page on a glyceryl oleate emulsifier, for 0.5 %; formulators' forum, for 1 %
"""

from procsheet.findings import Finding, Label
from procsheet.model.material import Figure
from procsheet.model.method import Row
from procsheet.rules.words import listed, share

NAME = "electrolyte-needed"
LEVEL = "WARN"
ASKED = "STOP"
SHEET = ("supplier", "standard")        # grades of a maker's own sheet
SALT = "magnesium sulfate heptahydrate"
NEARLY = 1e-6
WHY = "Without dissolved salt water wanders from small drops to large ones and the drops merge: the cream thins, then sweats water in the drum."


def check(batch):
    if not batch.makes_water_in_oil or _stands_without(batch):
        return
    emulsifier, need = _asked(batch)
    least = need.value.low if need else batch.limit(NAME, "at least")
    salts = [row for row in batch.method.rows if row.material.share("electrolyte") and not row.material.is_a("preservative")]
    there = sum(batch.of_batch(row, "electrolyte") for row in salts)
    if there < least - NEARLY:
        yield _finding(batch, emulsifier, need, least, salts, there)


def _stands_without(batch) -> bool:
    rows = batch.method.rows
    water = sum(batch.of_batch(row) for row in rows if batch.trace.affinities[row.code] == "water")
    by_clay = any(row.material.is_a("clay", "organoclay") for row in rows) and not any(
        row.material.is_a("emulsifier") or not row.material.known and batch.trace.affinities[row.code] != "water" for row in rows)
    return water <= batch.limit(NAME, "water in the batch") or by_clay or any(row.material.is_a("borate", "aluminium") for row in rows)


def _asked(batch) -> tuple[Row | None, Figure | None]:
    """The emulsifier that asks for most salt, and the figure."""
    asked = [(row, figure) for row in batch.method.rows for figure in row.material.figures("needs")
             if row.material.is_a("w/o emulsifier") and "electrolyte" in figure.words]
    return max(asked, key=lambda one: (one[1].grade in SHEET, one[1].value.low), default=(None, None))


def _finding(batch, emulsifier, need, least, salts, there) -> Finding:
    phase = _water_inside(batch)
    unknown = listed(row.name for row in phase.rows if not row.material.known)
    title = (f"this {batch.type} has {share(there)} of electrolyte; at least {share(least)} of the batch is asked" if salts else
             f"this {batch.type} has no electrolyte in its water")
    also = [Label(row.span, f"brings {share(batch.of_batch(row, 'electrolyte'))}") for row in salts]
    also += [Label(emulsifier.span, f"asks for {need.written} of electrolyte")] if need else []
    return Finding(ASKED if need and need.grade in SHEET else LEVEL, NAME, title + (f"; {unknown} is not known and may be one" if unknown else ""),
                   Label(phase.span, _told(len(phase.rows), bool(salts))), tuple(also), WHY,
                   f"Bring {salts[0].name if salts else SALT} to {share(max(least, batch.limit(NAME, 'as usual')))} of the batch, in phase {phase.letter}, "
                   "dissolved before the water meets the oil.",
                   f"data of {emulsifier.material.name}: {need.told}" if need else batch.source(NAME, "at least"), material=emulsifier.name if need else "")


def _water_inside(batch):
    """The phase whose water becomes the drops: the most of it where the phases first meet, else in the formula."""
    meeting = next((moment for moment in batch.trace.moments if moment.facts.met == moment.index and moment.facts.outside == "oil"), None)
    held = meeting.contents if meeting is not None else {}
    return max(batch.method.phases, key=lambda one: sum(held.get(row.code, 0.0) if held else batch.of_batch(row) for row in one.rows
                                                        if batch.trace.affinities[row.code] == "water"))


def _told(count: int, some: bool) -> str:
    if some or count == 1:
        return "too little electrolyte" if some else "no electrolyte"
    return f"{'neither' if count == 2 else 'none'} of its {count} materials is an electrolyte"
