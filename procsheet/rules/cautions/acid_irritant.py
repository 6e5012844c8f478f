"""A vessel holds enough of a mild acid to irritate.

Why it matters
    Citric, lactic and other fruit acids do not burn at once, but they sting in the eyes and on broken skin, and a peel is made of them.

Wrong
    phase B: acid
        12 %  mandelic acid
    method
        add B to main

Right
    phase B: acid
        0.5 %  citric acid
    method
        add B to main

Limits
    More than 10 % of such acids together, as pure, in a vessel. Once a vessel. Corrosive acids are told by corrosive.

Source
    common practice, no source, for the strength; the safety data sheets and the plant's own procedures decide
"""

from procsheet.rules.caution import caution, first_in_each_vessel, hazards
from procsheet.rules.words import listed, share

NAME = "acid-irritant"
LEVEL = "CAUTION"
ADVICE = "Stings in the eyes and on the skin: no splash, acid into water and not the other way round; rinse at once, as the data sheet says."


def check(batch):
    limit = batch.limit(NAME)
    mild = [row for row in batch.method.rows if row.material.is_a("acid") and _irritates(row.material)]
    strong = (moment for moment in batch.trace.moments if moment.vessel in batch.method.vessels and _strength(moment, mild) > limit + 1e-9)
    for moment in first_in_each_vessel(strong if mild else ()):
        names = listed(row.name for row in mild if row.code in moment.contents)
        yield caution(NAME, moment, f"Acid: {names}, {share(_strength(moment, mild))} of what {moment.vessel} holds", ADVICE)


def _irritates(material) -> bool:
    told = hazards(material)
    return not material.has("corrosive") and "h314" not in told and (material.kind == "hydroxy acid" or bool({"h315", "h318", "h319"} & told))


def _strength(moment, mild) -> float:
    return sum(moment.contents.get(row.code, 0.0) * row.material.share("acid") for row in mild) / (moment.mass or 1)
