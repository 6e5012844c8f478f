"""A preservative or phenol that iron colours, beside iron.

Why it matters
    Dehydroacetic acid, salicylic acid, hydroxamic acid and phenols turn yellow to brown or violet with iron, which clays and iron oxides
    bring in plenty. The shade walks in the jar.

Wrong
    type suspension
    phase B: clay
        5 %  bentonite
    phase C: keeping
        0.5 %  dehydroacetic acid

Right
    type suspension
    phase B: clay
        5 %  bentonite
    phase C: keeping
        0.5 %  dehydroacetic acid
    phase D: chelator
        0.1 %  disodium EDTA

Limits
    Any dose of both in one vessel with water, where no chelator is in the batch; citric acid, which is there for the pH, is none.

Exceptions
    Products without water; coated pigments; dark shades, where nobody sees it: sign for it.

Needs
    never with iron

Source
    supplier table of preservatives
"""

from procsheet.findings import Finding, Label
from procsheet.rules.ph import meeting

NAME = "iron-discolour"
LEVEL = "NOTE"
WET = 0.05                              # of the vessel: with less water nothing walks (common practice, no source)
WHY = "Iron makes a yellow, brown or violet dye of it. The shade walks in the jar, first where air gets in."


def check(batch):
    rows = [row for row in batch.method.rows if not row.optional]
    irons = [row for row in rows if row.material.is_a("iron") and not row.material.is_a("coated")]
    if not irons or any(row.material.is_a("chelator") and row.material.kind != "acid" for row in rows):
        return
    for row in rows:
        moment = meeting(batch, row, irons[0]) if "iron" in row.material.words("never with") else None
        if moment is not None and any(batch.watery(one.contents) > WET * one.mass for one in batch.trace.path(moment)):
            yield Finding(LEVEL, NAME, f"{row.name} meets the iron of {irons[0].name}, and no chelator is in the batch", Label(row.span, "iron colours it"),
                          (Label(irons[0].span, "brings iron"), Label(moment.span, "they meet here")), WHY,
                          "Put 0.05 to 0.2\u00a0% of a chelator into the water first; or take a preservative that iron does not colour.", f"data of {row.material.name}",
                          material=row.name, step=moment.step.number)
            return
