"""A gum does not get the time it needs to swell.

Why it matters
    A gum cut short goes on thickening in the drum and in the pack: batches differ, and the viscosity that was released is not the one
    that is filled. Salt, alcohol or a thick batch can stop it for good.

Wrong
    phase B: gum
        5 %  glycerin
        0.4 %  xanthan gum
    phase C: salt
        1 %  sodium chloride
    method
        charge "glycerin" into pail
        disperse "xanthan gum" in pail
        add pail to main over 2 min with propeller
        mix main for 3 min with propeller
        add C to main

Right
    phase B: gum
        5 %  glycerin
        0.4 %  xanthan gum
    phase C: salt
        1 %  sodium chloride
    method
        charge "glycerin" into pail
        disperse "xanthan gum" in pail
        add pail to main over 2 min with propeller
        hydrate main for 15 min with propeller
        add C to main

Limits
    All stated times count from the step in which the gum meets water to the step that ends its swelling: salt, surfactant, alcohol, another
    thickener, the other phase of an emulsion, cooling, filling; a preservative that is a salt does not count. Where a `hydrate` step gives
    a time, whatever is added next ends it. A figure from memory is only a hint, and so is half the time that is usual for its kind.

Exceptions
    `until hydrated`, and any step between whose length nobody knows: heating without a plant, an end point to look for. Where no time
    is written at all, it is an open point, for a gum whose data say what it needs.

Needs
    hydrates for

Source
    the gum's own data; two xanthan supplier pages for 15 min; public threads dispute any wait once it is slurried
"""

from procsheet.findings import Finding, Label
from procsheet.intervals import BEYOND, STRADDLES, Interval, below, plus, point
from procsheet.rules.words import minutes
from procsheet.syntax import tree
from procsheet.trace.trace import NONE

NAME = "gum-hydrate-time"
LEVEL = "WARN"
AT_ONCE = ("add", "charge", "check", "sample", "transfer", "close", "open", "rinse", "note", "stop stirring", "stop heating")
ENDS = ("electrolyte", "surfactant", "alcohol", "thickener of water", "cationic polymer")
NEARLY_ENOUGH = 0.5                     # of a time that is only usual for its kind (common practice, no source)
LEAVES = ("cool", "fill", "pour", "discharge")
WHY = "A gum cut short goes on thickening in the drum and in the pack; salt, alcohol or a thick batch may stop it for good."


def check(batch):
    told = set()
    for one in batch.trace.exposures:
        if one.material.is_a("gum") and one.row.code not in told and (found := _short(batch, one)):
            told.add(one.row.code)
            yield _finding(batch, one.row, *found)


def _short(batch, one):
    """The level, where it meets the water, where its swelling ends, the time between, and what it needs."""
    figure = one.material.figure("hydrates for")
    need = figure.value.high if figure else batch.limit(NAME)
    start, end, time = _swelling(batch, one)
    if end is None or time is None:
        return None
    if time.high <= 0:
        return ("OPEN", start, end, time, need, figure) if figure is not None else None
    verdict = below(time, need)
    if verdict not in (BEYOND, STRADDLES):
        return None
    usual = not one.material.lines.get("hydrates for") and time.high >= NEARLY_ENOUGH * need
    unsure = verdict == STRADDLES or figure is not None and figure.from_memory or usual
    return ("NOTE" if unsure else LEVEL), start, end, time, need, figure


def _swelling(batch, one):
    """From the first water to the step that ends the swelling; the time is None where a step between may take any length."""
    start, time, held, given = None, point(0.0), {}, False
    for moment in batch.trace.path(one.moment):
        if start is None:
            start = moment if batch.watery(moment.contents) > moment.contents.get(one.row.code, 0.0) else None
        elif _ends(batch, moment, start, held) or given and (moment.entering or moment.poured):
            return start, moment, time
        if start is not None:
            time = _counted(moment, time)
            given = moment.step.verb == "hydrate"           # the method itself says: so long, and then the next
        held = moment.contents
    return start, None, time


def _ends(batch, moment, start, held: dict[str, float]) -> bool:
    """Whether a step ends it: by what it brings to the gum, by what it does, or because it takes the batch away."""
    rows = batch.graph.rows
    added = [rows[code].material for code in moment.contents if code not in held and code in rows]
    host = batch.graph.nodes[start.node].inside == moment.step.number
    return (any(material.is_a(*ENDS) and not material.is_a("preservative") for material in added) or moment.facts.met == moment.index or moment.facts.neutralised != moment.before_facts.neutralised
            or moment.step.verb in LEAVES and not host)


def _counted(moment, time: Interval | None) -> Interval | None:
    until = moment.step.value("until")
    if time is None or moment.duration is None and (moment.step.verb not in AT_ONCE or until is not None):
        return None
    if isinstance(until, tree.States) and "hydrated" in until.names or moment.parts > 1:
        return None
    return time if moment.duration is None else plus(time, moment.duration)


def _finding(batch, row, level, start, end, time, need, figure) -> Finding:
    source = f"data of {row.material.name}: {figure.told}" if figure else batch.source(NAME)
    what = "only" if start.shear.rank.high > NONE else "unstirred"
    line, lacking = end.span.line, minutes(max(need - time.low, 60))
    if level == "OPEN":
        return Finding(level, NAME, f"how long {row.name} swells before line {line} is not said; it needs {minutes(need)}", Label(end.span, "its swelling ends here"),
                       (Label(start.span, "it meets the water here"),), WHY, f"Put before line {line}: hydrate {start.vessel} for {lacking} with a slow stirrer.",
                       source, material=row.name, step=end.step.number)
    return Finding(level, NAME, f"{row.name} has {what} {minutes(time.high)} to swell before line {line}; it needs {minutes(need)}",
                   Label(end.span, "its swelling ends here"), (Label(start.span, "it meets the water here"),), WHY,
                   f"Put before line {line}: hydrate {start.vessel} for {lacking} with a slow stirrer.", source, material=row.name, step=end.step.number)
