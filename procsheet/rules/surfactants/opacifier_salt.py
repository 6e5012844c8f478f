"""A polymer opacifier in more salt than it stands, or put in neat.

Why it matters
    The opacifier is a fine latex. Salt takes its charge and it clots: a month later the bottle has a clear layer. Put neat into thick
    surfactant it clots at once, as specks.

Wrong
    type surfactant solution
    phase B: surfactant
        35 %  sodium laureth sulfate 27 % solution
    phase C: white
        1 %  styrene/acrylates copolymer emulsion
    phase D: salt
        1.7 %  sodium chloride
    method
        add B to main with paddle
        add C to main with paddle
        add D to main, in portions

Right
    type surfactant solution
    phase B: surfactant
        35 %  sodium laureth sulfate 27 % solution
    phase C: white
        1 %  styrene/acrylates copolymer emulsion
    phase D: salt
        0.7 %  sodium chloride
    method
        charge 1/10 of "purified water" into pail
        add C to pail
        add B to main with paddle
        add pail to main with paddle
        add D to main, in portions

Limits
    The figure of its own data, else 1 %, against all salt of the batch, of a corrector up to its cap. Neat into what holds salt is a hint,
    and so is a corrector whose cap alone passes the figure.

Exceptions
    Pearl concentrates and titanium dioxide, which salt does not clot.

Needs
    never with electrolyte

Source
    public thread on an opacified shampoo that cleared; from memory
"""

from procsheet.findings import Finding, Label
from procsheet.rules.salts import at_most, salts
from procsheet.rules.words import listed, share

NAME = "opacifier-salt"
LEVEL = "WARN"
NEARLY = 1e-9
WHY = "Salt takes the charge of the latex and it clots: specks at once where it was put in neat, or a clear layer in the bottle a month later."


def check(batch):
    for row in batch.method.rows:
        if row.material.is_a("opacifier") and any("electrolyte" in words for words in row.material.words("never with")) and not row.optional:
            yield from _salty(batch, row) or _neat(batch, row)


def _salty(batch, row) -> list[Finding]:
    figure = next((one for one in row.material.figures("never with") if "electrolyte" in one.words), None)
    most = figure.value.low if figure is not None else batch.limit(NAME, "no figure")
    rows = [one for one in salts(batch) if at_most(batch, one)]
    total = sum(at_most(batch, one) for one in rows)
    sure = sum(at_most(batch, one) if one.kind == "figure" else batch.of_batch(one, "electrolyte") for one in rows)
    if total <= most + NEARLY:
        return []
    source = f"data of {row.material.name}: never with electrolyte above {figure.told}" if figure is not None else batch.source(NAME)
    return [Finding(LEVEL if sure > most + NEARLY else "NOTE", NAME, f"{share(total)} of salt ({listed(one.name for one in rows)}) beside {row.name}, which stands {share(most)}",
                    Label(rows[0].span, "salt"), (Label(row.span, "clots in salt"),), WHY,
                    f"Bring all salt down to {share(most)}, and thicken with a polymer or an amide; or take a pearl concentrate for the look.", source, material=row.name)]


def _neat(batch, row) -> list[Finding]:
    """Put straight into surfactant or salt."""
    enters = next((one.moment for one in batch.trace.exposures if one.row.code == row.code), None)
    if enters is None or not batch.trace.holds(enters, "anionic surfactant", "electrolyte", before=True):
        return []
    return [Finding("NOTE", NAME, f"{row.name} goes into {enters.vessel} neat", Label(enters.span, "clots where it lands"), (Label(row.span, "a latex"),), WHY,
                    f"Stir it into five parts of water in a pail first, and add the pail to {enters.vessel}.", batch.source(NAME), material=row.name, step=enters.step.number)]
