"""The main emulsifier of a water-in-oil emulsion is one that puts the water outside.

Why it matters
    The phase in which the emulsifier dissolves tends to be outside. One of a high HLB dissolves in the water: the batch comes out as an
    oil-in-water emulsion, thin and too full of oil, or it never holds.

Wrong
    type water-in-oil emulsion
    phase B: oils
        20 %  caprylic/capric triglyceride
        4 %  polysorbate 60
    method
        charge B into side
        add main to side slowly, over 20 min with homogeniser
        transfer side to main

Wrong
    type water-in-oil emulsion
    phase B: oils
        20 %  caprylic/capric triglyceride
        4 %  lecithin
    method
        charge B into side
        add main to side slowly, over 20 min with homogeniser
        transfer side to main

Right
    type water-in-oil emulsion
    phase B: oils
        20 %  caprylic/capric triglyceride
        4 %  sorbitan oleate
    method
        charge B into side
        add main to side slowly, over 20 min with homogeniser
        transfer side to main

Limits
    HLB 6, of what makes up more than half of the emulsifier there is when the drops are made. Charged emulsifiers and ready bases for water
    outside count as higher. One whose HLB is only remembered and that is not far above 6 makes it a warning. Lecithin is too weak alone.

Exceptions
    Soap that is made in the batch, beeswax with borax; emulsifying polymers; fats that take up water, such as lanolin. Less than half of it
    is the matter of `no-hydrophile-in-oil`. A material that nothing is known of may be the emulsifier.

Needs
    HLB

Source
    public encyclopaedia and teaching pages on HLB, for 3 to 6 and for lecithin; supplier's list of HLB
"""

from procsheet.findings import Finding, Label
from procsheet.intervals import BEYOND
from procsheet.model.method import Row
from procsheet.rules.batch import judge
from procsheet.rules.drops import joining, makes_soap, sheared_first
from procsheet.rules.words import share

NAME = "wo-hlb"
LEVEL = "STOP"
OTHERWISE = ("polymeric emulsifier", "inverse emulsion polymer", "carbomer", "clay", "organoclay")      # hold drops without an HLB
INWARD = ("w/o emulsifier", "takes up water")
WHY = "The phase in which the emulsifier dissolves tends to be outside: the batch comes out as a thin oil-in-water emulsion, or never holds."


def check(batch):
    inward, outward, weak = sides(batch)
    if _weighs(batch, outward) > _weighs(batch, inward):
        yield _finding(batch, max(outward, key=batch.of_batch), inward)
    elif weak and not inward and not outward:
        yield _finding(batch, weak[0], inward)


def sides(batch) -> tuple[list[Row], list[Row], list[Row]]:
    """The emulsifiers there when the drops of a water-in-oil emulsion are made: for oil outside, for water outside, weak either way; none where it stands on something else."""
    joined = joining(batch) if batch.makes_water_in_oil else None
    if joined is None or makes_soap(batch):
        return [], [], []
    there = [batch.graph.rows[code] for code in sheared_first(batch, joined).contents if code in batch.graph.rows]
    if any(row.material.is_a(*OTHERWISE) and row.material.is_a("emulsifier") or not row.material.known and batch.trace.affinities[row.code] != "water" for row in there):
        return [], [], []
    rows = [row for row in there if row.material.share("emulsifier") or row.material.is_a(*INWARD)]
    sorted_out = {side: [row for row in rows if _side(batch, row) == side] for side in ("inward", "outward", "weak")}
    return sorted_out["inward"], sorted_out["outward"], sorted_out["weak"]


def _side(batch, row) -> str:
    material, figure = row.material, row.material.figure("HLB")
    if material.is_a(*INWARD):
        return "inward"
    if material.text("ionic") == "amphoteric" and not material.is_a("surfactant"):
        return "weak"
    if material.text("ionic") in ("anionic", "cationic") or material.is_a("self-emulsifying", "surfactant", "solubiliser"):
        return "outward"
    return "" if figure is None else "outward" if figure.value.low > batch.limit("wo-hlb") else "inward"


def _weighs(batch, rows) -> float:
    """The share of them in the batch [1]."""
    return sum(batch.of_batch(row, "emulsifier") or batch.of_batch(row) for row in rows)


def _finding(batch, row, inward) -> Finding:
    figure, weak = row.material.figure("HLB"), row.material.text("ionic") == "amphoteric"
    level = LEVEL if weak or figure is None else judge(LEVEL, BEYOND, figure, factor=figure.value.low / batch.limit(NAME))
    told = "too weak alone" if weak else f"HLB {figure.written.removesuffix(' HLB')}" if figure else "one for water outside"
    title = f"{share(batch.of_batch(row))} of {row.name}, {told}, is the {'only' if not inward else 'main'} emulsifier; oil outside asks for HLB 3–6"
    other = "PEG-10 dimethicone" if batch.type == "water-in-silicone emulsion" else "polyglyceryl-3 diisostearate or sorbitan oleate"
    return Finding(level or LEVEL, NAME, title, Label(row.span, "puts the water outside" if not weak else "too weak alone"),
                   tuple(Label(one.span, "puts the oil outside, but there is less of it") for one in inward), WHY,
                   f"Take a water-in-oil emulsifier in its place, such as 3–4 % {other}, or write `type oil-in-water emulsion`.",
                   f"{batch.source(NAME)}; data of {row.material.name}: HLB {figure.told}" if figure else batch.source(NAME), material=row.name)
