"""Solid potash makes soap, and nothing says how much of it is potash.

Why it matters
    Flakes of potassium hydroxide hold 10 to 15 % water, and draw more from the air. A recipe reckoned for pure potash then leaves a tenth of the fat
    unsaponified: the soap is cloudy and separates. One reckoned for 90 %, made with a purer lot, is left with free lye.

Wrong
    product Liquid Soap
    type soap
    basis 1 kg
    phase A: fats
        200 g  olive oil
    phase B: lye
        42 g       potassium hydroxide
        to 100 %   purified water
    vessel pot
    vessel jug
    method
        charge "purified water" into jug
        dissolve "potassium hydroxide" in jug slowly
        charge A into pot
        heat pot to 70 °C
        add jug to pot slowly with stick blender
        fill pot

Right
    product Liquid Soap
    type soap
    basis 1 kg
    phase A: fats
        200 g  olive oil
    phase B: lye
        38 g as pure  potassium hydroxide
        to 100 %      purified water
    override "potassium hydroxide" assay 90 % because "certificate of the lot"
    vessel pot
    vessel jug
    method
        charge "purified water" into jug
        dissolve "potassium hydroxide" in jug slowly
        charge A into pot
        heat pot to 70 °C
        add jug to pot slowly with stick blender
        fill pot

Limits
    Solid potassium hydroxide from 1 % of the batch on, where there is fat to turn into soap. With `as pure` and an assay from memory a hint.

Exceptions
    A name or a remark that says how strong it is: `potassium hydroxide 85 %`. An assay from the house's data or an override. Caustic soda, which is
    sold at 98 % and more. Solutions, whose strength is their name.

Needs
    assay

Source
    public threads and teaching pages; common practice, no source, for 1 %
"""

from procsheet.findings import Finding, Label
from procsheet.model.material import SOLID
from procsheet.rules.words import share, weight

NAME = "alkali-assay"
LEVEL = "WARN"
HINT = "NOTE"
WHY = "Potash flakes hold 10 to 15 % water. Reckoned as pure they leave fat that is not soap, and a purer lot than was meant leaves free lye."


def check(batch):
    if not any(row.material.is_a("saponifiable") for row in batch.method.rows):
        return
    for row in batch.method.rows:
        if row.material.is_a("base") and row.material.is_a("potassium salt") and row.material.text("form") in SOLID and row.kind == "figure":
            if batch.of_batch(row) >= batch.limit(NAME, "counts") and not _is_said(row):
                yield _finding(batch, row)


def _is_said(row) -> bool:
    figure = row.material.figure("assay")
    return figure is not None and not figure.from_memory or "%" in row.name or "%" in row.remark


def _finding(batch, row) -> Finding:
    figure = row.material.figure("assay")
    assumed = f"{share(figure.value.low)} is assumed" if figure is not None else "no figure is known"
    pure = row.written.as_pure
    sure = f'override "{row.name}" assay {share(figure.value.low) if figure is not None else "90 %"} because "certificate of the lot"'
    amount = row.amount if row.measured == "mass" and row.amount else row.mass
    return Finding(HINT if pure else LEVEL, NAME, f"{weight(float(amount))} of {row.name}: how strong it is is not said; {assumed}",
                   Label(row.span, "how strong?"), (), WHY, f"Write the lot's own figure behind the phases: {sure}." + ("" if pure else " And `as pure` in the row, if it was reckoned for pure potash."),
                   f"{batch.source(NAME)}; data of {row.material.name}: assay {figure.told if figure is not None else 'not known'}", material=row.name)
