"""A material is warmer than it can stand: when it goes in, or at any time after.

Why it matters
    Above its limit an extract, a protein or a vitamin loses what it is there for, and nothing in the finished jar shows it.

Wrong
    phase C: active
        2 %  plant extract in glycerin and water
    method
        heat main to 75 °C
        add C to main

Right
    phase C: active
        2 %  plant extract in glycerin and water
    method
        heat main to 75 °C
        cool main to 40 °C
        add C to main

Wrong
    phase C: active
        2 %  plant extract in glycerin and water
    method
        add C to main
        heat main to 75 °C

Limits
    `add below` and `never above` of the material's data hold from the moment it goes in until the pack is closed, whatever vessel it
    passes through; `at most 2 h above 70 °C` adds up the times that are known. A figure from memory, or only of the kind, that is
    passed by 10 °C or less is told one level lower. What is not named heat-sensitive is a warning, an oil that only ages a hint.

Exceptions
    A preservative and a perfume have rules of their own; what may be lit is told by its flash point. Room temperature is always allowed.

Needs
    add below

Source
    the material's own data; common practice, no source, for its kind
"""

from procsheet.findings import LOWER, Finding, Label
from procsheet.rules import warmth
from procsheet.rules.batch import MEMORY_KELVIN, gravest, judge, not_checked
from procsheet.rules.words import celsius, minutes

NAME = "heat-sensitive"
LEVEL = "STOP"
WHY = "Above its limit it breaks down, boils off or loses what it is there for. The finished batch looks the same, and fails in use or on the shelf."
WORDS = {"add below": "goes in below", "never above": "stands at most"}


def check(batch):
    found: dict[str, list[Finding]] = {}
    for exposure in batch.trace.exposures:
        if not exposure.material.is_a("preservative", "perfume"):
            found.setdefault(exposure.row.code, []).extend(_along(batch, exposure))
    yield from filter(None, map(gravest, found.values()))


def _along(batch, exposure):
    material = exposure.material
    for name in WORDS:
        figure = material.figure(name)
        if figure is not None:
            yield from _too_hot(batch, exposure, figure if material.lines.get(name) else figure._replace(grade="memory"))
    if "add below" in material.decisive and not material.has("add below") and not material.has("never above"):
        yield not_checked(NAME, exposure.row, "add below", "how warm it may go in")
    for figure in material.figures("at most"):
        if figure.at is not None:
            yield from _too_long(batch, exposure, figure)


def _too_hot(batch, exposure, figure):
    limit = max(figure.value.low, batch.plan.plant.room.high)
    path = list(batch.trace.path(exposure.moment))
    if any(_told_by_flash(batch, exposure.material, moment.allowed) for moment in path):
        return
    for moment in path:
        hot = moment.allowed
        over = hot.high - limit
        level = judge(_level(exposure.material, figure.name), batch.hotter(hot, limit), figure, over)
        if level == "WARN" and figure.from_memory and over <= MEMORY_KELVIN and _level(exposure.material, figure.name) != LEVEL:
            level = LOWER[level]
        if level is not None:
            yield _finding(batch, exposure, moment, level, figure, limit)


def _told_by_flash(batch, material, hot) -> bool:
    """What may be lit at this heat is told by its flash point, not twice."""
    flash = material.figure("flash point") if material.is_a("flammable") else None
    return flash is not None and hot.high > flash.value.low - batch.apart("flash-limit", "margin", max)


def _level(material, name) -> str:
    """STOP for what is there to be spared; a warning for what boils off or only suffers; a hint for an oil that ages."""
    if material.is_a("heat-sensitive") and not material.is_a("volatile"):
        return LEVEL
    return "NOTE" if name == "add below" and material.is_a("oil phase") and not material.is_a("volatile") else "WARN"


def _finding(batch, exposure, moment, level, figure, limit) -> Finding:
    row, own = exposure.row, exposure.material.lines.get(figure.name)
    there = warmth.found(row, moment, moment.index == exposure.moment.index, level, limit)
    told = figure.told if own else f"{figure.written} (usual for its kind: {figure.source})"
    return Finding(level, NAME, f"{there}; it {WORDS[figure.name]} {celsius(figure.value.low)}{warmth.unsaid(moment, level)}",
                   Label(moment.span, f"up to {celsius(moment.allowed.high)} here"), warmth.causes(batch, exposure, moment), WHY,
                   f"{warmth.moved(batch, exposure, moment, limit)}.",
                   f"data of {row.material.name}: {figure.name} {told}", material=row.name, step=moment.step.number)


def _too_long(batch, exposure, figure):
    """The times above a temperature, added up; told where they pass what is allowed."""
    total = 0.0
    for moment in batch.trace.path(exposure.moment):
        time = batch.trace.time_above(moment, figure.at)
        total += time or 0.0
        if time and total > figure.value.high:
            row = exposure.row
            yield Finding("NOTE" if figure.from_memory else "WARN", NAME,
                          f"{row.name} is above {celsius(figure.at)} for {minutes(total)}; it stands {figure.written} there",
                          Label(moment.span, f"passes {figure.written} here"), (Label(exposure.moment.span, f"{row.name} goes in here"),), WHY,
                          f"Shorten the steps up to line {moment.span.line}, or add {row.name} after it.",
                          f"data of {row.material.name}: at most {figure.told}", material=row.name, step=moment.step.number)
            return
