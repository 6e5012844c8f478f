"""A water-in-oil emulsion is thickened by something that works in its drops.

Why it matters
    The oil outside decides how thick the cream is. A gum or carbomer in the drops does not hold the oil around them; it pulls drops
    together, and oil bleeds out.

Wrong
    type water-in-oil emulsion
    phase B: oils
        20 %  caprylic/capric triglyceride
        4 %  sorbitan oleate
    phase C: thickener
        0.5 %  xanthan gum

Right
    type water-in-oil emulsion
    phase B: oils
        20 %  caprylic/capric triglyceride
        4 %  sorbitan oleate
        1 %  hydrogenated castor oil

Exceptions
    A little gum in the drops, for slip. Silica thickens both.

Limits
    Where no wax, castor wax, organoclay, metal soap, silica or silicone elastomer thickens the oil, the batch is stopped; beside one
    of them more than 0.2 % is a warning. Up to 0.2 % with nothing in the oil is a hint.

Source
    supplier note on water-in-oil emulsions, for what gums and carbomers do in the drops; supplier page on a glyceryl oleate emulsifier and
    formulators' forum, for what thickens the oil; the figure for slip is common practice, no source
"""

from procsheet.findings import Finding, Label
from procsheet.rules.words import listed, share

NAME = "oil-rheology-only"
LEVEL = "WARN"
ALONE = "STOP"
WHY = "The oil outside decides how thick it is. A thickener in the drops does not hold the oil around them: it pulls drops together, and oil bleeds out."


def check(batch):
    if not batch.is_water_in_oil:
        return
    inside = [row for row in batch.method.rows if row.material.is_a("thickener of water") and not row.material.is_a("thickener of oil") and row.mass]
    outside = [row for row in batch.method.rows if row.material.is_a("thickener of oil", "structures oil")]
    total = sum(batch.of_batch(row, "thickener of water") for row in inside)
    slip = total <= batch.limit(NAME) + 1e-9
    if inside and not (slip and outside):
        yield _finding(batch, inside, outside, total, LEVEL if outside else "NOTE" if slip else ALONE)


def _finding(batch, inside, outside, total, level) -> Finding:
    names = listed(row.name for row in inside)
    main = max(inside, key=lambda row: row.mass)
    beside = f"beside {listed(row.name for row in outside)} in the oil" if outside else "and nothing thickens the oil"
    return Finding(level, NAME, f"{share(total)} of {names} thickens the water in the drops, {beside}", Label(main.span, "works in water only"),
                   tuple(Label(row.span, "works in water only" if row in inside else "thickens the oil") for row in (*inside, *outside) if row is not main), WHY,
                   f"Take {names} out{f', or down to {share(batch.limit(NAME))}' if outside else ''}, and thicken the oil: 0.5–1 % hydrogenated castor oil, "
                   "a wax, or an organoclay gel.",
                   batch.source(NAME), material=main.name)
