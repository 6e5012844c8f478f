"""Pearl or mica goes through a mill or high shear.

Why it matters
    Pearl shines because its flakes are flat, smooth and of one size. A rotor, a mill or a roll breaks the flakes and strips their coat: the
    lustre goes grey, and no more pearl brings it back.

Wrong
    type anhydrous
    phase B: base
        20 %  castor oil
    phase C: pearl
        3 %  pearl pigment
    method
        charge B and C into side
        mill side with roll mill
        transfer side to pail

Right
    type anhydrous
    phase B: base
        20 %  castor oil
    phase C: pearl
        3 %  pearl pigment
    method
        charge B into side
        mill side with roll mill
        add C to side with paddle
        transfer side to pail

Limits
    The tip speed in the data of the pearl, usually 5 m/s; a tool of high shear at any speed. Plain mica and the like a warning up to 10 % of the
    batch, where it is there for its sheen, and a hint above, where it is a filler.

Needs
    shear

Source
    common practice, no source; the tip speed from memory
"""

from procsheet.findings import LOWER, Finding, Label
from procsheet.rules.batch import gravest, judge

NAME = "mica-pearl-last"
LEVEL = "WARN"
WHY = "Its flakes break and lose their coat: the lustre goes grey, and no more of it brings the lustre back."


def check(batch):
    found: dict[str, list[Finding]] = {}
    for one in batch.trace.exposures:
        if one.material.is_a("pearlescent", "platelet") and one.material.text("shear") != "any":
            found.setdefault(one.row.code, []).extend(_broken(batch, one))
    yield from filter(None, map(gravest, found.values()))


def _broken(batch, one):
    """Every step that shears the flakes more than they stand."""
    figure = one.material.figure("shear")
    limit = figure.value.high if figure else batch.limit(NAME, "tip speed")
    filler = one.material.is_a("platelet") and batch.of_batch(one.row) > batch.limit(NAME, "filler")
    for moment in batch.trace.path(one.moment):
        level = judge(LOWER[LEVEL] if filler else LEVEL, moment.shear.beyond(limit))
        if level is not None:
            title = (f"{moment.shear.rank.missing} that turns with {one.row.name} in {moment.vessel} is not said, so the shear was not checked" if level == "OPEN" else
                     f"{moment.shear.told} works on the {one.row.name} in {moment.vessel}")
            yield _finding(batch, one, moment, level, title, figure)


def _finding(batch, one, moment, level, title, figure) -> Finding:
    here = one.moment.span == moment.span
    last = max((later.span.line for later in batch.trace.path(moment) if later.shear.is_high), default=moment.span.line)
    fix = (f"In line {moment.span.line}, stir it in with paddle or anchor, turning slowly." if here and last == moment.span.line else
           f"Add {one.row.name} after line {last}, the last high shear, with paddle or anchor turning slowly.")
    return Finding(level, NAME, title, Label(moment.span, "open" if level == "OPEN" else "breaks the flakes"),
                   (Label(one.row.span, "flat flakes") if here else Label(one.moment.span, f"{one.row.name} in from here"),), WHY, fix,
                   f"data of {one.material.name}: {figure.told}" if figure else batch.source(NAME, "tip speed"), material=one.row.name, step=moment.step.number)
