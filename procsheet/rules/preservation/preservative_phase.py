"""A preservative salt goes into the oil.

Why it matters
    Benzoate, sorbate and the urea types dissolve in water only. In the oil phase they lie on the bottom as crystals and stay there
    when it is drawn off; what gets into the water does so late and unevenly.

Wrong
    phase B: oils
        10 %  caprylic/capric triglyceride
        4 %  ceteareth-20
        0.5 %  sodium benzoate
    method
        charge B into side
        heat side to 75 °C
        heat main to 75 °C
        add side to main with homogeniser

Right
    phase B: oils
        10 %  caprylic/capric triglyceride
        4 %  ceteareth-20
    phase C: keeping
        0.5 %  sodium benzoate
    method
        dissolve C in main
        charge B into side
        heat side to 75 °C
        heat main to 75 °C
        add side to main with homogeniser

Limits
    From 0.02 % of the batch, where the data say that it dissolves in water only and the vessel holds oil and no water.

Exceptions
    Phenoxyethanol, parabens and free acids, which the oil dissolves and gives on. Oil outside, which preservative-wo tells of. Products
    without water.

Source
    formulators' forum on preservatives
"""

from procsheet.findings import Finding, Label
from procsheet.rules.drops import OILS

NAME = "preservative-phase"
LEVEL = "WARN"
NEARLY = 1e-9
WHY = "It does not dissolve in oil: it lies at the bottom as crystals, stays there when the vessel is emptied, and reaches the water late or never."


def check(batch):
    if batch.is_water_in_oil or not any(row.material.is_a("water") for row in batch.method.rows):
        return
    for one in batch.trace.exposures:
        small = batch.of_batch(one.row) < batch.limit(NAME, "it counts") - NEARLY
        if one.material.is_a("preservative") and one.material.words("dissolves in") == ("water",) and not small and _in_oil(batch, one.moment):
            yield _finding(batch, one)


def _in_oil(batch, moment) -> bool:
    return batch.trace.weight(moment.contents, *OILS) > 0.5 * moment.mass and not batch.watery(moment.contents) > 0.05 * moment.mass


def _finding(batch, one) -> Finding:
    row, moment = one.row, one.moment
    return Finding(LEVEL, NAME, f"{row.name}, which dissolves in water only, goes into the oil in {moment.vessel}", Label(moment.span, "stays undissolved here"),
                   (Label(row.span, "dissolves in water only"),), WHY,
                   f"Take {row.name} out of line {moment.span.line}: dissolve it in the water, or add it to the emulsion when that is cool enough for it.",
                   batch.source(NAME, "counts"), material=row.name, step=moment.step.number)
