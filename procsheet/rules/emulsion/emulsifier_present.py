"""An emulsion is made with no emulsifier in either phase, with too weak a one, or with one that goes in afterwards.

Why it matters
    Without an emulsifier the drops run together as soon as the stirrer stops. One that comes later finds the phases parted.

Wrong
    phase B: oils
        10 %  caprylic/capric triglyceride
        4 %  cetearyl alcohol
        2 %  white beeswax
    method
        charge B into side
        heat side to 75 °C
        heat main to 75 °C
        add side to main with homogeniser

Wrong
    phase B: oils
        10 %  caprylic/capric triglyceride
        4 %  cetearyl alcohol
    phase C: late
        3 %  polysorbate 60
    method
        charge B into side
        heat side to 75 °C
        heat main to 75 °C
        add side to main with homogeniser
        cool main to 40 °C with anchor
        add C to main

Right
    phase B: oils
        10 %  caprylic/capric triglyceride
        4 %  cetearyl alcohol
        3 %  polysorbate 60
    method
        charge B into side
        heat side to 75 °C
        heat main to 75 °C
        add side to main with homogeniser

Limits
    What is in the vessel by the first high shear after the phases meet, or, without any, when they meet. With water outside an
    emulsifier below HLB 6 is too weak alone; fatty alcohol, beeswax and gums are no emulsifiers. A carbomer, clay or protein beside
    nothing else, or an emulsifier whose HLB is only remembered, makes it a warning. One that comes late is a warning where the batch is
    homogenised again.

Exceptions
    Soap that is made in the batch, beeswax with borax. Emulsifying polymers, acacia; lanolin with oil outside. A material that nothing
    is known of, or that has no amount yet, may be the emulsifier; a weak emulsifier for water outside in an emulsion with oil outside
    is another rule's.

Needs
    HLB

Source
    common practice, no source; supplier's list of HLB, for which are too weak
"""

from procsheet.findings import Finding, Label
from procsheet.intervals import BEYOND
from procsheet.rules.batch import judge
from procsheet.rules.drops import joining, makes_soap, sheared_first
from procsheet.rules.words import listed
from procsheet.trace.trace import HIGH

NAME = "emulsifier-present"
LEVEL = "STOP"
ANYWAY = ("surfactant", "soap", "self-emulsifying", "polymeric emulsifier", "inverse emulsion polymer", "holds drops")
STANDS = ("carbomer", "clay", "organoclay", "protein")                                # oil may stand in what they make, for a while
WHY = "Without an emulsifier the drops run together as soon as the stirrer stops: the oil stands on top of the water the next morning."


def check(batch):
    joined = joining(batch)
    if joined is None:
        return
    made, soap = sheared_first(batch, joined), makes_soap(batch)
    there = [batch.graph.rows[code] for code in made.contents if code in batch.graph.rows]
    if soap and batch.trace.holds(made, "base", "borate") or any(holds(batch, row) for row in there) or any(_may_be(batch, row) for row in batch.method.rows if row in there or row.kind == "open"):
        return
    late = next((moment for moment in batch.trace.later(made) if any(holds(batch, batch.graph.rows[code]) for code in moment.added if code in batch.graph.rows)), None)
    if late is not None:
        yield _late(batch, joined, late)
    elif not soap:                                          # soap-in-situ tells of a base that comes too late
        yield _none(batch, joined, there)


def holds(batch, row) -> bool:
    """Whether a material can hold the drops of this emulsion."""
    material = row.material
    if material.is_a(*ANYWAY):
        return True
    if batch.makes_water_in_oil:
        return material.share("emulsifier") > 0 or material.is_a("takes up water")
    if material.is_a("emulsifier"):
        return not material.is_a("w/o emulsifier") and not _weak(batch, row)
    return material.share("o/w emulsifier") > 0


def _weak(batch, row) -> bool:
    """An emulsifier for the other direction, or one that only helps another."""
    figure = row.material.figure("HLB")
    charged = row.material.text("ionic") in ("anionic", "cationic")
    return row.material.is_a("w/o emulsifier") or figure is not None and not charged and figure.value.high < batch.limit(NAME, "HLB")


def _may_be(batch, row) -> bool:
    """An oil that nothing is known of, or an emulsifier whose amount is still open."""
    if row.material.known:
        return row.kind == "open" and holds(batch, row)
    return batch.trace.affinities[row.code] in ("oil", "silicone") or row.kind == "open"


def _none(batch, joined, there) -> Finding:
    weak = [row for row in there if row.material.is_a("emulsifier")]
    stands = [row for row in there if row.material.is_a(*STANDS)]
    figure = next((row.material.figure("HLB") for row in weak if row.material.figure("HLB") is not None), None)
    unknown = [row for row in there if not row.material.known]
    level = judge(LEVEL, BEYOND, figure, factor=1.0) if not stands and not unknown else "WARN"
    phase = max(batch.method.phases, key=lambda one: sum(joined.contents.get(row.code, 0.0) for row in one.rows if batch.trace.affinities[row.code] in ("oil", "silicone")))
    names = listed(row.name for row in weak)
    title = (f"{names} alone cannot hold the oil in drops: {_told(weak)}" if weak else
             f"nothing emulsifies: neither phase of this {batch.type} brings an emulsifier")
    title += f"; {listed(row.name for row in unknown)} is not known and may be one" if unknown else ""
    also = [Label(row.span, "thickens, and does not emulsify") for row in stands[:2]] + [Label(joined.span, "the phases meet here")]
    fix = (f"Add to phase {phase.letter} an emulsifier {'for oil outside' if batch.makes_water_in_oil else 'of HLB 10 or more'}, a quarter of the oil is usual"
           f"{', beside ' + names if weak else ''}.")
    return Finding(level, NAME, title, Label(weak[0].span, "too weak alone") if weak else Label(phase.span, "no emulsifier in it"), tuple(also), WHY, fix,
                   f"data of {weak[0].material.name}: HLB {figure.told}" if figure else "common practice (practice)", material=weak[0].name if weak else "")


def _told(weak) -> str:
    figures = [figure for row in weak if (figure := row.material.figure("HLB")) is not None]
    return f"its HLB is {figures[0].written}" if figures else "it wants the oil outside"


def _late(batch, joined, late) -> Finding:
    rows = [batch.graph.rows[code] for code in late.added if code in batch.graph.rows and holds(batch, batch.graph.rows[code])]
    again = any(moment.shear.rank.low >= HIGH for moment in batch.trace.path(late))
    names = listed(row.name for row in rows)
    return Finding("WARN" if again else LEVEL, NAME, f"{names}, the emulsifier, goes in only after the phases have met", Label(late.span, "too late"),
                   (Label(joined.span, "the phases meet here, without it"), *(Label(row.span) for row in rows)), WHY,
                   f"Take {names} out of line {late.span.line}, and put it into one of the phases before line {joined.span.line}.",
                   "common practice (practice)", material=rows[0].name, step=late.step.number)
