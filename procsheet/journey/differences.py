"""What differs between a batch where it was proven and the same batch elsewhere, read from the two traces. It judges nothing and claims no equivalence."""

from typing import Iterator, NamedTuple

from procsheet.formulas.equal_power_speed import equal_power_speed
from procsheet.formulas.passes import passes, time_for_passes
from procsheet.formulas.usual_power_number import USUAL
from procsheet.intervals import INFINITY, Interval
from procsheet.rules.batch import Batch
from procsheet.syntax import clauses
from procsheet.trace.contents import volume
from procsheet.trace.life import life
from procsheet.trace.loss import evaporated
from procsheet.trace.trace import Moment

LEAST, MOST = 0.7, 1.4                  # a ratio outside is marked: mistakes seen in scale-up (common practice, no source)
ADDS = ("add", "charge", "emulsify", "disperse", "activate", "neutralise", "dissolve")


class Difference(NamedTuple):
    """One figure of both batches in SI. step: 0 where it belongs to none; ratio: of the middles, None where one is not known; advice: what the trade would try."""

    step: int
    what: str                           # 'tip speed', 'passes', 'heating', 'cooling', 'addition', 'fill level', 'above', 'evaporation'
    of: str                             # the tool, vessel or material
    unit: str                           # of both figures: 'm/s', '', 's', '%', 'K'
    proven: Interval | None
    here: Interval | None
    advice: str = ""

    @property
    def ratio(self) -> float | None:
        if self.proven is None or self.here is None or INFINITY in (self.proven.high, self.here.high) or not self.proven.high:
            return None
        return (self.here.low + self.here.high) / (self.proven.low + self.proven.high)

    @property
    def marked(self) -> bool:
        return self.ratio is not None and not LEAST <= self.ratio <= MOST


def differences(proven: Batch, here: Batch) -> tuple[Difference, ...]:
    """Every figure that is known of at least one of both, in the order of the method."""
    pairs = list(_pairs(proven, here))
    found = [one for before, after in pairs for one in (*_turning(proven, here, before, after), *_lasting(proven, here, before, after))]
    return (*_once(sorted(found, key=lambda one: one.step)), *_filled(proven, here), *_hot(proven, here), *_lost(proven, here))


def _once(found: list[Difference]) -> list[Difference]:
    """A stirrer that runs on is told where it begins and where its speed changes; a figure that neither plant knows is left out."""
    out, last = [], {}
    for one in found:
        if one.proven is None and one.here is None or one.what == "tip speed" and last.get(one.of) == (one.proven, one.here):
            continue
        if one.what == "tip speed":
            last[one.of] = (one.proven, one.here)
        out.append(one)
    return out


def _pairs(proven: Batch, here: Batch) -> Iterator[tuple[Moment, Moment]]:
    """The same part of the same step in both."""
    known = {(moment.step.number, moment.part, moment.vessel): moment for moment in proven.trace.moments}
    for moment in here.trace.moments:
        before = known.get((moment.step.number, moment.part, moment.vessel))
        if before is not None:
            yield before, moment


# ---- what turns


def _turning(proven: Batch, here: Batch, before: Moment, after: Moment) -> Iterator[Difference]:
    tools = {running.tool: running for running in before.turning}
    for running in after.turning:
        one = tools.get(running.tool)
        if one is None or one.tip is None and running.tip is None:
            continue
        yield Difference(after.step.number, "tip speed", running.tool, "m/s", one.tip, running.tip, _equal_power(proven, here, before, after, running.tool))
        if running.tool in clauses.HIGH_SHEAR:
            yield Difference(after.step.number, "passes", running.tool, "", _passes(proven, before, running.tool), _passes(here, after, running.tool),
                             _for_passes(proven, here, before, after, running.tool))


def _tool(batch: Batch, moment: Moment, name: str):
    kettle = batch.plan.kettles.get(moment.vessel)
    return kettle.tool(name) if kettle is not None else None


def _passes(batch: Batch, moment: Moment, name: str) -> Interval | None:
    tool, held = _tool(batch, moment, name), volume(batch.trace, moment)
    if tool is None or not tool.pumps or moment.duration is None or moment.duration.high == INFINITY or held.low <= 0:
        return None
    return Interval(passes(flow=tool.pumps, time=moment.duration.low, volume=held.high), passes(flow=tool.pumps, time=moment.duration.high, volume=held.low))


def _for_passes(proven: Batch, here: Batch, before: Moment, after: Moment, name: str) -> str:
    wanted, tool, held = _passes(proven, before, name), _tool(here, after, name), volume(here.trace, after)
    if wanted is None or tool is None or not tool.pumps or held.high <= 0:
        return ""
    time = time_for_passes(flow=tool.pumps, passes=(wanted.low + wanted.high) / 2, volume=held.high)
    return f"as many passes take {time / 60:.3g} min"


def _equal_power(proven: Batch, here: Batch, before: Moment, after: Moment, name: str) -> str:
    """The speed at equal power for each volume, with the plants' power numbers, else the usual one of both; for what sweeps the wall there is none."""
    one, other = _tool(proven, before, name), _tool(here, after, name)
    running = next(running for running in before.turning if running.tool == name)
    if one is None or other is None or not (one.diameter and other.diameter) or running.speed is None or not running.speed.high or one.diameter == other.diameter:
        return ""
    numbers = (one.power_number, other.power_number)
    if None in numbers and name not in USUAL:
        return ""
    first, second = numbers if None not in numbers else (USUAL[name][0],) * 2
    turns = equal_power_speed(speed=running.speed.high, diameter=one.diameter, larger=other.diameter, power_number=first, larger_power_number=second)
    return f"equal power for each volume: {turns * 60:.0f} rpm{'' if None not in numbers else ', by the usual power number'}"


# ---- how long it takes


def _lasting(proven: Batch, here: Batch, before: Moment, after: Moment) -> Iterator[Difference]:
    verb = after.step.verb
    if verb in ("heat", "melt", "cool") and after.part == 0:
        yield Difference(after.step.number, "cooling" if verb == "cool" else "heating", after.vessel, "s", before.jacket or before.duration, after.jacket or after.duration)
    elif verb in ADDS and after.added and (before.duration or after.duration) and after.step.has("over"):
        yield Difference(after.step.number, "addition", after.vessel, "s", before.duration, after.duration, _slower(before, after))


def _slower(before: Moment, after: Moment) -> str:
    """At an equal flow for each surface of the vessel, time grows with the cube root of the volume."""
    if before.duration is None or before.mass <= 0 or before.duration.high == INFINITY:
        return ""
    factor = (after.mass / before.mass) ** (1 / 3)
    return f"the same flow for each surface takes {before.duration.high * factor / 60:.3g} min" if not LEAST <= factor <= MOST else ""


# ---- whole batches


def _filled(proven: Batch, here: Batch) -> Iterator[Difference]:
    for vessel in here.method.vessels:
        yield from (Difference(0, "fill level", vessel, "%", one, other) for one, other in [(_level(proven, vessel), _level(here, vessel))] if one or other)


def _level(batch: Batch, vessel: str) -> Interval | None:
    kettle, high = batch.plan.kettles.get(vessel), batch.plan.volumes.get(vessel, (0.0, 0.0))[1]
    full = kettle.working.high if kettle is not None and kettle.working is not None else 0
    return Interval(100 * high / full, 100 * high / full) if full and high else None


def _hot(proven: Batch, here: Batch) -> Iterator[Difference]:
    """How long each material is above its own heat limit."""
    before = {(one.row.code, one.moment.step.number): one for one in proven.trace.exposures}
    for exposure in here.trace.exposures:
        figure = exposure.material.figure("add below") or exposure.material.figure("never above")
        same = before.get((exposure.row.code, exposure.moment.step.number))
        if figure is None or same is None:
            continue
        one, other = (life(batch.trace, each).above(figure.value.low) for batch, each in ((proven, same), (here, exposure)))
        if one.high or other.high:
            yield Difference(exposure.moment.step.number, "above", f"{exposure.row.name} above {figure.written}", "s", one, other)


def _lost(proven: Batch, here: Batch) -> Iterator[Difference]:
    one, other = (_evaporated(batch) for batch in (proven, here))
    if one.high or other.high:
        yield Difference(0, "evaporation", "water", "%", one, other)


def _evaporated(batch: Batch) -> Interval:
    parts = [evaporated(batch.trace, moment) for moment in batch.trace.moments]
    total = float(batch.plan.mass)
    return Interval(100 * sum(part.low for part in parts) / total, min(100 * sum(part.high for part in parts) / total, 100.0), next((part.missing for part in parts if part.missing), ""))
