"""Temperatures: what is asked before a step, what mixing gives, what a step does, and how long the jacket takes."""

from procsheet.formulas.cooling_in_air import cooling_in_air
from procsheet.formulas.flowing_jacket_time import flowing_jacket_time
from procsheet.formulas.jacket_time import jacket_time
from procsheet.formulas.warming_rate import warming_rate
from procsheet.formulas.wetted_wall import wetted_share
from procsheet.intervals import INFINITY, Interval, hull, meet, plus, point, weighted_mean
from procsheet.model import quantities
from procsheet.model.method import Row, Step
from procsheet.plan.plant import Kettle, Plant
from procsheet.syntax import tree
from procsheet.trace import loose
from procsheet.trace.trace import Gate

GATES = ("at", "below", "above", "at most", "at least", "both at")
LONG = 1800.0                           # s: a step longer than this without a heat clause cools toward room
MELT_SPREAD = 20.0                      # K above the melting point that a melt without a figure may reach (common practice, no source)
NEAR_ENOUGH = 3.0                       # K from the jacket's temperature where a time can still be worked out
SLIGHT = 0.5                            # K: less is not worth a word
FUSION = 2.2e5                          # J/kg: the most a wax or fatty alcohol takes up where it melts; cetyl alcohol takes 1.4e5 (CRC Handbook of Chemistry and Physics)
WATER = 1000.0                          # kg/m³, of the medium in a jacket


def asked(value, kind: str, rows: list[Row], plant: Plant) -> Interval | None:
    """A written temperature as an interval in K; None where it is open or cannot be worked out."""
    if isinstance(value, tree.Point):
        return _of_point(value.name, value.of, rows)
    if not isinstance(value, tree.Quantity):
        return None
    if value.relative:
        base = _of_point(value.relative.partition(" ")[2], value.of, rows)
        apart = quantities.exact(value)
        if base is None or apart is None:
            return None
        sign = 1 if value.relative.startswith("above") else -1
        return plus(base, Interval(*sorted((sign * float(apart[0]), sign * float(apart[1])))))
    found = quantities.interval(value, plant.room)
    return Interval(-INFINITY, found.high) if found is not None and kind in ("below", "at most") else (
        Interval(found.low, INFINITY) if found is not None and kind in ("above", "at least") else found)


PROPERTY = {"set point": "sets", "flash point": "flash point", "melting point": "melts", "boiling point": "boils"}


def _of_point(name: str, of: str, rows: list[Row]) -> Interval | None:
    """A flash, melting, set or boiling point: of the material named, or the highest melting (lowest flash) in the vessel."""
    from procsheet.model.material import fold
    named = [row for row in rows if not of or fold(of) in (fold(row.name), *(fold(one) for one in row.material.names))]
    figures = [figure for row in named if (figure := row.material.figure(PROPERTY.get(name, ""))) is not None]
    if not figures:
        return None
    if name == "melting point":
        return point(max(figure.value.high for figure in figures))
    return point(min(figure.value.low for figure in figures)) if name in ("flash point", "boiling point") or of else None


def gate(kind: str, wanted: Interval, found: Interval, slack: float, which: str, vessel: str) -> Gate:
    """Whether a temperature can show. An `at` is met where the state reaches it; a bound where the whole state lies within it."""
    if not found.touches(wanted, slack):
        verdict = "undecided" if found.missing else "missed"
    elif kind in ("at", "both at") or found.within(wanted, slack):
        verdict = "met"
    else:
        verdict = "undecided" if found.missing else "straddles"
    return Gate(wanted, found, verdict, which, kind, vessel)


def narrowed(found: Interval, made: Gate) -> Interval:
    """What is known once the thermometer has shown it; a gate that cannot be met changes nothing."""
    return found if made.verdict == "missed" or made.verdict == "undecided" and not found.touches(made.asked) else meet(found, made.asked)


def mixed(parts: list[tuple[float, float, Interval]]) -> Interval:
    """The temperature of a mixture, by heat balance. parts: mass [kg], heat capacity [J/(kg K)], temperature [K]."""
    weights = [(mass * capacity, temperature) for mass, capacity, temperature in parts]
    return weighted_mean(weights) if sum(weight for weight, _ in weights) > 0 else hull(part for _, part in weights)


def drifting(temperature: Interval, room: Interval, load: tuple[float, float, float], duration: Interval | None) -> Interval:
    """What a batch may come to without heat or cold: toward the room, no further than the most it can lose in that time. load: as of `cooling_in_air`."""
    low = min(temperature.low, _left_alone(temperature.low, room.low, load, duration))
    high = max(temperature.high, _left_alone(temperature.high, room.high, load, duration))
    return Interval(low, high, "how far it cools meanwhile" if low < temperature.low else temperature.missing)


def _left_alone(start: float, room: float, load: tuple[float, float, float], duration: Interval | None) -> float:
    mass, capacity, volume = load
    if duration is None or duration.high == INFINITY or volume <= 0:
        return room
    return cooling_in_air(mass=mass, heat_capacity=capacity, volume=volume, start=start, room=room, time=duration.high)


def stirred(temperature: Interval, power: float, load: tuple[float, float, float], duration: Interval) -> Interval:
    """What the drive of the stirrer may warm a batch to: at the most, all its power [W] for the whole step."""
    if duration.high == INFINITY or load[0] <= 0:
        return temperature
    rise = warming_rate(power=power, mass=load[0], heat_capacity=load[1]) * duration.high
    return Interval(temperature.low, temperature.high + rise, "how far the stirrer warms it") if rise > SLIGHT else temperature


def melting_point(rows: list[Row]) -> float | None:
    figures = [figure.value.high for row in rows if (figure := row.material.figure("melts")) is not None and row.material.is_a("structures oil")]
    return max(figures, default=None)


def melted(start: Interval, rows: list[Row]) -> Interval:
    """Melted, and no figure said how warm: somewhere above the highest melting point, or wherever it was if that is known to be enough."""
    highest = melting_point(rows)
    if highest is None:
        return Interval(start.low, max(start.high, start.low + MELT_SPREAD), "how warm it is melted") if start.high < 313 else start
    if start.low >= highest:
        return start
    return Interval(max(start.low, highest), max(start.high, highest + MELT_SPREAD), "how warm it is melted")


def duration_of(step: Step, entering: int) -> Interval | None:
    """The time a step's own words give, None where they give none [s]."""
    parts = []
    for kind in ("for", "over", "then for", "within"):
        if step.has(kind):
            value = quantities.interval(step.value(kind))
            if value is not None:
                parts.append(Interval(max(value.low, 0.0), value.high) if value.high < INFINITY else Interval(max(value.low, 0.0), max(value.low, 0.0)))
    if step.has("each for") and (each := quantities.interval(step.value("each for"))) is not None:
        few, many = _times(step, entering)
        parts.append(Interval(max(each.low, 0) * few, (each.high if each.high < INFINITY else each.low) * many))
    if not parts and step.verb == "wait" and "t" in step.written.slots:
        found = quantities.interval(step.written.slots["t"])
        return found
    if not parts:
        return loose.lasts(step)
    total = parts[0]
    for part in parts[1:]:
        total = plus(total, part)
    return Interval(total.low * 2, total.high * 2, total.missing) if step.has("twice") else total


def _times(step: Step, entering: int) -> tuple[float, float]:
    """How often `each for` comes: once a portion where portions are counted, else once a material."""
    portions = quantities.exact(step.value("in portions")) if isinstance(step.value("in portions"), tree.Quantity) else None
    return (float(portions[0]), float(portions[1])) if portions else (max(entering, 1),) * 2


def jacket_duration(start: Interval, end: Interval, mass: float, capacity: float, volume: float, kettle: Kettle | None, plant: Plant,
                    melting: float = 0.0) -> Interval | None:
    """How long a kettle takes from start to end [s]; None where the plant does not say enough. melting: kg of fat that melts on the way.

    Fat takes up heat as it melts: at the most, all of it crystalline.
    """
    if kettle is None or not kettle.jacket_area or not kettle.coefficient or mass <= 0:
        return None
    jacket = plant.hot if end.high > start.high else plant.cold
    if jacket is None or (jacket == plant.cold and kettle.hot_only):
        return None
    area = kettle.jacket_area * _wetted(kettle, volume)
    ways = ((start.low, end.low), (start.high, end.high), (start.low, end.high), (start.high, end.low))
    known = [time for a, b in ways if (time := _time(a, b, jacket, mass, capacity, kettle, area)) is not None]
    if not known:
        return None
    heavier = 1 + FUSION * melting / (mass * capacity * (end.high - start.low)) if melting and end.high > start.low else 1.0
    return Interval(min(known), max(known) * heavier)


def _wetted(kettle: Kettle, volume: float) -> float:
    """The part of the jacket that a fill touches: by the vessel's shape where its diameter is known, else as the volumes are to each other."""
    full = kettle.working.high if kettle.working else 0.0
    if not full or volume >= full:
        return 1.0
    if not kettle.diameter:
        return volume / full
    return wetted_share(volume=volume, full=full, diameter=kettle.diameter)


def _time(start: float, target: float, jacket: float, mass: float, capacity: float, kettle: Kettle, area: float) -> float | None:
    """By a medium that stays as it is, or, where its flow is known, one that cools or warms on its way through the jacket."""
    if abs(start) == INFINITY or abs(target) == INFINITY:
        return None
    target = min(target, jacket - NEAR_ENOUGH) if jacket > start else max(target, jacket + NEAR_ENOUGH)
    if (target - start) * (jacket - start) <= 0:
        return 0.0
    common = {"mass": mass, "heat_capacity": capacity, "coefficient": kettle.coefficient, "area": area, "start": start, "target": target}
    return flowing_jacket_time(**common, inlet=jacket, flow=kettle.flow * WATER) if kettle.flow else jacket_time(**common, jacket=jacket)
