"""A neat preservative, perfume or enzyme is weighed in.

Why it matters
    Undiluted it can make a person allergic for life, or hurt the eyes; in the finished batch it is thin.

Wrong
    phase B: late
        0.9 %  phenoxyethanol
    method
        add B to main

Right
    phase B: late
        2 %  glycerin
    method
        add B to main

Limits
    Materials whose data say `sensitiser` or carry H317 or H334, enzymes, and preservatives of 20 % strength or more. Once a vessel and
    material; what goes in at one step is told together, with its weight.

Needs
    sensitiser

Source
    the materials' data; common practice, no source, for the strength; the safety data sheets and the plant's own procedures decide
"""

from procsheet.rules.caution import caution, entering, hazards, told

NAME = "sensitiser"
LEVEL = "CAUTION"
ADVICE = "May cause an allergy or irritate the eyes: measure it into its carrier, no splash, no spray. See the data sheets."
BREATHED = "Breathed in, it may cause an allergy for life: no dust, no spray; wet it before it is moved. See the data sheets."


def check(batch):
    seen: set = set()
    neat = batch.limit(NAME)
    for moment in batch.trace.moments:
        if rows := entering(moment, lambda material: _sensitises(material, neat), seen):
            yield caution(NAME, moment, f"Undiluted {told(moment, rows)}", BREATHED if any(_is_breathed(row.material) for row in rows) else ADVICE)


def _sensitises(material, neat: float) -> bool:
    return (material.has("sensitiser") or bool({"h317", "h334"} & hazards(material)) or material.is_a("enzyme")
            or material.is_a("preservative") and float(material.assay or 1) >= neat)


def _is_breathed(material) -> bool:
    return material.is_a("enzyme") or "h334" in hazards(material)
