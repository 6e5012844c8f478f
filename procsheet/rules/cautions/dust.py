"""A powder that dusts goes into a vessel.

Why it matters
    Fine powder is breathed in, settles everywhere, and many of them burn as a cloud.

Wrong
    phase B: powder
        5 %  titanium dioxide
    method
        add B to main

Right
    phase B: polyol
        5 %  glycerin
    method
        add B to main

Limits
    Once a vessel and powder, from 1 g on; what goes in at one step is told together, with its weight.

Needs
    dust

Source
    the materials' data; the safety data sheets and the plant's own procedures decide
"""

from procsheet.model.material import SOLID
from procsheet.rules.caution import caution, entering, told

NAME = "dust"
LEVEL = "CAUTION"
ADVICE = "Tip it low and slowly, with the extraction on; no flame or spark near a cloud of it. Wipe up, do not blow."


def check(batch):
    seen: set = set()
    least = batch.limit(NAME)
    for moment in batch.trace.moments:
        rows = entering(moment, _dusts, seen)
        if rows and not 0 < sum(moment.added.get(row.code, 0.0) for row in rows) < least:
            yield caution(NAME, moment, f"Dust of {told(moment, rows)}", ADVICE)


def _dusts(material) -> bool:
    return (material.has("dust") or material.is_a("powder that dusts")) and (material.text("form") in SOLID or not material.has("form"))
