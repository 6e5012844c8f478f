"""Natural oils are more than half of the oil that a glyceryl ester is to hold water in.

Why it matters
    Plant oils and triglycerides are more polar than the film of such an emulsifier likes: they dissolve it away from the drops. Half of the oil as
    hydrocarbon, silicone or a light ester keeps it where it is needed.

Wrong
    type water-in-oil emulsion
    phase B: oils
        30 %  sunflower oil
        4 %  glyceryl oleate
    method
        charge B into side
        add main to side slowly, over 20 min with homogeniser
        transfer side to main

Right
    type water-in-oil emulsion
    phase B: oils
        12 %  sunflower oil
        18 %  mineral oil
        4 %  glyceryl oleate
    method
        charge B into side
        add main to side slowly, over 20 min with homogeniser
        transfer side to main

Limits
    Half of the oil phase without the emulsifier.

Exceptions
    Emulsifiers of another class, or one of this class that is less than half of the emulsifier.

Source
    supplier page on a glyceryl oleate emulsifier
"""

from procsheet.findings import Finding, Label
from procsheet.rules.water_in_oil.acid_and_salt_sensitive import of_class
from procsheet.rules.words import listed, share

NAME = "ester-share"
LEVEL = "NOTE"
NATURAL = ("plant oil", "triglyceride", "butter")
NEARLY = 1e-9
WHY = "Natural oils dissolve such an emulsifier away from the drops: the cream is soft, and sweats in the warmth."


def check(batch):
    main = of_class(batch) if batch.is_water_in_oil else None
    if main is None:
        return
    oils = [row for row in batch.method.rows if batch.trace.affinities[row.code] in ("oil", "silicone") and not row.material.is_a("emulsifier", "perfume", "preservative")]
    natural = [row for row in oils if row.material.is_a(*NATURAL)]
    total = sum(map(batch.of_batch, oils))
    part = sum(map(batch.of_batch, natural)) / total if total else 0.0
    if part > batch.limit(NAME) + NEARLY:
        most = max(natural, key=batch.of_batch)
        yield Finding(LEVEL, NAME, f"{share(part)} of the oil is {listed(row.name for row in natural)}; {main.name} holds best with half of it or less", Label(most.span, "most of it"),
                      (Label(main.span, "the emulsifier"),), WHY, f"Take a hydrocarbon, a silicone or a light ester for a part of {most.name}.", batch.source(NAME), material=most.name)
