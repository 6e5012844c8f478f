"""Strong alkali or acid is weighed in, or stands in a vessel.

Why it matters
    It attacks skin and eyes at once, and alkali goes on doing so without hurting at first.

Wrong
    phase B: alkali
        2 %  sodium hydroxide 10 % solution
    method
        add B to main

Right
    phase B: acid
        2 %  citric acid 20 % solution
    method
        add B to main

Limits
    A material whose data say `corrosive`, where it goes in; and a vessel that holds 2 % or more of such an alkali, or 10 % of such an acid,
    as pure. Once a vessel.

Needs
    corrosive

Source
    the materials' data; common practice, no source, for the strengths; the safety data sheets and the plant's own procedures decide
"""

from procsheet.rules.caution import caution, entering, hazards, told
from procsheet.rules.words import share

NAME = "corrosive"
LEVEL = "CAUTION"
ADVICE = "Attacks skin and eyes. Into water, slowly, never water onto it; rinse at once and for long, as the data sheet says."


def check(batch):
    seen: set = set()
    attacking = [row for row in batch.method.rows if _attacks(row.material)]
    for moment in batch.trace.moments if attacking else ():
        rows = entering(moment, _attacks, seen)
        row, strength = _strong(batch, moment, attacking)
        if rows:
            yield caution(NAME, moment, f"Corrosive: {told(moment, rows)}", ADVICE)
        elif row is not None and (moment.vessel, row.material.name) not in seen:
            yield caution(NAME, moment, f"Corrosive: {row.name}, {share(strength)} of what {moment.vessel} holds", ADVICE)
        if row is not None:
            seen.add((moment.vessel, row.material.name))


def _attacks(material) -> bool:
    return material.has("corrosive") or "h314" in hazards(material)


def _strong(batch, moment, attacking):
    """The alkali or acid that makes a vessel's content corrosive, and its strength there."""
    for group, word in (("base", "alkali"), ("acid", "acid")):
        rows = [row for row in attacking if row.material.is_a(group) and row.code in moment.contents]
        strength = sum(moment.contents[row.code] * float(row.material.assay or 1) for row in rows) / (moment.mass or 1)
        if rows and strength >= batch.limit(NAME, word) - 1e-9:
            return rows[0], strength
    return None, 0.0
