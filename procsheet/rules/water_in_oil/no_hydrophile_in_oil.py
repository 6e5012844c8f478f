"""An emulsifier, solubiliser or surfactant for water outside stands in a water-in-oil emulsion, beside its own emulsifier.

Why it matters
    It pulls the film round the drops towards the other side: the cream thins, sweats water, or turns over in the kettle or in the heat of a
    lorry. A little of it undoes what much of the right emulsifier does.

Wrong
    type water-in-oil emulsion
    phase B: oils
        20 %  caprylic/capric triglyceride
        4 %  sorbitan oleate
    phase C: perfume
        1 %  polysorbate 20
        0.3 %  fragrance
    method
        charge B into side
        add main to side slowly, over 20 min with homogeniser
        add C to side
        transfer side to main

Right
    type water-in-oil emulsion
    phase B: oils
        20 %  caprylic/capric triglyceride
        4 %  sorbitan oleate
    phase C: perfume
        0.3 %  fragrance
    method
        charge B into side
        add main to side slowly, over 20 min with homogeniser
        add C to side
        transfer side to main

Limits
    HLB above 10, from a twentieth of the weight of the emulsifier for oil outside on, and from 0.1 % of the batch. A surfactant that foams, a charged
    emulsifier or a ready base for water outside counts as above.

Exceptions
    In a multiple emulsion what goes in after the first stage. Where there is more of it than of the right emulsifier, `wo-hlb` speaks. One that is
    meant is signed for.

Needs
    HLB

Source
    formulators' forum, half a per cent of polysorbate put in as a patch; common practice, no source, for the rest
"""

from procsheet.findings import Finding, Label
from procsheet.rules.drops import joining, makes_soap, sheared_first
from procsheet.rules.water_in_oil import wo_hlb
from procsheet.rules.words import share

NAME = "no-hydrophile-in-oil"
LEVEL = "WARN"
CHARGED = ("anionic", "cationic")
EXEMPT = ("w/o emulsifier", "carbomer", "polymeric emulsifier", "inverse emulsion polymer", "takes up water", "dispersant", "amidoamine")
WHY = "It pulls the film round the drops to the other side: the cream thins and sweats water, or turns over. A little undoes what much of the right one does."


def check(batch):
    inward, outward, _ = wo_hlb.sides(batch)
    right = [row for row in batch.method.rows if row.material.is_a(*wo_hlb.INWARD)]
    holds = sum(batch.of_batch(row, "emulsifier") or batch.of_batch(row) for row in right)
    if not batch.makes_water_in_oil or not right or makes_soap(batch) or sum(map(batch.of_batch, outward)) > sum(map(batch.of_batch, inward)):
        return
    least = max(batch.limit(NAME, "of the batch"), batch.limit(NAME, "of the emulsifier") * holds)
    there = _there(batch)
    for row in batch.method.rows:
        if row.code in there and _is_hydrophile(batch, row) and batch.of_batch(row) * (row.material.share("emulsifier") or 1.0) >= least:
            yield _finding(batch, row, right)


def _there(batch) -> set[str]:
    """Codes of all rows; of a multiple emulsion those of its first stage."""
    if batch.is_water_in_oil:
        return {row.code for row in batch.method.rows}
    joined = joining(batch)
    return set(sheared_first(batch, joined).contents) if joined is not None else set()


def _is_hydrophile(batch, row) -> bool:
    material, figure = row.material, row.material.figure("HLB")
    if material.is_a(*EXEMPT) or not material.is_a("emulsifier", "surfactant", "solubiliser"):
        return False
    if figure is not None and material.text("ionic") not in CHARGED:
        return figure.value.low > batch.limit(NAME, "HLB")
    return material.text("ionic") in CHARGED or material.is_a("surfactant", "solubiliser", "self-emulsifying")


def _finding(batch, row, right) -> Finding:
    figure = row.material.figure("HLB")
    told = f", HLB {figure.written.removesuffix(' HLB')}," if figure else ""
    main = max(right, key=batch.of_batch)
    return Finding(LEVEL, NAME, f"{share(batch.of_batch(row))} of {row.name}{told} puts water outside, beside {share(batch.of_batch(main))} of {main.name}, which puts oil outside",
                   Label(row.span, "works against the emulsifier"), (Label(main.span, "puts oil outside"),), WHY,
                   f"Take {row.name} out: in oil perfume needs no solubiliser, and an emulsion that sweats asks for more {main.name} or more salt.",
                   f"{batch.source(NAME, 'HLB')}; data of {row.material.name}: HLB {figure.told}" if figure else batch.source(NAME, "HLB"), material=row.name)
