"""The two phases of an emulsion meet at different temperatures.

Why it matters
    A colder phase sets the fat it meets: specks, grains, a weak cream that weeps. Water colder than the highest melting point
    in the oil is worse: part of the fat never gets into the emulsion at all.

Wrong
    phase B: oils
        8 %  cetearyl alcohol
        3 %  cetearyl glucoside
    method
        charge B into side
        heat side to 75 °C until melted
        add side to main with homogeniser
        homogenise main for 5 min

Wrong
    phase B: oils
        8 %  cetearyl alcohol
        3 %  cetearyl glucoside
    method
        heat main to 45 °C
        charge B into side
        heat side to 75 °C until melted
        add side to main with homogeniser
        homogenise main for 5 min

Right
    phase B: oils
        8 %  cetearyl alcohol
        3 %  cetearyl glucoside
    method
        heat main to 75 °C
        charge B into side
        heat side to 75 °C until melted
        add side to main with homogeniser
        homogenise main for 5 min

Limits
    5 °C between the phases, or what `both within` allows. Water that was brought to a figure below the highest melting point of the
    molten fats is a stop; so is an oil phase that has set again. Water that nobody warmed or cooled is a question: published methods
    quench cold on purpose. A vessel that was heated is taken to be kept warm through small additions.

Exceptions
    Nothing in the oil phase that sets; a cold process; fats that go dry into hot water and melt there; an addition under a tenth of the
    batch that leaves it warm enough; a batch that is heated above the melting point again afterwards; an emulsion that is cooled by
    what goes in slowly. Water that goes cold into the finished emulsion is cold-water-addback's.

Needs
    melts

Source
    common practice, no source; trade article on troubleshooting topical products, for what cold water does
"""

from typing import NamedTuple

from procsheet.findings import LEVELS, Finding, Label
from procsheet.intervals import BEYOND, SMALL, Interval, hull
from procsheet.model import quantities
from procsheet.rules.batch import judge
from procsheet.rules.words import celsius, kelvin
from procsheet.trace.facts import carries
from procsheet.trace.heat import narrowed
from procsheet.trace.trace import Moment

NAME = "equal-temps"
LEVEL = "WARN"
COLD = "STOP"
SMALL_PART = 0.1                        # of the batch: less may be colder (common practice, no source)
KEPT = 10.0                             # K that an addition may cool a heated vessel before it counts as cooler (common practice, no source)
MOSTLY = 0.5                            # of what is added: more water than that is a water phase (common practice, no source)
SPREAD = ("slowly", "very slowly", "over", "in portions", "drop by drop")
WHY = "A colder phase sets the fat it meets: specks and grains, and a weak cream that weeps. What has set never gets into the emulsion."


class Side(NamedTuple):
    """What comes together in a step: its vessel, how warm it is, what it holds, and the moment it comes from."""

    name: str
    warm: Interval
    held: dict[str, float]
    came: Moment | None = None


def check(batch):
    if not batch.is_emulsion:
        return
    for moment in batch.trace.moments:
        sides = _sides(batch, moment)
        oil, water = _pair(batch, sides) if len(sides) > 1 else (None, None)
        if oil is not None and water is not None:
            yield from _meeting(batch, moment, oil, water)
        elif moment.before_facts.emulsified and len(sides) > 1:
            yield from _quenched(batch, moment, sides[0])


def _sides(batch, moment) -> list[Side]:
    moments = batch.trace.moments
    out = [_of_vessel(batch, moment, moments[moment.parents[0]], moment.before, "vessel")] if moment.before else []
    out += [_of_vessel(batch, moment, moments[one], moments[one].contents, "added") for one in moment.poured]
    if moment.entering:
        room = batch.plan.plant.room
        fresh = moment.arriving if moment.arriving is not None and not moment.poured else room
        held = {portion.row.code: float(portion.mass * batch.plan.factor) for portion in moment.entering}
        out.append(Side("what is added", fresh, held))
    return out


def _of_vessel(batch, moment, came, held, which) -> Side:
    """A vessel's content as it goes into the step: by its own thermometer where the step asks for a figure, else as the last step left it."""
    gate = next((gate for gate in moment.gates if gate.which == which and gate.vessel == came.vessel), None)
    if gate is not None:
        return Side(came.vessel, narrowed(gate.found, gate), held, came)
    warmed = batch.trace.warmed_by(came)
    kept = warmed.step.verb == "heat" and warmed.vessel == came.vessel and 0 < warmed.end.low - came.end.high <= KEPT
    return Side(came.vessel, hull([came.end, warmed.end]) if kept else came.end, held, came)


def _pair(batch, sides) -> tuple[Side | None, Side | None]:
    """The side that brings fats and no water, and the one that brings water and no fats."""
    oils = [side for side in sides if _fats(batch, side.held) and not _water(batch, side.held)]
    waters = [side for side in sides if _water(batch, side.held) and not _fats(batch, side.held)]
    return next(iter(oils), None), max(waters, key=lambda side: _water(batch, side.held), default=None)


def _fats(batch, held) -> list:
    rows = [batch.graph.rows[code] for code in held if code in batch.graph.rows]
    return [(row, figure) for row in rows if row.material.is_a("structures oil") and (figure := row.material.figure("melts")) is not None]


def _water(batch, held) -> float:
    total = sum(held.values())
    rows, affinities = batch.graph.rows, batch.trace.affinities
    water = sum(mass for code, mass in held.items() if code in rows and affinities.get(code) == "water" and carries(rows[code]))
    return water if total and water >= SMALL_PART * total else 0.0


def _meeting(batch, moment, oil, water):
    if oil.came is None:
        return
    hottest = max(oil.warm.high, *(one.peak.high for one in batch.trace.history(oil.came)))
    fats = _fats(batch, oil.held)
    molten = [fat for fat in fats if fat[1].value.high <= hottest + SMALL]
    highest = max(molten or fats, key=lambda fat: fat[1].value.high)
    if melts_again(batch, moment, highest) or _little(moment, water, highest):
        return
    apart = max(oil.warm.low - water.warm.high, water.warm.low - oil.warm.high)
    set_again = _judged([(fat, fat[1].value.low - oil.warm.high) for fat in molten])
    chilled = _judged([(fat, fat[1].value.high - water.warm.high) for fat in molten]) if water.warm.high < oil.warm.low else None
    if set_again:
        level, (row, figure) = set_again
        title = f"the oil phase meets the water at {celsius(oil.warm)}; {row.name} in it has set again below {celsius(figure.value.low)}"
        yield _finding(batch, moment, level, title, oil, water, (row, figure))
    elif apart > _allowed(batch, moment) + SMALL:
        title = f"the phases meet {kelvin(apart)} apart: {oil.name} at {celsius(oil.warm)}, {water.name} at {celsius(water.warm)}"
        level, fat = chilled or (LEVEL, highest)
        title += f", below the {celsius(fat[1].value.high)} that {fat[0].name} melts at" if chilled else ""
        yield _finding(batch, moment, level if chilled and _was_set(batch, water) else LEVEL, title, oil, water, fat)


def _judged(fats):
    """The gravest of fats that are short of their figure by so much [K], with its level: one that is only remembered counts less."""
    found = [(judge(COLD, BEYOND, fat[1], short), fat) for fat, short in fats if short > SMALL]
    return min(found, key=lambda one: (LEVELS.index(one[0]), -one[1][1].value.high), default=None)


def _allowed(batch, moment) -> float:
    """How far apart the phases may be [K]: the usual figure, or what the step itself allows."""
    written = moment.step.value("both within")
    return max(batch.apart(NAME, "between"), quantities.difference(written) or 0.0 if written is not None else 0.0)


def _was_set(batch, side) -> bool:
    """Whether the method brought a side to its temperature; else nobody said how warm it is."""
    return side.came is not None and any(one.step.verb in ("heat", "cool", "hold") or one.step.has("keeping") for one in batch.trace.history(side.came))


def melts_again(batch, moment, fat) -> bool:
    return any(one.step.verb in ("heat", "melt") and one.end.low >= fat[1].value.high for one in batch.trace.later(moment))


def _little(moment, water, fat) -> bool:
    return sum(water.held.values()) < SMALL_PART * moment.mass and moment.start.low >= fat[1].value.high


def quenched(batch, moment):
    """How warm a hot emulsion was, and the fat of the highest melting point, where what goes in takes it below that at one stroke; else None."""
    sides = _sides(batch, moment)
    if len(sides) < 2:
        return None
    vessel = sides[0]
    molten = [(row, figure) for row, figure in _fats(batch, moment.before) if figure.value.high <= vessel.warm.low]
    fat = max(molten, key=lambda one: one[1].value.high, default=None)
    drop = vessel.warm.low - moment.start.high
    if fat is None or drop <= batch.apart(NAME, "between") or moment.start.missing:
        return None
    if moment.start.high >= fat[1].value.high or moment.step.has(*SPREAD) or melts_again(batch, moment, fat):
        return None
    return vessel.warm, fat


def _quenched(batch, moment, vessel):
    """Something cold that is not water goes into a hot emulsion; water is cold-water-addback's."""
    hot = quenched(batch, moment)
    if hot is not None and batch.trace.weight(moment.added, "water") <= MOSTLY * sum(moment.added.values()):
        row, figure = hot[1]
        yield _finding(batch, moment, LEVEL, f"what is added cools {moment.vessel} from {celsius(vessel.warm)} to {celsius(moment.start)} at one stroke, "
                       f"through the {celsius(figure.value.high)} that {row.name} sets at", vessel, None, hot[1])


def _finding(batch, moment, level, title, oil, water, fat) -> Finding:
    row, figure = fat
    also = [Label(warmed.span, f"leaves {warmed.vessel} at {celsius(warmed.end)}") for side in (oil, water) if side is not None and side.came is not None
            for warmed in (batch.trace.warmed_by(side.came),) if warmed.span != moment.span]
    also.append(Label(row.span, f"melts at {figure.written}"))
    return Finding(level, NAME, title, Label(moment.span, "they meet here"), tuple(also), WHY, _fix(batch, moment, oil, water),
                   f"{batch.source(NAME, 'between')}; data of {row.material.name}: melts {figure.told}", step=moment.step.number)


def _fix(batch, moment, oil, water) -> str:
    sign = f'If this is planned and tried, sign for it at the end: accept {NAME} because "..." by "..."'
    if water is None:
        return f"Warm what is added first, or add it after {moment.vessel} has cooled. {sign}"
    colder, warmer = (water, oil) if water.warm.high < oil.warm.high else (oil, water)
    heat = f"heat {colder.name}" if colder.came is not None else "heat what is added, in a vessel of its own,"
    apart = kelvin(batch.apart(NAME, "between"))
    fix = f"Put a step before line {moment.span.line}: {heat} to {celsius(warmer.warm)}; then write `both within {apart} of each other`."
    return fix if colder is oil or _was_set(batch, water) else f"{fix} {sign}"
