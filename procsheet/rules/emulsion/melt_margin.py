"""A solid fat is not melted, or hardly, before the phases meet or the melt is poured.

Why it matters
    What has not melted never goes into the emulsion: it comes out as grains, and the cream is thinner than it should be.

Wrong
    phase B: oils
        5 %  stearyl alcohol
        3 %  white beeswax
    method
        heat main to 55 °C
        charge B into side
        heat side to 55 °C
        add side to main with homogeniser

Right
    phase B: oils
        5 %  stearyl alcohol
        3 %  white beeswax
    method
        heat main to 75 °C
        charge B into side
        heat side to 75 °C
        add side to main with homogeniser

Right
    phase B: oils
        5 %  stearyl alcohol
        3 %  white beeswax
    method
        heat main to 70 °C
        charge B into side
        heat side to 68-70 °C until melted
        add side to main with homogeniser

Limits
    Below its melting range a stop; inside it a warning, since it may dissolve in what has melted; less than 5 °C above it a warning,
    less than 10 °C a hint. A figure from memory is told one level lower. The hottest that a fat has been with before it meets the
    water counts, whatever vessel it came through; a fat that is melted in the joined batch, or poured without water, has its whole way.

Exceptions
    `until dissolved` or `until clear`: a person looks, and a wax dissolves in what has melted. `until melted` or a step `melt` does as
    well, but for a temperature at which it cannot melt: up to 10 °C below the melting range that is told one level lower. Pastes need
    no melting, nor does a liquid dispersion or solution of a wax.

Needs
    melts

Source
    scale-up guide of a formulators' site, for 10 °C; common practice, no source, for 5 °C
"""

from typing import NamedTuple

from procsheet.findings import LEVELS, LOWER, Finding, Label
from procsheet.intervals import SMALL, UNDECIDED, WITHIN, Interval, below
from procsheet.model.material import Figure
from procsheet.model.method import Row
from procsheet.rules.batch import MEMORY_KELVIN, judge, not_checked
from procsheet.rules.words import celsius, kelvin, listed
from procsheet.syntax import tree
from procsheet.trace.trace import Moment

NAME = "melt-margin"
LEVEL = "STOP"
SEEN = {"dissolved": "dissolved", "clear": "dissolved", "melted": "melted"}
LIQUID = ("dispersion", "solution", "liquid", "viscous liquid", "gel")
WHY = "What has not melted never goes into the emulsion or the melt: it comes out as grains, and the product is softer than it should be."


class Fat(NamedTuple):
    """A solid fat, the hottest it gets to in time, the moment that is, and what a person looks for: 'melted', 'dissolved' or ''."""

    row: Row
    figure: Figure
    hottest: Interval
    moment: Moment
    seen: str
    meets: Moment | None


def check(batch):
    if batch.type in ("soap", "powder"):
        return
    fats = list(_fats(batch))
    told: dict[int, list[tuple[str, Fat]]] = {}
    for fat in fats:
        level = _judged(batch, fat)
        if level is not None:
            told.setdefault(fat.moment.index, []).append((level, fat))
    for found in told.values():
        yield _finding(batch, found)
    yield from _unknown(batch)


def _fats(batch):
    """Each solid fat on its way; of one that goes in more than once, the coldest way."""
    seen: dict[str, Fat] = {}
    for exposure in batch.trace.exposures:
        row = exposure.row
        figure = row.material.figure("melts")
        if figure is None or not row.material.is_a("structures oil") or row.material.text("form") in LIQUID:
            continue
        fat = _fat(batch, exposure, figure)
        if row.code not in seen or fat.hottest.high < seen[row.code].hottest.high:
            seen[row.code] = fat
    yield from seen.values()


def _fat(batch, exposure, figure) -> Fat:
    path = list(batch.trace.path(exposure.moment))
    meets = next((moment for moment in path if batch.is_emulsion and batch.both_phases(moment.contents)), None)
    apart = path[:path.index(meets)] if meets is not None else path
    heated = any(moment.peak.high > batch.plan.plant.room.high + SMALL for moment in apart)
    way = apart if heated else path
    hottest = max(way, key=lambda moment: (moment.peak.high, moment.peak.low))
    seen = next(filter(None, (_looked_for(moment, exposure.row.code) for moment in way)), "")
    return Fat(exposure.row, figure, hottest.peak, hottest, seen, meets if heated else None)


def _looked_for(moment, code: str) -> str:
    """What the crew looks for in a fat; the end point of something else that goes in says nothing of it."""
    until = moment.step.value("until")
    states = until.names if isinstance(until, tree.States) and (not moment.added or code in moment.added) else ()
    return next((seen for state, seen in SEEN.items() if state in states), "melted" if moment.step.verb == "melt" else "")


def _judged(batch, fat) -> str | None:
    low, high, warm, figure = fat.figure.value.low, fat.figure.value.high, fat.hottest, fat.figure
    paste = fat.row.material.text("form") == "paste"
    if fat.seen == "dissolved" or fat.seen and warm.missing:
        return None
    short = below(warm, low)
    if fat.seen:
        level = judge(LEVEL, short, figure, low - warm.high)
        return LOWER[level] if level is not None and low - warm.high <= MEMORY_KELVIN else level
    if short == UNDECIDED or below(warm, high) == UNDECIDED:
        return "OPEN"
    if short != WITHIN:
        level = judge(LEVEL, short, figure, low - warm.high)
        return LOWER[level] if paste and level == LEVEL else level
    if paste:
        return None
    nearly, margin = (batch.apart(NAME, "margin", pick) for pick in (min, max))
    level = judge("WARN", below(warm, high)) or judge("WARN", below(warm, high + nearly)) or judge("NOTE", below(warm, high + margin))
    return LOWER[level] if level is not None and figure.from_memory else level


def _finding(batch, found) -> Finding:
    level = min((one for one, _ in found), key=LEVELS.index)
    fats = sorted((fat for one, fat in found if one == level), key=lambda fat: -fat.figure.value.high)
    fat = fats[0]
    row, warm = fat.row, fat.hottest
    missing = f"; {warm.missing} is not said" if level == "OPEN" and warm.missing else ""
    others = f" (and {listed(one.row.name for one in fats[1:])})" if fats[1:] else ""
    when = "before it meets the water" if fat.meets is not None else "before the batch leaves the kettle" if not batch.is_emulsion else "on its way"
    moment = fat.moment
    also = [Label(one.row.span, f"melts at {one.figure.written}") for one in fats[:3]]
    also += [Label(fat.meets.span, "meets the water here")] if fat.meets is not None else []
    return Finding(level, NAME, f"{row.name}{others} is {celsius(warm)} at the hottest {when}; it melts at {fat.figure.written}{missing}",
                   Label(moment.span, f"{celsius(warm)} is as warm as it gets"), tuple(also), WHY, _fix(batch, fat),
                   f"data of {row.material.name}: melts {fat.figure.told}; margin {kelvin(batch.apart(NAME, 'margin', max))} ({batch.source(NAME, 'margin')})",
                   material=row.name, step=moment.step.number)


def _fix(batch, fat) -> str:
    wanted = celsius(fat.figure.value.high + batch.apart(NAME, "margin", max))
    vessel = fat.moment.vessel
    heated, meets = fat.moment.step.verb == "heat", fat.meets or fat.moment
    step = f"In line {fat.moment.span.line}, heat {vessel} to {wanted}" if heated else f"Heat {vessel} to {wanted} before line {meets.span.line}"
    return f"{step}; or, where it dissolves in what has melted, let the crew look: `until melted`, `until dissolved`."


def _unknown(batch):
    for row in batch.method.rows:
        if row.material.known and row.material.is_a("structures oil") and "melts" in row.material.decisive and not row.material.has("melts"):
            yield not_checked(NAME, row, "melts", "whether it is melted")
