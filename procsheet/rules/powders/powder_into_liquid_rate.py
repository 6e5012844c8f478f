"""Much powder goes into a liquid faster than it is wetted, or nothing says how.

Why it matters
    Powder tipped in one go floats, shuts air in and wets only on its outside: lumps with a dry heart, which the mill has to find one by one. In a big kettle
    it also raises a cloud of dust over the manhole.

Wrong
    type suspension
    phase B: powder
        25 %  kaolin
    method
        add B to main at once with turbine

Right
    type suspension
    phase B: powder
        25 %  kaolin
    method
        add B to main, in portions, sprinkled, with turbine

Limits
    A powder that dusts, from 5 % of what the vessel then holds on. `at once` and `quickly` are a warning; from 20 kg of batch on, a hint where neither time, rate,
    portions nor sprinkling is said and the powder is a fifth of the vessel or more.

Exceptions
    Powder charged into an empty vessel with its liquid; blends of powders; powder sucked in below the surface under vacuum. Gums are the
    matter of `gum-predisperse`. For dust in the air the caution `dust` and the safety data sheets decide.

Source
    common practice, no source
"""

from procsheet.findings import LOWER, Finding, Label
from procsheet.rules.words import listed, share

NAME = "powder-into-liquid-rate"
LEVEL = "WARN"
FAST = ("at once", "quickly")
SLOW = ("slowly", "very slowly", "in portions", "sprinkled", "over", "rate", "one at a time", "in order", "into the vortex", "each for", "each until",
        "drop by drop", "below the surface", "by hand", "during", "within")
OTHER_RULE = ("gum", "carbomer", "thickener of water")
WHY = "It floats, shuts air in and wets only on its outside: lumps with a dry heart, which the mill has to find one by one. In a big kettle it dusts."


def check(batch):
    if batch.type == "powder":
        return
    for moment in batch.trace.moments:
        powders = {portion.row.code: portion.row for portion in moment.entering if portion.row.material.is_a("powder that dusts") and not portion.row.material.is_a(*OTHER_RULE)}
        mass = sum(moment.added.get(code, 0.0) for code in powders)
        part = mass / moment.mass if moment.before and moment.mass else 0.0
        level = _level(batch, moment, part)
        if powders and level is not None:
            yield _finding(batch, moment, list(powders.values()), part, level)


def _level(batch, moment, part: float) -> str | None:
    if moment.step.has(*FAST):
        return LEVEL if part >= batch.limit(NAME, "of the vessel: a warning") else None
    big = batch.plan.mass >= batch.limit(NAME, "batch")
    return LOWER[LEVEL] if big and part >= batch.limit(NAME, "of the vessel: a hint") and not moment.step.has(*SLOW) else None


def _finding(batch, moment, rows, part, level) -> Finding:
    names = listed(row.name for row in rows)
    clause = moment.step.clause(*FAST)
    title = f"{names}, {share(part)} of what {moment.vessel} then holds, {'goes in in one go' if level == LEVEL else 'goes in, and nothing says how fast'}"
    return Finding(level, NAME, title, Label(clause.span if clause else moment.span, "faster than it is wetted" if level == LEVEL else "how fast?"),
                   tuple(Label(row.span, "powder") for row in rows[:3]), WHY,
                   f"Write in line {moment.span.line}: in 4 portions, sprinkled, each until wetted, with the tool running.", batch.source(NAME),
                   material=rows[0].name if len(rows) == 1 else "", step=moment.step.number)
