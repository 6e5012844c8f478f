"""A chelator comes after what metal spoils.

Why it matters
    Traces of iron and copper from water and vessel start at once on vitamin C, peroxide and phenols. A chelator that follows finds them
    at work: the yellow is there already.

Wrong
    type solution
    phase B: active
        2 %  ascorbic acid
    phase C: chelator
        0.1 %  disodium EDTA
    method
        add B to main
        add C to main

Right
    type solution
    phase B: active
        2 %  ascorbic acid
    phase C: chelator
        0.1 %  disodium EDTA
    method
        add C to main
        add B to main

Limits
    Where a material whose data say `never with iron` or `copper` meets water before the only chelator does.

Exceptions
    Both in one step. A chelator that is already in the vessel it is poured into. Citric acid, which is there for the pH, is none. Alginate
    beads and zinc salts, which a chelator takes apart, go last.

Needs
    never with iron, never with copper

Source
    common practice, no source
"""

from procsheet.findings import Finding, Label

NAME = "chelator-early"
LEVEL = "NOTE"
METALS = {"iron", "copper"}
WHY = "Traces of metal from water and vessel start on it at once: a chelator that follows finds the yellow there already."


def check(batch):
    chelators = [one for one in batch.trace.exposures if _chelates(one)]
    if not chelators:
        return
    for one in batch.trace.exposures:
        if METALS & set(one.material.words("never with")) and not one.material.is_a("chelator", "oxidiser") and (late := _late(batch, one, chelators)):
            yield _finding(one, late)
            return


def _chelates(one) -> bool:
    """A chelator by trade; an acid that binds a little metal is there for the pH."""
    return one.material.is_a("chelator") and one.material.kind != "acid"


def _late(batch, one, chelators):
    """The step that puts the first chelator to it, after the water; None where one was weighed in before."""
    wet = next((moment for moment in batch.trace.path(one.moment) if batch.watery(moment.contents)), None)
    if wet is None or any(map(_chelates, batch.trace.holds(wet, "chelator"))):
        return None
    late = next((moment for moment in batch.trace.later(wet) if any(map(_chelates, batch.trace.holds(moment, "chelator")))), None)
    return late if late is not None and all(other.moment.index >= late.index for other in chelators) else None


def _finding(one, late) -> Finding:
    row = one.row
    return Finding(LEVEL, NAME, f"{row.name} is in the water before the chelator", Label(late.span, "the chelator comes here"),
                   (Label(one.moment.span, f"{row.name} goes in here"), Label(row.span, "metal spoils it")), WHY,
                   f"Dissolve the chelator in the water first, before line {one.moment.span.line}.", f"data of {row.material.name}", material=row.name, step=late.step.number)
