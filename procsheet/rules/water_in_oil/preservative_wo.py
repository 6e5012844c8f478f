"""A preservative that dissolves in water only does not reach the drops of a water-in-oil emulsion.

Why it matters
    Germs grow in the drops. A preservative salt that lies in the oil, or goes into the finished emulsion, stays there as crystals: the
    product has it on the label and not where it is needed.

Wrong
    type water-in-oil emulsion
    phase B: oils
        20 %  caprylic/capric triglyceride
        4 %  sorbitan oleate
    phase C: keeping
        0.5 %  sodium benzoate
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
    phase C: keeping
        0.5 %  sodium benzoate
    method
        charge B into side
        dissolve C in main
        add main to side slowly, over 20 min with homogeniser
        transfer side to main

Limits
    All of it, from 0.02 % of the batch on.

Exceptions
    Liquids and solids that dissolve in oil as well, such as phenoxyethanol: part of them moves on into the drops. A solution in water or glycol
    that goes in late. In the classic tests water-in-oil products read low all the same: ask the laboratory how it tests.

Source
    formulators' forum, water-in-silicone tests poorly; common practice, no source, for the rest
"""

from procsheet.findings import Finding, Label
from procsheet.rules.water_in_oil.electrolyte_in_water import missed
from procsheet.rules.words import share

NAME = "preservative-wo"
LEVEL = "WARN"
SOLID = ("powder", "crystals", "granules", "flakes")
WHY = "Germs grow in the drops, and it stays outside as crystals: the product has it on the label and not where it is needed."


def check(batch):
    if not batch.makes_water_in_oil:
        return
    for one in batch.trace.exposures:
        if _in_water_only(one.material) and batch.of_batch(one.row) >= batch.limit(NAME) and (fault := missed(batch, one)):
            yield _finding(batch, one.row, *fault)


def _in_water_only(material) -> bool:
    return material.is_a("preservative") and material.text("form") in SOLID and material.words("dissolves in") == ("water",)


def _finding(batch, row, moment, how) -> Finding:
    return Finding(LEVEL, NAME, f"{share(batch.of_batch(row))} of {row.name} {how}", Label(moment.span, "it does not get into the drops here"),
                   (Label(row.span, "dissolves in water only"),), WHY,
                   f"Dissolve {row.name} in the water phase until clear, in a step before the water goes into the oil.", batch.source(NAME),
                   material=row.name, step=moment.step.number)
