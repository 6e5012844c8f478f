"""Capsules or beads are in the batch while something shears or heats it more than they stand.

Why it matters
    A capsule that goes through a high-shear head, or melts, is empty: what it carried is in the batch, unprotected, and what it was paid for
    is gone. Nothing shows it before the product is used.

Wrong
    phase C: late
        2 %  encapsulated retinol
    method
        add C to main with anchor
        homogenise main for 3 min

Wrong
    phase C: late
        2 %  encapsulated retinol
    method
        heat main to 70 °C
        add C to main with anchor

Right
    phase C: late
        2 %  encapsulated retinol
    method
        homogenise main for 3 min
        add C to main below 40 °C with anchor

Limits
    No high-shear tool from the step they go in; no stirrer tip faster than their data say (without a figure 2 m/s); no warmer than their data
    say. A figure from memory stops a batch only where it is passed by more than its spread.

Exceptions
    Capsules whose data say `shear any`.

Needs
    shear, add below

Source
    encapsulation supplier's note on stress; the tip speeds are common practice, no source
"""

from procsheet.findings import Finding, Label
from procsheet.rules.batch import gravest, judge
from procsheet.rules.words import celsius

NAME = "encapsulate-late"
LEVEL = "STOP"
WHY = "What goes through the head, or melts, is empty: what the capsules carried is in the batch unprotected, and nothing shows it before the product is used."


def check(batch):
    found: dict[str, list[Finding]] = {}
    for one in batch.trace.exposures:
        if one.material.is_a("encapsulate", "bead"):
            found.setdefault(one.row.code, []).extend((gravest(_sheared(batch, one)), gravest(_heated(batch, one))))
    for findings in found.values():
        yield from filter(None, (gravest(findings[::2]), gravest(findings[1::2])))


def _sheared(batch, one):
    """Every step that shears them more than they stand."""
    figure = one.material.figure("shear")
    limit = figure.value.high if figure else batch.limit(NAME, "tip speed")
    if one.material.text("shear") == "any":
        return
    for moment in batch.trace.path(one.moment):
        shear = moment.shear
        level = judge(LEVEL, shear.beyond(limit), None if shear.is_high else figure, factor=shear.tip.high / limit if shear.tip else 1.0)
        if level == "OPEN":
            title = f"{shear.rank.missing} that turns with {one.row.name} in {moment.vessel} is not said, so the shear was not checked"
            yield _finding(batch, one, moment, level, title, "open", figure)
        elif level is not None:
            what = shear.told if shear.is_high or shear.tip is None else f"{shear.told}, faster than {limit:.3g} m/s"
            yield _finding(batch, one, moment, level, f"{what} works on the {one.row.name} in {moment.vessel}", "opens or cuts them", figure)


def _heated(batch, one):
    """Every step that is warmer than they stand."""
    figure = min((figure for name in ("never above", "add below") if (figure := one.material.figure(name)) is not None), key=lambda one: one.value.low, default=None)
    limit = figure.value.low if figure else batch.limit(NAME, "shells")
    for moment in batch.trace.path(one.moment):
        hot = moment.allowed
        level = judge(LEVEL, batch.hotter(hot, limit), figure, hot.high - limit)
        if level is not None and level != "OPEN":
            title = f"{one.row.name} in {moment.vessel} at {celsius(hot)}, above the {celsius(limit)} that its data allow"
            yield _finding(batch, one, moment, level, title, "softens or empties them", figure)


def _finding(batch, one, moment, level, title, label, figure) -> Finding:
    also = (Label(one.moment.span, f"{one.row.name} in from here"),) if one.moment.span != moment.span else (Label(one.row.span, "capsules or beads"),)
    after = max(moment.span.line, _hardest(batch, one))
    return Finding(level, NAME, title, Label(moment.span, label), also, WHY,
                   f"Add {one.row.name} last, after line {after}, once the batch is cool, with an anchor or paddle turning slowly.",
                   f"data of {one.material.name}: {figure.told}" if figure else batch.source(NAME, "tip speed"), material=one.row.name, step=moment.step.number)


def _hardest(batch, one) -> int:
    """The line of the last high shear that they would go through."""
    return max((moment.span.line for moment in batch.trace.path(one.moment) if moment.shear.is_high), default=0)
