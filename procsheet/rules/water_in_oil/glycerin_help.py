"""A water-in-oil emulsion on a glyceryl ester has little glycerin or glycol in its water.

Why it matters
    Glycerin in the drops brings the water nearer to the oil, in density and in the way it bends light, and helps the film to hold: the drops get
    finer and stand the frost.

Wrong
    type water-in-oil emulsion
    phase B: oils
        30 %  mineral oil
        4 %  glyceryl oleate
    method
        charge B into side
        add main to side slowly, over 20 min with homogeniser
        transfer side to main

Right
    type water-in-oil emulsion
    phase B: oils
        30 %  mineral oil
        4 %  glyceryl oleate
    phase C: water
        4 %  glycerin
    method
        charge B into side
        add C to main
        add main to side slowly, over 20 min with homogeniser
        transfer side to main

Limits
    3 to 5 % of polyols are usual; below 3 % is told.

Exceptions
    Emulsifiers of another class, or one of this class that is less than half of the emulsifier; up to 15 % of water.

Source
    supplier page on a glyceryl oleate emulsifier
"""

from procsheet.findings import Finding, Label
from procsheet.rules.water_in_oil.acid_and_salt_sensitive import of_class
from procsheet.rules.words import share

NAME = "glycerin-help"
LEVEL = "NOTE"
NEARLY = 1e-9
WHY = "Glycerin or glycol in the drops makes them finer and keeps them whole in the frost."


def check(batch):
    main = of_class(batch) if batch.is_water_in_oil else None
    water = sum(batch.of_batch(row) for row in batch.method.rows if batch.trace.affinities[row.code] == "water")
    polyols = [row for row in batch.method.rows if row.material.is_a("polyol")]
    there = sum(map(batch.of_batch, polyols))
    if main is not None and water > batch.limit(NAME, "water in the batch") and there < batch.limit(NAME, "polyol") - NEARLY:
        place = max(polyols, key=batch.of_batch, default=main)
        yield Finding(LEVEL, NAME, f"the water has {share(there)} of polyol; 3–5 % helps {main.name}",
                      Label(place.span, "little of it" if polyols else "the emulsifier it would help"), (), WHY,
                      "Bring glycerin or a glycol to 3–5 % of the batch, in the water phase, at the cost of water.", batch.source(NAME, "polyol"), material=place.name)
