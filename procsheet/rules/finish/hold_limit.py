"""A watery intermediate waits without a preservative, for many hours or for as long as nobody says.

Why it matters
    Germs double in an hour or less in warm water with a gum, an extract or a protein in it. The preservative that comes later kills some,
    and what they made stays.

Wrong
    phase B: gum
        5 %    glycerin
        0.5 %  xanthan gum
    phase C: late
        0.9 %  phenoxyethanol
    method
        add B to main with propeller
        rest main for 16 h
        add C to main with propeller

Wrong
    phase B: premix
        10 %   aloe vera juice
    phase C: late
        0.9 %  phenoxyethanol
    method
        charge B into side
        set aside side
        add side to main
        add C to main with propeller

Right
    phase B: premix
        10 %   aloe vera juice
    phase C: late
        0.9 %  phenoxyethanol
    method
        charge B into side
        set aside side for at most 4 h
        add side to main
        add C to main with propeller

Limits
    A rest of 8 h or more is a warning; `set aside` without a time is a hint.

Exceptions
    What holds a preservative or a fifth of alcohol already, is at 60 °C or above, or holds little water. A method without a
    preservative at all: other rules ask for one.

Source
    common practice, no source
"""

from procsheet.findings import Finding, Label
from procsheet.rules.words import minutes

NAME = "hold-limit"
LEVEL = "WARN"
WAITS = ("rest", "set aside", "hydrate", "hold")
TIMES = ("for", "within", "at most", "until", "after", "just before")
WHY = "Germs double within the hour in warm water that feeds them. A preservative that comes later kills them late, and what they made stays."


def check(batch):
    if not any(row.material.is_a("preservative") for row in batch.method.rows):
        return
    seen = set()
    for moment in batch.trace.moments:
        if moment.step.verb in WAITS and moment.vessel not in seen and _is_open_to_germs(batch, moment) and (finding := _judged(batch, moment)) is not None:
            seen.add(moment.vessel)
            yield finding


def _is_open_to_germs(batch, moment) -> bool:
    """Watery, lukewarm, no preservative and little alcohol in it, and one that comes later."""
    alcohol = sum(moment.contents[row.code] for row in batch.trace.holds(moment, "alcohol"))
    later = any(row.material.is_a("preservative") for one in batch.trace.later(moment) for row in batch.trace.holds(one, "preservative"))
    return (later and not batch.trace.holds(moment, "preservative") and alcohol < batch.limit(NAME, "alcohol that") * moment.mass
            and batch.trace.watery(moment.contents) >= batch.limit(NAME, "under which") * moment.mass and moment.peak.high < batch.limit(NAME, "from which germs"))


def _judged(batch, moment):
    long, line = batch.limit(NAME, "a warning"), moment.span.line
    if moment.duration is not None and moment.duration.low >= long and not moment.duration.missing:
        level, title = LEVEL, f"{moment.vessel} waits for {minutes(moment.duration.low)}, watery and without a preservative"
        fix = f"Put the preservative in before line {line}, if it stands what follows; or shorten line {line} to one shift, covered."
    elif moment.step.verb == "set aside" and not moment.step.has(*TIMES):
        level, title = "NOTE", f"how long {moment.vessel} may wait is not said; it is watery and holds no preservative"
        fix = f"Write in line {line}: set aside {moment.vessel} for at most 4 h, covered; or the time that your own trial allows."
    else:
        return None
    came = next((one for one in batch.trace.later(moment) if batch.trace.holds(one, "preservative")), moment)
    return Finding(level, NAME, title, Label(moment.span, "it waits here"), (Label(came.span, "the preservative comes here"),), WHY, fix,
                   batch.source(NAME, "a warning"), step=moment.step.number)
