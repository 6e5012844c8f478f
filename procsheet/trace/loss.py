"""What a batch loses on its way: water from open hot vessels, and what stays behind on the wall."""

from math import pi

from procsheet.formulas.evaporation import APART, WARMEST, evaporation
from procsheet.formulas.water_vapour_pressure import LEAST, water_boiling_point
from procsheet.formulas.wetted_wall import wetted_wall
from procsheet.intervals import INFINITY, Interval, point
from procsheet.trace.trace import Moment, Trace

COOLEST = 303.15                        # K of the surface, under which the loss is not worth a figure
VAPORISING = 2.3e6                      # J/kg of water at 60 to 80 °C (IAPWS)
FILM = (0.05e-3, 1e-3)                  # m of batch on an emptied wall, from thin lotion to cream (common practice, no source)
NOTHING = point(0.0)
CLOSING = ("make up", "replace loss")
HEATED = ("heat", "melt", "hold")         # under vacuum these boil it on, as long as the heat is on


def evaporated(trace: Trace, moment: Moment) -> Interval:
    """kg of water that leaves the vessel during a step, from the least to the most.

    Open and hot: the published range for a free surface, none at the least where oil or an emulsion may cover it. Under vacuum: what flashes
    off while it boils itself cool, or with the heat on all the water. A lid, nitrogen and a closed kettle keep it in. No step's time: no upper
    end but all the water.
    """
    water = trace.watery(moment.contents)
    if not water or moment.closed or moment.cover in ("covered", "nitrogen") or _is_lidded(trace, moment):
        return NOTHING
    if moment.cover == "vacuum":
        return _flashed(trace, moment, water)
    room = trace.plan.plant.room
    hot = min(max(moment.start.high, moment.end.high), WARMEST)
    if hot < COOLEST or hot - room.high < APART:
        return NOTHING
    film = moment.facts.emulsified or trace.share(moment, "oil", "silicone") > 0.05
    area = surface(trace, moment)
    cool = min(moment.start.low, moment.end.low)
    least = evaporation(surface=cool, room=room.high, film=film)[0] if COOLEST <= cool <= WARMEST and cool - room.high >= APART else 0.0
    most = evaporation(surface=hot, room=room.low, film=film)[1]
    lasts = moment.duration or Interval(0.0, INFINITY, "how long it takes")
    return Interval(min(least * area * lasts.low, water), min(most * area * lasts.high, water), lasts.missing)


def _is_lidded(trace: Trace, moment: Moment) -> bool:
    kettle = trace.plan.kettles.get(moment.vessel)
    return kettle is not None and kettle.closed


def _flashed(trace: Trace, moment: Moment, water: float) -> Interval:
    """Hotter than its boiling point under this vacuum, a batch boils until it has cooled to it."""
    if moment.pressure is None or moment.pressure < LEAST:
        return Interval(0.0, water, "how deep the vacuum is") if moment.start.high > COOLEST else NOTHING
    boils = water_boiling_point(pressure=moment.pressure)
    over = moment.start.high - boils
    if moment.end.high > boils and (moment.step.verb in HEATED or moment.step.has("keeping")):
        return Interval(0.0, water, "how long it boils under vacuum")
    if over <= 0:
        return NOTHING
    return Interval(0.0, min(water, moment.mass * 4180.0 * over / VAPORISING), "how far it boils under vacuum")


def surface(trace: Trace, moment: Moment) -> float:
    """m² of free surface: of the kettle's own diameter, else of a vessel as high as wide filled to the brim."""
    kettle = trace.plan.kettles.get(moment.vessel)
    if kettle is not None and kettle.diameter:
        return pi * kettle.diameter ** 2 / 4
    return pi * (_litres(trace, moment) / (2 * pi)) ** (2 / 3)


def _litres(trace: Trace, moment: Moment) -> float:
    rows = trace.plan.graph.rows
    return sum(mass / float(rows[code].material.density or 1000 if code in rows else 1000) for code, mass in moment.contents.items())


def losses(trace: Trace) -> tuple[Interval, ...]:
    """kg of water that is missing at the end of every moment: all that evaporated on the way there, until `make up` puts it back.

    A vessel that is shared out takes its loss along by mass.
    """
    open_: list[Interval] = []
    for moment in trace.moments:
        if moment.step.verb in CLOSING:
            open_.append(NOTHING)
            continue
        lost = [evaporated(trace, moment), *(_part(open_[parent], share) for parent, share in _comes_from(trace, moment))]
        water = trace.watery(moment.contents)
        missing = next((one.missing for one in lost if one.missing), "")
        open_.append(Interval(min(sum(one.low for one in lost), water), min(sum(one.high for one in lost), water), missing))
    return tuple(open_)


def _part(lost: Interval, share: float) -> Interval:
    return Interval(lost.low * share, lost.high * share, lost.missing)


def _comes_from(trace: Trace, moment: Moment) -> list[tuple[int, float]]:
    """The moments it goes on from, and how much of what each of them left comes along [1]."""
    poured = trace.plan.graph.nodes[moment.node].poured
    masses = [*([sum(moment.before.values())] if moment.before else []), *(_poured(trace, state, share) for state, share in poured)]
    whole = [trace.moments[parent].mass for parent in moment.parents]
    return [(parent, mass / all_of_it if all_of_it else 1.0) for parent, mass, all_of_it in zip(moment.parents, masses, whole)]


def _poured(trace: Trace, state: int, share) -> float:
    """kg of the planned batch."""
    return float(sum(trace.plan.graph.states[state].contents.values()) * share * trace.plan.factor)


def left_behind(trace: Trace, moment: Moment) -> Interval:
    """kg that stays on the walls of the vessels emptied into this one: nothing of those that are rinsed into it afterwards, or not emptied."""
    rinsed = {one.step.vessel for one in trace.later(moment) if one.step.verb == "rinse"}
    low = high = 0.0
    for index, (_, share) in zip(moment.poured, trace.plan.graph.nodes[moment.node].poured):
        other = trace.moments[index]
        if other.vessel in rinsed or share < 1 or not other.mass:
            continue
        kettle = trace.plan.kettles.get(other.vessel)
        litres = _litres(trace, other)
        wide = kettle.diameter if kettle is not None and kettle.diameter else (4 * litres / pi) ** (1 / 3)
        wall = wetted_wall(volume=litres, diameter=wide)[1]
        low, high = low + FILM[0] * wall * other.mass / litres, high + FILM[1] * wall * other.mass / litres
    return Interval(low, high)
