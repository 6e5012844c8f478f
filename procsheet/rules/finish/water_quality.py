"""Tap water goes into the product.

Why it matters
    Lime takes the foam from soap and anionic surfactants and thins carbomer; chlorine and iron move colour and odour; germs come along.

Wrong
    phase B: water
        20 %  tap water
    method
        add B to main

Right
    phase B: water
        20 %  purified water
    method
        add B to main

Limits
    Any row whose data are those of potable, tap, spring or mineral water. What the purified water of a plant is worth - germs, the age of a
    tank - no method says: it is not judged.

Source
    common practice, no source
"""

from procsheet.findings import Finding, Label

NAME = "water-quality"
LEVEL = "NOTE"
WHY = "Lime takes the foam from soap and surfactants and thins carbomer; chlorine and iron move colour and odour; germs come along."


def check(batch):
    for row in batch.method.rows:
        if row.material.is_a("water") and row.material.is_a("divalent salt"):
            yield Finding(LEVEL, NAME, f"{row.name} goes into the product", Label(row.span, "holds lime and germs"), (), WHY,
                          "Write purified water; or, where this water is what sells the product, test it as a raw material: hardness, germs, iron.",
                          "common practice (practice)", material=row.name)
