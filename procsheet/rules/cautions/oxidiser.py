"""Peroxide, bleach or another oxidiser is weighed in.

Why it matters
    It gives off oxygen or worse with dirt, metal, alcohol and oil, and bursts what is closed tight.

Wrong
    phase B: peroxide
        12 %  hydrogen peroxide 35 % solution
    method
        add B to main

Right
    phase B: polyol
        12 %  glycerin
    method
        add B to main

Limits
    Any oxidiser of 5 % strength or more as supplied, where it goes in. Once a vessel and material.

Source
    common practice, no source; the safety data sheets and the plant's own procedures decide
"""

from procsheet.model.material import SOLID
from procsheet.rules.caution import caution, entering, told

NAME = "oxidiser"
LEVEL = "CAUTION"
ADVICE = "Clean vessel, no metal that rusts, nothing oily or acid near it; nothing that holds it is closed tight. What is spilt is rinsed away, not wiped up."


def check(batch):
    seen: set = set()
    least = batch.limit(NAME) - 1e-9
    for moment in batch.trace.moments:
        if rows := entering(moment, lambda material: _oxidises(material, least), seen):
            yield caution(NAME, moment, f"Oxidiser: {told(moment, rows)}", ADVICE)


def _oxidises(material, least: float) -> bool:
    return material.is_a("oxidiser") and (material.text("form") in SOLID or float(material.assay or 1) >= least)
