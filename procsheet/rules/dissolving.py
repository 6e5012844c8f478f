"""What has to dissolve in hot oil before that meets the water: how hot it gets in time, and whether the crew looks."""

from typing import NamedTuple

from procsheet.findings import LOWER, Finding, Label
from procsheet.intervals import SMALL, Interval, below
from procsheet.model.material import Figure
from procsheet.model.method import Row
from procsheet.rules.batch import MEMORY_KELVIN, judge
from procsheet.rules.words import celsius, listed
from procsheet.syntax import tree
from procsheet.trace.trace import Moment


class Way(NamedTuple):
    """A powder on its way into oil: the figure it needs, the hottest moment in time, whether the crew looks, where it meets the water."""

    row: Row
    wanted: Figure
    moment: Moment
    seen: bool
    meets: Moment | None

    @property
    def warm(self) -> Interval:
        return self.moment.peak

    @property
    def is_late(self) -> bool:
        """It goes straight into a finished emulsion."""
        return self.meets is self.moment and self.moment.before_facts.emulsified


def wanted(row: Row) -> Figure | None:
    """The heat at which a material dissolves, from `needs dissolve in hot oil above 80 °C`."""
    return next((figure for figure in row.material.figures("needs") if "dissolve" in figure.words), None)


def ways(batch, rows: dict[str, Figure]) -> list[Way]:
    """The coldest way of each row, from row code -> the figure it needs."""
    coldest: dict[str, Way] = {}
    for exposure in batch.trace.exposures:
        code = exposure.row.code
        if code in rows:
            way = _way(batch, exposure, rows[code])
            if code not in coldest or way.warm.high < coldest[code].warm.high:
                coldest[code] = way
    return list(coldest.values())


def _way(batch, exposure, figure) -> Way:
    """Where the oil is heated alone, up to the water; where all is heated in one pot, the whole way; into a finished emulsion, that step."""
    path = list(batch.trace.path(exposure.moment))
    meets = next((moment for moment in path if batch.is_emulsion and batch.both_phases(moment.contents)), None)
    apart = path[:path.index(meets)] if meets is not None else path
    heated = any(moment.peak.high > batch.plan.plant.room.high + SMALL for moment in apart)
    late = meets is exposure.moment and meets.before_facts.emulsified
    way = path[:1] if late else apart if heated else path
    return Way(exposure.row, figure, max(way, key=lambda moment: (moment.peak.high, moment.peak.low)), any(_looks(moment, exposure.row.code) for moment in apart), meets)


def _looks(moment, code: str) -> bool:
    until = moment.step.value("until")
    states = until.names if isinstance(until, tree.States) and (not moment.added or code in moment.added) else ()
    return bool({"dissolved", "clear"} & set(states))


def level(batch, way: Way, margin: float) -> str | None:
    """A stop where it cannot dissolve, a step lower where the crew looks, nothing within a margin [K]. Hot or cold, an emulsion dissolves little."""
    short = way.wanted.value.low - way.warm.high
    if way.seen and (way.warm.missing or not batch.is_emulsion or short <= MEMORY_KELVIN):
        return None
    spoken = judge("STOP", below(way.warm, way.wanted.value.low - margin), way.wanted, short)
    return LOWER[spoken] if way.seen and spoken else spoken or ("WARN" if way.is_late else None)


def told(name: str, why: str, spoken: str, found: list[Way]) -> Finding:
    """One finding for all that fail in the same step."""
    found = sorted(found, key=lambda way: -way.wanted.value.low)
    way, names, many = found[0], listed(one.row.name for one in found), len(found) > 1
    moment, hot = way.moment, celsius(way.wanted.value.low)
    unsaid = f"; {way.warm.missing} is not said" if spoken == "OPEN" and way.warm.missing else ""
    title = (f"{names} {'go' if many else 'goes'} into the finished emulsion in {moment.vessel} at {celsius(way.warm)}, undissolved" if way.is_late else
             f"{names} {'are' if many else 'is'} {celsius(way.warm)} at the hottest; to dissolve in oil {hot} {'are' if many else 'is'} needed{unsaid}")
    also = [Label(one.row.span, f"dissolves from {celsius(one.wanted.value.low)} on") for one in found[:3]]
    also += [Label(way.meets.span, "meets the water here")] if way.meets is not None and way.meets is not moment else []
    return Finding(spoken, name, title, Label(moment.span, "does not dissolve here" if way.is_late else f"{celsius(way.warm)} is as warm as it gets"),
                   tuple(also), why, _fix(way, names, hot), f"data of {way.row.material.name}: needs {way.wanted.told}", material=way.row.name, step=moment.step.number)


def _fix(way: Way, names: str, hot: str) -> str:
    moment = way.moment
    if way.is_late:
        return f"Take {names} out of line {moment.span.line}: dissolve in the oil at {hot}, until clear, before the oil meets the water."
    if moment.step.verb == "heat":
        return f"In line {moment.span.line}, heat {moment.vessel} to {hot} until clear."
    return f"Heat {moment.vessel} to {hot} until clear before line {(way.meets or moment).span.line}."
