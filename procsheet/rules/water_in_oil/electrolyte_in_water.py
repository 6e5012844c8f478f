"""The salt that a water-in-oil emulsion stands on does not go into its water first.

Why it matters
    Salt that comes when the drops are made, or lies in the oil when the water comes, does not reach the water in them: it stays as
    crystals, and the emulsion is as weak as without it.

Wrong
    type water-in-oil emulsion
    phase B: oils
        20 %  caprylic/capric triglyceride
        4 %  sorbitan oleate
    phase C: salt
        0.8 %  magnesium sulfate heptahydrate
    method
        charge B into side
        add main to side slowly, over 20 min
        add C to side
        transfer side to main

Right
    type water-in-oil emulsion
    phase B: oils
        20 %  caprylic/capric triglyceride
        4 %  sorbitan oleate
    phase C: salt
        0.8 %  magnesium sulfate heptahydrate
    method
        charge B into side
        dissolve C in main
        add main to side slowly, over 20 min
        transfer side to main

Exceptions
    More salt later, where the water already carried enough when it met the oil: a preservative or an active that is a salt.

Limits
    Enough is what `electrolyte-needed` asks at least.

Source
    common practice, no source
"""

from procsheet.findings import Finding, Label
from procsheet.rules.words import share

NAME = "electrolyte-in-water"
LEVEL = "WARN"
WHY = "It does not reach the water in the drops: it stays as crystals in the oil, and the drops merge as if there were none."


def check(batch):
    if not batch.makes_water_in_oil:
        return
    late = {one.row.code: (one, *fault) for one in batch.trace.exposures if one.material.is_a("electrolyte") and not one.material.is_a("preservative") and (fault := missed(batch, one))}
    in_time = sum(batch.of_batch(row, "electrolyte") for row in batch.method.rows if row.code not in late and not row.material.is_a("preservative"))
    if in_time < batch.limit("electrolyte-needed", "at least"):
        for one, moment, how in late.values():
            yield _finding(batch, one.row, moment, how)


def missed(batch, exposure):
    """The moment a salt and the emulsion meet, and how it missed the water; None where it was in the water by then."""
    code = exposure.row.code
    for moment in batch.trace.path(exposure.moment):
        if code not in moment.before and batch.is_joined(moment.before):
            return moment, f"goes into {moment.vessel} after the water has met the oil"
        if batch.is_joined(moment.contents):
            return (exposure.moment if exposure.moment.vessel == moment.vessel else moment, f"lies in the oil of {moment.vessel} when the water comes") if _in_oil(batch, code, moment.before) else None
    return None


def _in_oil(batch, code: str, held: dict[str, float]) -> bool:
    """Whether a vessel of oil holds the salt, and no water to dissolve it."""
    return code in held and batch.trace.weight(held, "water") - held[code] < held[code] and batch.trace.weight(held, "oil", "silicone") > held[code]


def _finding(batch, row, moment, how) -> Finding:
    return Finding(LEVEL, NAME, f"{share(batch.of_batch(row))} of {row.name} {how}", Label(moment.span, "it goes in here" if any(portion.row is row for portion in moment.entering) else "the salt and the emulsion meet"),
                   (Label(row.span, "the salt that holds the drops"),), WHY,
                   f"Dissolve {row.name} in the water phase until clear, in a step before the water goes into the oil.",
                   batch.source(NAME), material=row.name, step=moment.step.number)
