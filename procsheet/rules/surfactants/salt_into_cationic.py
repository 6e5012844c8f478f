"""Salt in a conditioner that cationic surfactant thickens.

Why it matters
    A conditioner is thick by layers of cationic surfactant and fatty alcohol. Salt draws the water out of them: the batch thins to
    milk, or goes lumpy, and does not come back.

Wrong
    phase B: fats
        5 %  cetearyl alcohol
        2 %  behentrimonium chloride
    phase C: salt
        2 %  sodium chloride
    method
        heat main to 80 °C
        charge B into side
        heat side to 80 °C until melted
        add side to main with homogeniser
        cool main to 35 °C with anchor
        add C to main

Right
    phase B: fats
        5 %  cetearyl alcohol
        2 %  behentrimonium chloride
    phase C: salt
        0.2 %  sodium chloride
    method
        heat main to 80 °C
        charge B into side
        heat side to 80 °C until melted
        add side to main with homogeniser
        cool main to 35 °C with anchor
        add C to main

Limits
    Salt of the whole batch, of a solution only the salt in it, of a corrector up to its cap, beside 0.3 % or more of cationic surfactant
    and a fatty alcohol: over 0.5 % a hint, over 1 % a warning. Acids do not count.

Exceptions
    Clear rinses without fatty alcohol. Preservative salts and chelators in their usual dose.

Needs
    ionic

Source
    common practice, no source
"""

from procsheet.findings import Finding, Label
from procsheet.rules.salts import at_most, salts
from procsheet.rules.words import listed, share

NAME = "salt-into-cationic"
LEVEL = "WARN"
NEARLY = 1e-9
LAYERS = ("fatty alcohol", "structures oil")
WHY = "Salt draws the water out of the layers of cationic surfactant and fatty alcohol: the conditioner thins to milk, or goes lumpy, and does not come back."


def check(batch):
    cationic = [row for row in batch.method.rows if row.material.is_a("cationic surfactant") and not row.material.is_a("preservative")]
    if sum(batch.of_batch(row, "cationic surfactant") for row in cationic) < batch.limit(NAME, "cationic surfactant as") - NEARLY:
        return
    if not any(row.material.is_a(*LAYERS) for row in batch.method.rows):
        return
    rows = [row for row in salts(batch) if at_most(batch, row)]
    total = sum(at_most(batch, row) for row in rows)
    if total > batch.limit(NAME, "a hint") + NEARLY:
        yield _finding(batch, cationic, rows, total, LEVEL if total > batch.limit(NAME, "a warning") + NEARLY else "NOTE")


def _finding(batch, cationic, rows, total, level) -> Finding:
    row, most = rows[0], batch.limit(NAME, "a hint")
    enters = next((one.moment for one in batch.trace.exposures if one.row.code == row.code), None)
    place = Label(enters.span, f"{row.name} goes in here") if enters is not None else Label(row.span, "salt")
    title = f"{share(total)} of salt ({listed(one.name for one in rows)}) goes into a conditioner that {cationic[0].name} thickens; {share(most)} is usual at most"
    return Finding(level, NAME, title, place, (Label(row.span, "salt"), Label(cationic[0].span, "salt breaks its layers")), WHY,
                   f"Leave {row.name} out, or bring all salt down to {share(most)} and add it last, cold and dissolved; thicken with fatty alcohol instead.",
                   batch.source(NAME, "a warning"), material=row.name, step=enters.step.number if enters is not None else 0)
