"""Gum, protein or salt in more alcohol than it stands.

Why it matters
    They are soluble in water and not in strong alcohol. As the alcohol rises they come out as haze, threads or a bottom layer, and take
    thickness and care with them.

Wrong
    type hydroalcoholic
    phase B: gum
        3 %  glycerin
        0.5 %  xanthan gum
    phase C: alcohol
        65 %  ethanol 96 %
    method
        disperse B in main with homogeniser
        add C to main slowly

Right
    type hydroalcoholic
    phase B: gum
        1 %  hydroxypropylcellulose
    phase C: alcohol
        65 %  ethanol 96 %
    method
        disperse B in main with homogeniser
        add C to main slowly

Limits
    Alcohol by mass in the vessel, the most it holds with it on the way: over 50 % a warning, for a cellulose ether without charge over 60 %; a
    gum or protein is a hint from 30 % on. Salt from 1 % of the batch on, gum and protein from 0.05 %.

Exceptions
    Gums and film formers whose data say that they dissolve in alcohol. Gums that are wetted in it. Carbomers, of which neutraliser-alcohol tells.

Needs
    dissolves in

Source
    common practice, no source; from memory, for 60 %
"""

from procsheet.findings import Finding, Label
from procsheet.rules import polymers
from procsheet.rules.words import listed, share

NAME = "alcohol-precip"
LEVEL = "WARN"
HINT = "NOTE"
NEARLY = 1e-9
WHY = "It is soluble in water and not in strong alcohol: it comes out as haze, threads or a bottom layer, and takes its work with it."


def check(batch):
    rows = [row for row in batch.method.rows if _falls_out(batch, row)]
    for level in (LEVEL, HINT):
        for moment in batch.trace.moments:
            fallen = [row for row in rows if row.code in moment.contents and _level(batch, row, _alcohol(batch, moment, row)) == level]
            if fallen:
                yield _finding(batch, fallen, moment, level)
                return


def _falls_out(batch, row) -> bool:
    """Whether it falls out of alcohol, and there is enough of it to see."""
    material = row.material
    if material.is_a("carbomer") or material.lines.get("dissolves in") and "alcohol" in " ".join(material.words("dissolves in")):
        return False
    if material.is_a("gum", "protein"):
        return batch.of_batch(row) > batch.limit(NAME, "gum or protein at most") + NEARLY
    return not material.is_a("preservative") and batch.of_batch(row, "electrolyte") > batch.limit(NAME, "salt at most") + NEARLY


def _alcohol(batch, moment, row) -> float:
    """The share of alcohol in what dissolves it; none where it is only wetted in alcohol."""
    wet = batch.watery(moment.contents) > moment.contents[row.code]
    return polymers.part(batch, moment.contents, "alcohol") if wet else 0.0


def _level(batch, row, alcohol) -> str | None:
    stands = row.material.kind == "cellulose ether" and row.material.text("ionic") == "nonionic"
    if alcohol > batch.limit(NAME, "without charge" if stands else "or salt") + NEARLY:
        return LEVEL
    return HINT if row.material.is_a("gum", "protein") and not stands and alcohol > batch.limit(NAME, "a hint") + NEARLY else None


def _finding(batch, rows, moment, level) -> Finding:
    alcohol = _alcohol(batch, moment, rows[0])
    spirit = max(batch.trace.holds(moment, "alcohol"), key=lambda one: moment.contents[one.code])
    names = listed(row.name for row in rows)
    return Finding(level, NAME, f"{names} in {moment.vessel} with {share(alcohol)} of alcohol, where it does not stay dissolved", Label(moment.span, "falls out here"),
                   (*(Label(row.span, "soluble in water") for row in rows[:2]), Label(spirit.span, "the alcohol")), WHY,
                   f"Take a grade that dissolves in alcohol, such as hydroxypropylcellulose for a gum, or less {spirit.name}; pour the spirit into the watery side, slowly, "
                   "and look for a cloud.", batch.source(NAME, "a hint" if level == HINT else "a warning"), material=rows[0].name, step=moment.step.number)
