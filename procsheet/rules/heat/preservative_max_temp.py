"""A preservative is warmer than it can stand: when it goes in, or at any time after.

Why it matters
    A preservative that boiled off or broke down leaves the product unprotected, and no test before filling shows it.

Wrong
    phase C: keeping
        0.2 %  potassium sorbate
    method
        heat main to 75 °C
        add C to main

Right
    phase C: keeping
        0.2 %  potassium sorbate
    method
        heat main to 75 °C
        cool main to 40 °C
        add C to main

Limits
    The preservative's own `add below`: parabens and phenoxyethanol stand the hot phase, most others do not. A maker's figure is
    told as a warning from 5 °C below. A salt does not boil off: its remembered figure is a warning at most. Without a figure it is asked
    from 40 °C on.

Exceptions
    A heat-stable preservative, whose remembered figure is passed by 10 °C or less. A remembered figure has no margin below it.

Needs
    add below

Source
    the material's own data; preservative table quoting makers; common practice, no source
"""

from procsheet.findings import Finding, Label
from procsheet.intervals import BEYOND, above
from procsheet.rules import warmth
from procsheet.rules.batch import MEMORY_KELVIN, gravest, judge, not_checked
from procsheet.rules.words import celsius

NAME = "preservative-max-temp"
LEVEL = "STOP"
MEASURED = ("standard", "handbook", "data set", "paper", "supplier")
WHY = "A preservative that boiled off or broke down leaves the product unprotected. Nothing shows it before the first complaint."


def check(batch):
    found: dict[str, list[Finding]] = {}
    for exposure in batch.trace.exposures:
        if exposure.material.is_a("preservative"):
            found.setdefault(exposure.row.code, []).extend(_along(batch, exposure))
    yield from filter(None, map(gravest, found.values()))


def _along(batch, exposure):
    figure = exposure.material.figure("add below")
    for moment in batch.trace.path(exposure.moment):
        if figure is not None:
            level = _judged(batch, moment, figure, exposure.material.is_a("electrolyte"))
            if level is not None:
                yield _finding(batch, exposure, moment, level, figure)
        elif exposure.material.known and moment.allowed.low > batch.limit(NAME, "no figure of its own"):
            yield not_checked(NAME, exposure.row, "add below", f"whether it stands {celsius(moment.allowed)}")


def _judged(batch, moment, figure, salt: bool) -> str | None:
    limit, hot = max(figure.value.low, batch.plan.plant.room.high), moment.allowed
    stable = figure.from_memory and figure.value.low >= batch.limit(NAME, "heat-stable")
    if stable and (hot.missing or hot.high - limit <= MEMORY_KELVIN):
        return None
    level = judge("WARN" if salt and figure.from_memory else LEVEL, batch.hotter(hot, limit), figure, hot.high - limit)
    near = figure.grade in MEASURED and above(hot, limit - batch.apart(NAME, "below that figure")) == BEYOND
    return level or ("WARN" if near else None)


def _finding(batch, exposure, moment, level, figure) -> Finding:
    row, limit = exposure.row, figure.value.low
    lies = f"it stands at most {celsius(limit)}" if moment.allowed.high > limit else f"close to the {celsius(limit)} it stands"
    return Finding(level, NAME, f"{warmth.found(row, moment, moment.index == exposure.moment.index, level, limit)}; {lies}{warmth.unsaid(moment, level)}",
                   Label(moment.span, f"up to {celsius(moment.allowed.high)} here"), warmth.causes(batch, exposure, moment), WHY,
                   f"{warmth.moved(batch, exposure, moment, limit)}; "
                   "or choose a preservative that stands the heat.",
                   f"data of {row.material.name}: add below {figure.told}", material=row.name, step=moment.step.number)
