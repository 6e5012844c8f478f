"""Far more is dissolved in one water of a multiple emulsion than in the other.

Why it matters
    Water goes through the oil to where more is dissolved: the inner drops swell until they burst, or shrink until they are gone. Both
    happen in the drum.

Wrong
    type multiple emulsion
    phase B: primary oil
        20 %  mineral oil
        4 %  PEG-30 dipolyhydroxystearate
    phase C: inner water
        30 %  purified water
        3 %  sodium chloride
    method
        charge B into side
        charge C into pail
        add pail to side slowly, over 20 min with homogeniser
        add side to main slowly, over 20 min with paddle

Right
    type multiple emulsion
    phase B: primary oil
        20 %  mineral oil
        4 %  PEG-30 dipolyhydroxystearate
    phase C: inner water
        30 %  purified water
        0.5 %  sodium chloride
    phase D: outer
        3 %  glycerin
    method
        add D to main
        charge B into side
        charge C into pail
        add pail to side slowly, over 20 min with homogeniser
        add side to main slowly, over 20 min with paddle

Limits
    Salts and polyols, by weight and counted by what their particles weigh: a salt counts one and a half times as much as a polyol. Ten
    times as much per water on one side as on the other, from 0.5 % on the stronger.

Exceptions
    Inner water without any salt: electrolyte-needed tells of that.

Source
    public source on multiple emulsions; common practice, no source, for the figures
"""

from procsheet.findings import Finding, Label
from procsheet.rules.drops import second_stage
from procsheet.rules.words import share

NAME = "multiple-emulsion-osmosis"
LEVEL = "WARN"
SALT = 1.5                              # a salt falls into ions of about 60 g/mol, a polyol is about 90 (common practice, no source)
WHY = "Water goes through the oil to where more is dissolved: the inner drops swell until they burst, or shrink until they are gone, within days in the drum."


def check(batch):
    stage = second_stage(batch)
    if stage is None:
        return
    primary = next((batch.trace.moments[one].contents for one in stage.poured if batch.trace.moments[one].facts.emulsified), stage.before)
    outer = {code: mass - primary.get(code, 0.0) for code, mass in stage.contents.items() if mass > primary.get(code, 0.0) + 1e-12}
    inner_rows, outer_rows = _solutes(batch, primary), _solutes(batch, outer)
    inner, outside = _strength(batch, primary, inner_rows), _strength(batch, outer, outer_rows)
    times = batch.limit(NAME, "as much on one side")
    if not inner_rows or max(inner, outside) < batch.limit(NAME, "dissolved on the stronger") or max(inner, outside) < times * min(inner, outside):
        return
    rows, weaker = (inner_rows, "outer") if inner > outside else (outer_rows, "inner")
    main = max(rows, key=batch.of_batch)
    yield Finding(LEVEL, NAME, f"{_told(batch, primary, inner_rows)} is dissolved in the inner water, and {_told(batch, outer, outer_rows)} in the outer",
                  Label(main.span, "on the stronger side"), (Label(stage.span, "the two waters meet here"),), WHY,
                  f"Dissolve salt or glycerin in the {weaker} water too, until both are about as strong, or bring {main.name} down.",
                  batch.source(NAME, "dissolved on the stronger"), material=main.name)


def _solutes(batch, held):
    rows = (batch.graph.rows[code] for code in held if code in batch.graph.rows)
    return [row for row in rows if row.material.share("electrolyte") or row.material.is_a("polyol")]


def _told(batch, held, rows) -> str:
    """How much is dissolved, by weight, in words."""
    solutes = sum(held[row.code] * (row.material.share("electrolyte") or 1.0) for row in rows)
    water = batch.trace.weight(held, "water")
    return share(solutes / water) if solutes and water else "nothing"


def _strength(batch, held, rows) -> float:
    """What is dissolved to the water, salts counted for their ions."""
    solutes = sum(held[row.code] * (SALT * row.material.share("electrolyte") or 1.0) for row in rows)
    water = batch.trace.weight(held, "water") - sum(held[row.code] for row in rows)
    return solutes / water if water > 0 else 0.0
