"""A ready-neutralised acrylate thickener goes in before the emulsion is made, or beside what collapses it.

Why it matters
    It thickens the water at once. Oil that is emulsified afterwards is emulsified in a gel, and the high shear that this takes cuts it.
    Proteins and salts, even little, make it collapse.

Wrong
    phase B: thickener
        1 %  sodium polyacrylate in hydrogenated polydecene
    phase C: oils
        15 %  caprylic/capric triglyceride
        3 %  polysorbate 60
    method
        add B to main with propeller
        add C to main with homogeniser for 5 min

Right
    phase B: thickener
        1 %  sodium polyacrylate in hydrogenated polydecene
    phase C: oils
        15 %  caprylic/capric triglyceride
        3 %  polysorbate 60
    method
        add C to main with homogeniser for 5 min
        add B to main with propeller

Limits
    0.3 % and more of it. With protein from 1 % on, where its data tolerate 0.1 % of salt or less, a warning.

Exceptions
    Where it is itself the emulsifier; carried in the oil phase; polyacrylamide, which goes into either phase. Salts: carbomer-salt tells.

Needs
    salt tolerance

Source
    from memory, for the order; public threads and teaching pages, for proteins
"""

from procsheet.findings import Finding, Label
from procsheet.rules import ph, polymers
from procsheet.rules.words import share
from procsheet.trace.trace import HIGH

NAME = "acrylate-inverse"
LEVEL = "NOTE"
COLLAPSES = "WARN"
NEARLY = 1e-9
WHY = "It thickens the water at once: oil that follows is emulsified in a gel, and the shear that this takes cuts it. Protein makes it collapse."


def check(batch):
    for one in batch.trace.exposures:
        if _is_ready(one.material):
            found = _beside_protein(batch, one.row) or _too_early(batch, one)
            if found is not None:
                yield found
                return


def _is_ready(material) -> bool:
    """Whether it is a carbomer that is neutralised when it is bought."""
    return material.is_a("carbomer") and not polymers.wants_base(material)


def _beside_protein(batch, row):
    tolerance = row.material.figure("salt tolerance")
    proteins = [one for one in batch.method.rows if one.material.is_a("protein") and batch.of_batch(one) >= batch.limit(NAME, "protein") - NEARLY]
    if tolerance is None or tolerance.value.low > 0.001 + NEARLY or not proteins:
        return None
    moment = ph.meeting(batch, row, proteins[0])
    return moment and Finding(COLLAPSES, NAME, f"{share(batch.of_batch(proteins[0]))} of {proteins[0].name} beside {row.name}, which it makes collapse",
                              Label(moment.span, "they meet here"), (Label(proteins[0].span, "charged like a salt"), Label(row.span, "stands hardly any salt")), WHY,
                              f"Take less than 1 % of {proteins[0].name}, or thicken with xanthan gum or hydroxyethylcellulose.", batch.source(NAME, "protein"),
                              material=proteins[0].name, step=moment.step.number)


def _too_early(batch, one):
    """Where it thickens the water before the oil meets it under high shear."""
    met = polymers.meets_water(batch, one)
    joined = next((moment for moment in batch.trace.path(met) if moment.facts.met == moment.index), None) if met else None
    others = any(row.material.is_a("emulsifier") and not _is_ready(row.material) for row in batch.method.rows)
    early = joined is not None and joined.index != met.index and batch.of_batch(one.row) >= batch.limit(NAME, "of it") - NEARLY
    if not early or not others or not any(moment.shear.rank.low >= HIGH for moment in batch.trace.path(joined)):
        return None
    return Finding(LEVEL, NAME, f"{one.row.name} thickens the water in line {met.span.line}, before the oil is emulsified in line {joined.span.line}", Label(met.span, "thick from here on"),
                   (Label(joined.span, "the oil comes only here"),), WHY, f"Add {one.row.name} after line {joined.span.line}, with a slow stirrer, or carry it in the oil.",
                   batch.source(NAME, "of it"), material=one.row.name, step=met.step.number)
