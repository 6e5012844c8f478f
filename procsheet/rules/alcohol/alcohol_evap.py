"""Strong alcohol stands in an open vessel.

Why it matters
    Alcohol leaves an open vessel long before the water does. The batch weighs nearly what it should and is too weak to do what it is
    for; what left lies along the floor, where a spark finds it.

Wrong
    type hydroalcoholic
    phase B: alcohol
        75 %  ethanol 96 %
    method
        add B to main with propeller
        rest main for 2 h

Wrong
    type hydroalcoholic
    phase B: alcohol
        75 %  ethanol 96 %
    method
        add B to main with propeller
        stir main with propeller until clear

Right
    type hydroalcoholic
    phase B: alcohol
        75 %  ethanol 96 %
    method
        add B to main with propeller
        close main
        rest main for 2 h

Limits
    From 34 % of alcohol by mass in the vessel, which is 40 % by volume, and 30 min without a lid, as far as times are written. Less, or no
    time written, and no lid anywhere from where it goes in to the pack: a hint.

Exceptions
    A lid, nitrogen, a kettle that the plant calls inerted. A kettle that has a lid still has to be closed by a step. Alcohol as a corrector,
    which is measured in at the end: one level lower. A batch that is warmed with alcohol in it, or put under vacuum, has rules of its own.

Source
    public handrub guides; common practice, no source, for the time
"""

from procsheet.findings import LOWER, Finding, Label
from procsheet.intervals import SMALL
from procsheet.rules.warmth import LEAVES
from procsheet.rules.words import minutes, share

NAME = "alcohol-evap"
LEVEL = "WARN"
HINT = "NOTE"
WHY = "Alcohol leaves long before the water: the strength falls short where no balance shows it, and the vapour lies along the floor."


def check(batch):
    strong = [moment for moment in batch.trace.moments if _is_strong(batch, moment)]
    for vessel in dict.fromkeys(moment.vessel for moment in strong):
        here = [moment for moment in strong if moment.vessel == vessel]
        bare = [moment for moment in here if _is_open(batch, moment)]
        lasting = sum(_time(moment) for moment in bare)
        if lasting >= batch.limit(NAME, "a warning"):
            yield _finding(batch, vessel, bare, lasting)
        elif len(bare) == len(here) and any(moment.turning or moment.step.verb == "shake" for moment in bare[1:]) and _goes_out(batch, here[-1]):
            yield _finding(batch, vessel, bare, 0.0)


def _strength(batch, moment) -> float:
    held = sum(moment.contents[row.code] * row.material.share("alcohol") for row in batch.trace.holds(moment, "alcohol"))
    return held / moment.mass if moment.mass else 0.0


def _is_strong(batch, moment) -> bool:
    return moment.vessel in batch.method.vessels and moment.step.verb not in LEAVES and _strength(batch, moment) >= batch.limit(NAME, "alcohol in the vessel")


def _is_open(batch, moment) -> bool:
    """In the room and no warmer: what is warmed with alcohol in it is told by another rule."""
    return moment.cover == "open" and not moment.closed and moment.peak.low <= batch.plan.plant.room.high + SMALL


def _time(moment) -> float:
    return moment.duration.low if moment.duration is not None else 0.0


def _goes_out(batch, moment) -> bool:
    """It is the batch, and no premix of it."""
    left = batch.trace.leaves(moment)
    return left.index == moment.index or moment.index in left.parents


def _finding(batch, vessel: str, bare, lasting: float) -> Finding:
    longest, entry = max(bare, key=_time), bare[0]
    place = longest if lasting else entry
    rows = [row.name for row in batch.trace.holds(place, "alcohol")]
    how = f"stands open for {minutes(lasting)}" if lasting else "is closed at no time"
    corrected = any(row.kind == "corrector" and row.material.is_a("alcohol") for row in batch.method.rows)
    level = LEVEL if lasting else HINT
    return Finding(LOWER[level] if corrected and lasting else level, NAME, f"{vessel} with {share(_strength(batch, place))} of alcohol {how}",
                   Label(place.span, "loses alcohol here"), (Label(entry.span, f"{rows[0]} is in {vessel} from here on"),) if place is not entry else (), WHY,
                   f"Write `close {vessel}` behind line {entry.span.line}, measure the strength before filling, and choose a vessel with room to spare.",
                   batch.source(NAME), step=place.step.number)
