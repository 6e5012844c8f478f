"""A multiple emulsion is put under high shear once its outer water is there.

Why it matters
    High shear tears the inner water out of the oil drops: what comes out is a plain emulsion. Too much of an emulsifier for water
    outside does the same slowly.

Wrong
    type multiple emulsion
    phase B: primary oil
        20 %  mineral oil
        4 %  PEG-30 dipolyhydroxystearate
    phase C: inner water
        30 %  purified water
        0.5 %  sodium chloride
    phase D: emulsifier
        0.3 %  polysorbate 80
    method
        add D to main
        charge B into side
        charge C into pail
        add pail to side slowly, over 20 min with homogeniser
        add side to main slowly, over 20 min with homogeniser

Right
    type multiple emulsion
    phase B: primary oil
        20 %  mineral oil
        4 %  PEG-30 dipolyhydroxystearate
    phase C: inner water
        30 %  purified water
        0.5 %  sodium chloride
    phase D: emulsifier
        0.3 %  polysorbate 80
    method
        add D to main
        charge B into side
        charge C into pail
        add pail to side slowly, over 20 min with homogeniser
        add side to main slowly, over 20 min with paddle

Limits
    From the step that brings the outer water on: a high-shear tool is a stop, a stirrer over 3 m/s or stirring fast a warning. Less
    than ten times as much emulsifier for oil outside as for water outside is a hint.

Exceptions
    `briefly` makes a warning of the stop. Polymers that also thicken, such as poloxamer 407, do not count in the ratio.

Source
    two public sources on multiple emulsions, for both; common practice, no source, for the 3 m/s
"""

from procsheet.findings import Finding, Label
from procsheet.rules.batch import gravest
from procsheet.rules.drops import second_stage
from procsheet.rules.words import share
from procsheet.trace.trace import HIGH

NAME = "multiple-emulsion-shear"
LEVEL = "STOP"
FAST = "WARN"
WHY = "High shear tears the inner water out of the oil drops: under the microscope they are empty, and what the inner water carried is outside."


def check(batch):
    stage = second_stage(batch)
    if stage is None:
        return
    yield from filter(None, [gravest(_sheared(batch, stage, moment) for moment in batch.trace.path(stage))])
    yield from _balance(batch, stage)


def _sheared(batch, stage, moment) -> Finding | None:
    tip = moment.shear.tip
    if moment.shear.is_high:
        level = FAST if moment.step.has("briefly") else LEVEL
    elif moment.step.has("fast stirring", "vigorous stirring") or tip is not None and tip.low > batch.limit(NAME, "tip speed"):
        level = FAST
    elif moment.shear.rank.high >= HIGH and moment.shear.rank.missing:
        level = "OPEN"
    else:
        return None
    title = (f"{moment.shear.rank.missing} in line {moment.span.line} is not said, so whether the inner drops stay whole was not checked" if level == "OPEN" else
             f"the finished primary emulsion goes through {moment.shear.told} with the outer water")
    return Finding(level, NAME, title, Label(moment.span, "the inner drops are torn"), (Label(stage.span, "the outer water meets it here"),) if moment is not stage else (), WHY,
                   f"Stir in line {moment.span.line} gently, `with paddle`, below {batch.limit(NAME, 'tip speed'):.2g} m/s; do all high shear on the primary emulsion before.",
                   batch.source(NAME, "of high shear" if level in (LEVEL, "OPEN") else "tip speed"), step=moment.step.number)


def _balance(batch, stage):
    """How much emulsifier for oil outside there is to that for water outside."""
    rows = batch.trace.holds(stage, "emulsifier")
    inward = sum(batch.of_batch(row) for row in rows if row.material.is_a("w/o emulsifier"))
    outward = [row for row in rows if row.material.is_a("o/w emulsifier") and not row.material.is_a("w/o emulsifier", "thickener of water")]
    there = sum(batch.of_batch(row) for row in outward)
    least = batch.limit(NAME, "lipophilic")
    if outward and inward < least * there - 1e-9:
        main = max(outward, key=batch.of_batch)
        yield Finding("NOTE", NAME, f"{share(there)} of emulsifier for water outside stands against {share(inward)} for oil outside; a tenth of it is usual",
                      Label(main.span, "much of it"), (Label(stage.span, "they meet here"),),
                      WHY, f"Bring {main.name} to {share(inward / least)} or less, or take a thickening polymer that emulsifies.", batch.source(NAME, "lipophilic"),
                      material=main.name)
