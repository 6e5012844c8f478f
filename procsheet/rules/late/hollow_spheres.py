"""Hollow spheres are in the batch while a mill or a fast head crushes them.

Why it matters
    A crushed sphere is a splinter of its wall: the batch loses the volume the spheres were bought for, grows heavier in the jar and may feel
    sharp.

Wrong
    phase C: spheres
        2 %  hollow sphere
    method
        add C to main with anchor
        mill main with roll mill

Right
    phase C: spheres
        2 %  hollow sphere
    method
        homogenise main for 3 min
        add C to main with anchor

Limits
    No high-shear tool from the step they go in, and no tip faster than their data say; without a figure 5 m/s.

Exceptions
    Spheres whose data say `shear any`.

Needs
    shear

Source
    common practice, no source
"""

from procsheet.findings import Finding, Label
from procsheet.rules.batch import gravest, judge

NAME = "hollow-spheres"
LEVEL = "WARN"
WHY = "A crushed sphere is a splinter of its wall: the batch loses the volume it was bought for, the jar is underfilled, and the skin feels it."


def check(batch):
    found: dict[str, list[Finding]] = {}
    for one in batch.trace.exposures:
        if one.material.is_a("hollow sphere") and one.material.text("shear") != "any":
            found.setdefault(one.row.code, []).extend(_crushed(batch, one))
    yield from filter(None, map(gravest, found.values()))


def _crushed(batch, one):
    """Every step that shears them more than they stand."""
    figure = one.material.figure("shear")
    limit = figure.value.high if figure else batch.limit(NAME)
    for moment in batch.trace.path(one.moment):
        shear = moment.shear
        level = judge(LEVEL, shear.beyond(limit))
        if level is None:
            continue
        title = (f"{shear.rank.missing} that turns with {one.row.name} in {moment.vessel} is not said, so the shear was not checked" if level == "OPEN" else
                 f"{shear.told} works on the {one.row.name} in {moment.vessel}")
        yield Finding(level, NAME, title, Label(moment.span, "open" if level == "OPEN" else "crushes them"),
                      (Label(one.moment.span, f"{one.row.name} in from here"),) if one.moment.span != moment.span else (Label(one.row.span, "hollow"),), WHY,
                      f"Add {one.row.name} after line {moment.span.line}, with an anchor or paddle turning slowly.",
                      f"data of {one.material.name}: {figure.told}" if figure else batch.source(NAME), material=one.row.name, step=moment.step.number)
