"""The last addition is filled before it is mixed in.

Why it matters
    A perfume or preservative that went in last is spread by the stirrer alone. The first packs hold too much of it, the last none.

Wrong
    phase B: late
        0.9 %  phenoxyethanol
    method
        add B to main with anchor, then for 1 min
        fill main

Wrong
    product Large
    type gel
    basis 100 kg
    to 100 %  purified water
    phase B: late
        0.9 %  phenoxyethanol
    vessel main
    method
        charge "purified water" into main
        add B to main with propeller, then for 5 min
        fill main

Right
    phase B: late
        0.9 %  phenoxyethanol
    method
        add B to main with anchor, then for 10 min
        make up main with "purified water" to 100 %
        mix main for 10 min with anchor
        fill main

Limits
    All stirring from the last addition to the pack together: 10 min from 20 kg on (20 min are usual), 2 min on the bench and for what is
    poured hot and thin. `until uniform`, heating and cooling, shaking, a pass through a device, and an adjustment with its measurements
    are enough by themselves. What is made up to a volume is a hint. Mixing without a time, or `briefly`, is an open point at production
    size.

Exceptions
    Soap, which is poured before it sets. What goes into an empty vessel, into a step that goes on, or into the pack.

Source
    scale-up guide of a formulators' site for 20 min; common practice, no source, for the others
"""

from procsheet.findings import Finding, Label
from procsheet.model import quantities
from procsheet.rules.words import listed, minutes
from procsheet.trace.trace import LOW

NAME = "min-mix-after-add"
LEVEL = "WARN"
OUT = ("fill", "pour", "discharge")
STILL = ("rest", "set aside", "check", "sample", "compare", "stop stirring")
ENOUGH = ("heat", "cool", "recirculate", "pass", "adjust", "react", "shake")
MIXES = ("mix", "stir", "homogenise", "mill")
STIRS = ("tool", "stirring", "moderate stirring", "fast stirring", "vigorous stirring", "slow stirring", "gentle stirring", "speed")
POUR = 0.1                              # of the vessel: more is no small addition (common practice, no source)
WHY = "What goes in last is spread by the stirrer alone: the first packs hold too much of it and the last too little. A sample from the top does not show it."


def check(batch):
    seen = set()
    for left in batch.trace.moments if batch.type != "soap" else ():
        last = _last_addition(batch, left) if left.step.verb in OUT else None
        if last is not None and last.index not in seen:
            seen.add(last.index)
            yield from _judged(batch, last, left)


def _last_addition(batch, left):
    """The last step before the pack that brings something to what stands in a vessel."""
    last = next((one for one in reversed(batch.trace.history(left)[:-1]) if one.before and one.added and one.vessel in batch.method.vessels), None)
    return last if last is not None and last.step.verb not in OUT and not last.step.has("during", "last of") else None


def _judged(batch, last, left):
    way = [one for one in batch.trace.path(last) if one.index < left.index and one.step.verb not in STILL]
    if any(one.step.verb in ENOUGH or one.step.has("until", "each until") for one in way):
        return
    stirred = [one for one in way if one.shear.rank.low >= LOW or one.turning]
    time = sum(one.duration.low for one in stirred if one.duration is not None) + _waits(batch, last, left, bool(stirred))
    words, least = _least(batch, left)
    if time >= least - 1:
        return
    level = _level(batch, last, stirred)
    if level == "OPEN" and words.startswith("on the bench"):
        return
    mixed = [one for one in stirred if one.step.verb in MIXES]
    place = next((one for one in mixed if one.duration is None), (mixed or [last])[-1])
    yield _finding(batch, last, place, time, level, words, left)


def _least(batch, left) -> tuple[str, float]:
    """Which limit holds, and the limit [s]."""
    large = float(batch.plan.mass) >= batch.limit(NAME, "from which it is") and left.start.low < batch.limit(NAME, "hot and thin")
    words = "production size as the least" if large else "on the bench"
    return words, batch.limit(NAME, words)


def _level(batch, last, stirred) -> str:
    """Unsaid where a mixing step gives no time, or a large pour is stirred for as long as nobody says."""
    loose = any(one.duration is not None and one.duration.missing or one.duration is None and one.step.verb in MIXES for one in stirred)
    pour = sum(last.added.values()) >= POUR * last.mass and last.duration is None and last.step.has(*STIRS)
    if loose or pour:
        return "OPEN"
    return "NOTE" if last.step.verb == "make up" and batch.method.by_volume else LEVEL


def _finding(batch, last, place, time: float, level: str, words: str, left) -> Finding:
    names = [batch.graph.rows[code].name for code in last.added if code in batch.graph.rows]
    usual = batch.limit(NAME, "usual" if words.startswith("production") else words)
    done = "how long it is mixed then is not said" if level == "OPEN" else f"mixed for {minutes(time)} before it leaves" if time else "no mixing follows before it leaves"
    mixes = place.step.verb in MIXES
    fix = f"Write in line {place.span.line}: for {minutes(usual)}." if mixes else f"Put a step before line {left.span.line}: mix {last.vessel} for {minutes(usual)}."
    return Finding(level, NAME, f"{listed(names)} {'go' if len(set(names)) > 1 else 'goes'} into {last.vessel} last: {done}; {minutes(usual)} are usual",
                   Label(place.span, "no time to spread"), (Label(last.span, "goes in here"),) if place is not last else (), WHY, fix,
                   batch.source(NAME, words), step=place.step.number)


def _waits(batch, last, left, stirred: bool) -> float:
    """Seconds of waiting in between, while the stirrer runs."""
    waits = [node.step.written.slots for node in batch.graph.nodes if stirred and last.node < node.index < left.node and node.step.verb == "wait"]
    times = [quantities.interval(slots["t"]) for slots in waits if "t" in slots]
    return sum(max(time.low, 0.0) for time in times if time is not None)
