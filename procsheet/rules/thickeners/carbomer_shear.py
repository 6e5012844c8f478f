"""A neutralised carbomer goes through high shear.

Why it matters
    Swollen carbomer can lose viscosity for good under a high-shear head. The batch then fails its viscosity, and standing overnight does
    not bring it back.

Wrong
    type gel
    phase B: polymer
        0.5 %  carbomer
    phase C: base
        0.6 %  triethanolamine
    method
        disperse B in main with homogeniser for 10 min
        neutralise main with C
        homogenise main for 5 min

Right
    type gel
    phase B: polymer
        0.5 %  carbomer
    phase C: base
        0.6 %  triethanolamine
    method
        disperse B in main with homogeniser for 10 min
        neutralise main with C with anchor
        mix main for 20 min with anchor

Limits
    All high shear after the base counts together: over 1 min is a warning, over 3 min a stop; without a time it is a warning. In an emulsion,
    where the carbomer does not stand alone, one level lower. Up to 0.1 % carbomer nothing is said.

Exceptions
    `briefly`. Polymers whose data do not say `low after neutralising`, such as emulsifying grades. How much is lost depends on grade,
    head and time: a trial is a reason to sign.

Needs
    shear

Source
    study of shear on neutralised carbomers in water; carbomer supplier pages; public threads
"""

from procsheet.findings import LOWER, Finding, Label
from procsheet.intervals import BEYOND, STRADDLES, Interval, above, plus, point
from procsheet.rules.words import minutes
from procsheet.trace.trace import HIGH

NAME = "carbomer-shear"
LEVEL = "WARN"
LONG = "STOP"
WHY = "Swollen carbomer can lose viscosity for good under a high-shear head. The batch then fails its viscosity, and standing overnight does not bring it back."


def check(batch):
    told = set()
    for one in batch.trace.exposures:
        row = one.row
        if row.material.name in told or not row.material.is_a("carbomer") or "after neutralising" not in row.material.text("shear") or _is_little(batch, row):
            continue
        swollen, sheared = _sheared(batch, one)
        if sheared and (level := _level(batch, time := _time(sheared))):
            told.add(row.material.name)
            yield _finding(batch, row, level, swollen, sheared, time)


def _is_little(batch, row) -> bool:
    return row.mass is not None and batch.of_batch(row, "carbomer") <= batch.limit(NAME, "carbomer at most") + 1e-9


def _sheared(batch, one):
    """The moment the carbomer swells, and every moment of high shear from there on."""
    path = list(batch.trace.path(one.moment))
    first = next((index for index, moment in enumerate(path) if moment.facts.neutralised), len(path))
    return (path[first] if first < len(path) else None), [moment for moment in path[first:] if moment.shear.rank.low >= HIGH and not moment.step.has("briefly")]


def _time(sheared) -> Interval | None:
    """How long they last together; None where one has no time."""
    whole = [moment for moment in sheared if moment.part == 0]
    if any(moment.duration is None for moment in whole):
        return None
    total = point(0.0)
    for moment in whole:
        total = plus(total, moment.duration)
    return total


def _level(batch, time) -> str | None:
    if time is None:
        return LEVEL
    warned, stopped = (above(time, batch.limit(NAME, words)) for words in ("a warning", "a stop"))
    level = LONG if stopped == BEYOND else LEVEL if stopped == STRADDLES or warned == BEYOND else "NOTE" if warned == STRADDLES else None
    return LOWER[level] if level and batch.is_emulsion else level


def _finding(batch, row, level, swollen, sheared, time) -> Finding:
    longest = max(sheared, key=lambda moment: moment.duration.high if moment.duration else 1e9)
    also = [Label(swollen.span, f"{row.name} swells here")] if swollen is not longest else []
    also += [Label(moment.span, "and here") for moment in sheared if moment is not longest and moment is not swollen and moment.part == 0]
    how_long = f"for {minutes(time.high)}" if time else "for a time that is not said"
    return Finding(level, NAME, f"{row.name} is neutralised first and goes through high shear afterwards, {how_long}",
                   Label(longest.span, f"{longest.shear.told.replace('?', 'this')} cuts it"), tuple(also), WHY,
                   f"Do the high shear before the neutralising in line {swollen.span.line}, in the thin dispersion; after it only a slow stirrer.",
                   batch.source(NAME, "of high shear"), material=row.name, step=longest.step.number)
