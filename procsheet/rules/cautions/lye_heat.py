"""Solid or strong alkali goes into water and heats it.

Why it matters
    Lye boils up by its own heat where it is made too strong, too fast or in warm water, and throws caustic drops.

Wrong
    phase B: lye
        4 %  sodium hydroxide
    method
        add B to main in portions

Right
    phase B: lye
        0.3 %  sodium hydroxide
    method
        add B to main in portions

Limits
    A corrosive alkali that is solid, or of 20 % strength or more, where it or its water goes in and makes a lye of 2 % or more. Once a vessel.

Source
    public threads and teaching pages on soap; the safety data sheets and the plant's own procedures decide
"""

from procsheet.model.material import SOLID
from procsheet.rules.caution import caution, first_in_each_vessel
from procsheet.rules.words import listed, share

NAME = "lye-heat"
LEVEL = "CAUTION"
ADVICE = "Alkali into cold water, in portions, stirring; never water onto alkali. Open, nobody over it, and let it cool before it goes on."


def check(batch):
    strong = batch.limit(NAME, "strength")
    alkali = [row for row in batch.method.rows if row.material.is_a("base") and row.material.has("corrosive") and (
        row.material.text("form") in SOLID or float(row.material.assay or 1) >= strong)]
    least = batch.limit(NAME, "alkali in the vessel") - 1e-9
    heating = (moment for moment in batch.trace.moments if _strength(moment, alkali) >= least and _meets_water(batch, moment, alkali))
    for moment in first_in_each_vessel(heating if alkali else ()):
        names = listed(row.name for row in alkali if row.code in moment.contents)
        yield caution(NAME, moment, f"Lye heats itself: {names}, {share(_strength(moment, alkali))} in {moment.vessel}", ADVICE)


def _strength(moment, alkali) -> float:
    """The share of pure alkali in a vessel."""
    return sum(moment.contents.get(row.code, 0.0) * float(row.material.assay or 1) for row in alkali) / (moment.mass or 1)


def _meets_water(batch, moment, alkali) -> bool:
    """Alkali and water come together here, and not in a step before."""
    def is_lye(one) -> bool:
        return any(row.code in one.contents for row in alkali) and bool(batch.trace.holds(one, "water"))
    return is_lye(moment) and not any(is_lye(batch.trace.moments[parent]) for parent in moment.parents)
