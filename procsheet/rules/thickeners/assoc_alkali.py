"""An alkali-swellable copolymer gets no alkali, too little, or too early.

Why it matters
    It is sold as a thin acid milk. Alkali opens it at pH 6.5 and above, best at the end, in the diluted surfactant. Without alkali it stays
    thin; put into water that is alkaline already it clots where it falls.

Wrong
    type surfactant solution
    phase B: copolymer
        6 %  acrylates copolymer 30 % emulsion
    phase C: surfactant
        30 %  sodium laureth sulfate 27 % solution
    method
        add B to main with paddle
        add C to main with paddle

Right
    type surfactant solution
    phase B: copolymer
        6 %  acrylates copolymer 30 % emulsion
    phase C: surfactant
        30 %  sodium laureth sulfate 27 % solution
    phase D: base
        as needed, about 0.8 %, at most 2 %  sodium hydroxide 18 % solution
    method
        add B to main with paddle
        add C to main with paddle
        neutralise main with D until pH 6.5-7

Limits
    pH 6 of the finished product, or the copolymer's own; a batch that was at pH 6.5 before may go back to a lower one.

Exceptions
    Copolymers whose data stand lower. Any base, amine, carbonate or soap in the formula opens it.

Needs
    pH, needs

Source
    from memory
"""

from procsheet.findings import Finding, Label
from procsheet.intervals import BEYOND, above, below
from procsheet.rules import ph, polymers
from procsheet.rules.words import listed, share

NAME = "assoc-alkali"
LEVEL = "WARN"
OPENS = ("base", "neutraliser", "amine", "soap", "carbonate", "borate")
WHY = "It is a thin acid milk until alkali opens it: without alkali it stays thin, and in water that is alkaline already it clots where it falls."


def check(batch):
    for one in batch.trace.exposures:
        if polymers.is_alkali_swellable(one.material):
            found = _shut(batch, one) or _early(batch, one) or _acid(batch, one)
            if found is not None:
                yield found
                return


def _shut(batch, one):
    if any(row.material.is_a(*OPENS) or not row.material.known for row in batch.method.rows) or batch.method.as_material:
        return None
    return _finding(batch, one.row, Label(one.row.span, "stays shut without alkali"), f"{share(batch.of_batch(one.row))} of {one.row.name}, and no base in the formula to open it", (),
                    "Give the formula a base, `as needed`, and put at the end: neutralise main with it until pH 6.5-7.5.", one.moment)


def _early(batch, one):
    bases = [row for row in batch.trace.holds(one.moment, "base", "neutraliser", before=True)]
    if not bases or one.moment.step.verb == "neutralise":
        return None
    return _finding(batch, one.row, Label(one.moment.span, "clots where it falls"), f"{one.row.name} goes into {one.moment.vessel}, where {listed(row.name for row in bases)} is already in",
                    tuple(Label(row.span, "the base") for row in bases), f"Add {one.row.name} to the water or the diluted surfactant first, and the base last.", one.moment)


def _acid(batch, one):
    """The pH it goes out with, where it was never open."""
    figure = one.material.figure("pH")
    limit = min(figure.value.low, batch.limit(NAME, "it is thin")) if figure else batch.limit(NAME, "it is thin")
    was_open = any(above(said.value, batch.limit(NAME, "it is open") - 1e-3) == BEYOND for said in ph.stated(batch, one.row) if said.moment is not None)
    said = next((said for said in ph.final(batch, one.row) if below(said.value, limit) == BEYOND), None)
    if said is None or was_open:
        return None
    return _finding(batch, one.row, said.place, f"the product with {one.row.name} is at pH {ph.figure(said.value)}; it opens from pH {limit:.3g} on", (Label(one.row.span, "thin in acid"),),
                    f"Bring it to pH 6.5-7.5 at the end; where the product is to be more acid, open {one.row.name} first and go back, or take a gum.", said.moment)


def _finding(batch, row, place, title, also, fix, moment) -> Finding:
    return Finding(LEVEL, NAME, title, place, also, WHY, fix, batch.source(NAME), material=row.name, step=moment.step.number if moment is not None else 0)
