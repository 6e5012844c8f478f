"""A retinoid goes into water, stands in acid, or nothing keeps air from it.

Why it matters
    Retinol and its kin dissolve in oil alone: in water they float as a film on the wall, and air takes them within days. Acid and air destroy
    them in the cream as well, and nobody sees it before the assay.

Wrong
    type gel
    phase B: active
        0.5 %  retinol 10 % in oil
        0.2 %  tocopherol
    method
        add "retinol 10 % in oil" to main with propeller
        add "tocopherol" to main with propeller

Wrong
    phase B: oils
        8 %    caprylic/capric triglyceride
        4 %    glyceryl stearate (and) PEG-100 stearate
    phase C: active
        1 %    retinol 10 % in oil
    method
        heat main to 75 °C
        charge B into side
        heat side to 75 °C
        emulsify side into main with homogeniser
        cool main to 35 °C
        add C to main

Right
    phase B: oils
        8 %    caprylic/capric triglyceride
        4 %    glyceryl stearate (and) PEG-100 stearate
    phase C: active
        1 %    retinol 10 % in oil
        0.2 %  tocopherol
    method
        heat main to 75 °C
        charge B into side
        heat side to 75 °C
        emulsify side into main with homogeniser
        cool main to 35 °C
        blanket main with nitrogen
        add C to main

Limits
    A tenth of oil, emulsifier or alcohol in the vessel it goes into, beside the retinoid's own. A pH below its own range by half a unit is a warning. No
    antioxidant in the formula is a hint, and so is no nitrogen, vacuum or lid from where it goes in.

Exceptions
    Encapsulated retinoids. Grades that are sold in a solubiliser. One of the two, antioxidant or nitrogen, is enough for no hint.

Needs
    pH

Source
    from memory
"""

from procsheet.findings import Finding, Label
from procsheet.intervals import BEYOND, below
from procsheet.rules import ph
from procsheet.rules.batch import gravest
from procsheet.rules.words import share

NAME = "retinoid-oil"
LEVEL = "WARN"
HINT = "NOTE"
DISSOLVES = ("oil phase", "silicone phase", "emulsifier", "alcohol", "solvent")
SOLUBLE = "water"                       # of a grade that is sold in a solubiliser
WHY = "It dissolves in oil alone, and air and acid destroy it: what floats on water or stands in air is gone before the first assay."


def check(batch):
    for row in batch.method.rows:
        if row.material.is_a("retinoid"):
            found = gravest((_in_water(batch, row), _in_acid(batch, row), _in_air(batch, row)))
            if found is not None:
                yield found


def _in_water(batch, row) -> Finding | None:
    for exposure in batch.trace.exposures:
        moment = exposure.moment
        if exposure.row.code != row.code or SOLUBLE in row.material.words("dissolves in") or "polysorbate" in row.name or not batch.trace.watery(moment.contents):
            continue
        others = sum(moment.contents[one.code] for one in batch.trace.holds(moment, *DISSOLVES) if not one.material.is_a("retinoid", "antioxidant", "perfume", "preservative"))
        if moment.mass and others < batch.limit(NAME, "dissolves it") * moment.mass:
            return Finding(LEVEL, NAME, f"{row.name} goes into {moment.vessel}, which is water: it dissolves in oil alone", Label(moment.span, "floats on water"),
                           (Label(row.span, "dissolves in oil"),), WHY,
                           f"Take it out of line {moment.span.line}: dissolve it in an oil or a solubiliser with its antioxidant, and add that to an emulsion.",
                           batch.source(NAME, "dissolves it"), material=row.name, step=moment.step.number)
    return None


def _in_acid(batch, row) -> Finding | None:
    figure = row.material.figure("pH")
    for said in ph.final(batch, row):
        if figure is not None and below(said.value, figure.value.low - batch.limit(NAME, "below its range")) == BEYOND:
            wanted = ph.figure(figure.value)
            return ph.told(batch, NAME, LEVEL, row, said, f"at pH {wanted}", WHY, f"Bring the product to pH {wanted}, in the adjusting step and in the limits.",
                           f"data of {row.material.name}: pH {figure.told}")
    return None


def _in_air(batch, row) -> Finding | None:
    held = [moment for moment in batch.trace.moments if row.code in moment.contents]
    kept = any(moment.cover in ("nitrogen", "vacuum") or moment.closed for moment in held)
    if not held or kept or any(one.material.is_a("antioxidant") or not one.material.known for one in batch.method.rows):
        return None
    line = held[0].span.line
    return Finding(HINT, NAME, f"{share(batch.of_batch(row))} of {row.name} has neither an antioxidant nor nitrogen", Label(row.span, "air destroys it"), (Label(held[0].span, "goes in here"),), WHY,
                   f"Add 0.05 % BHT or 0.2 % tocopherol with it, and write `under nitrogen` from line {line} on.", batch.source(NAME, "dissolves it"), material=row.name, step=held[0].step.number)
