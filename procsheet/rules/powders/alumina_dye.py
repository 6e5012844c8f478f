"""A lake or another pigment stands in a pH that strips it or turns its shade.

Why it matters
    A lake is a dye held on alumina. Strong acid or base dissolves the alumina and lets the dye go: it bleeds into the water, stains the skin and the
    shade drifts in the pack. Ultramarine loses its colour and gives off hydrogen sulfide in acid.

Wrong
    type gel
    phase B: shade
        0.2 %  FD&C Blue No. 1 aluminium lake
    phase C: pH
        as needed, about 0.5 %, at most 1 %  citric acid 20 % solution
    method
        disperse B in main with homogeniser
        adjust main to pH 3-3.5 with C

Right
    type gel
    phase B: shade
        0.2 %  FD&C Blue No. 1 aluminium lake
    phase C: pH
        as needed, about 0.2 %, at most 1 %  citric acid 20 % solution
    method
        disperse B in main with homogeniser
        adjust main to pH 5-5.5 with C

Limits
    The pH of the pigment's own data, else 4 to 9 for a lake, in what holds it and in the product. An acid of the formula that nothing takes up
    counts for pigments whose data name acid.

Exceptions
    Oxides without such data. Oil outside, where the pigment lies in the oil. Zinc oxide is the matter of `zno-acid`.

Needs
    pH

Source
    from memory
"""

from procsheet.findings import Finding, Label
from procsheet.intervals import WITHIN, above, below
from procsheet.rules import ph
from procsheet.rules.batch import gravest
from procsheet.rules.words import share

NAME = "alumina-dye"
LEVEL = "WARN"
WHY = "What holds its colour dissolves: it bleeds, stains, and the shade drifts in the pack. Ultramarine gives off hydrogen sulfide in acid: see its safety data sheet."


def check(batch):
    if batch.is_water_in_oil:
        return
    for row in batch.method.rows:
        if row.material.kind == "pigment" and (found := gravest((*_at_a_ph(batch, row), *_with_acid(batch, row)))):
            yield found


def _stands(batch, row) -> tuple[float, float] | None:
    figure = row.material.figure("pH")
    if figure is not None:
        return figure.value.low, figure.value.high
    return (batch.limit(NAME, "at least"), batch.limit(NAME, "at most")) if "lake" in row.material.name or _minds_acid(row) else None


def _minds_acid(row) -> bool:
    return any("acid" in word for word in row.material.words("never with"))


def _at_a_ph(batch, row):
    stands = _stands(batch, row)
    for said in ph.stated(batch, row) if stands else ():
        sides = (below(said.value, stands[0]), above(said.value, stands[1]))
        if sides != (WITHIN, WITHIN):
            least, most = (f"{one:.3g}" for one in stands)
            yield ph.told(batch, NAME, LEVEL, row, said, f"from pH {least} to {most}", WHY, f"Bring it to pH {least}–{most}, or take an oxide in place of {row.name}.",
                          batch.source(NAME))


def _with_acid(batch, row):
    if not _minds_acid(row) or any(True for _ in ph.stated(batch, row)):
        return
    for acid in ph.free_acids(batch):
        moment = ph.meeting(batch, row, acid)
        if moment is not None and batch.of_batch(acid) >= batch.limit(NAME, "acid"):
            yield Finding(LEVEL, NAME, f"{share(batch.of_batch(acid))} of {acid.name} meets {row.name} in {moment.vessel}, and nothing neutralises it",
                          Label(moment.span, "they meet here"), (Label(acid.span, "the acid"), Label(row.span, "minds acid")), WHY,
                          f"Neutralise {acid.name} before line {moment.span.line}, or take an oxide in place of {row.name}.", batch.source(NAME), material=row.name, step=moment.step.number)
