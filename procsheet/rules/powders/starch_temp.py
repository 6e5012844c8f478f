"""Starch that is to stay a powder gets into water hotter than it swells at.

Why it matters
    Above its gelling temperature a grain of starch takes up many times its weight of water and bursts: the silky powder is gone, the batch thickens
    to a paste, and no cooling brings it back.

Wrong
    phase B: powder
        5 %  corn starch
    method
        heat main to 75 °C
        add B to main with propeller

Wrong
    phase B: powder
        5 %  corn starch
    method
        add B to main with propeller
        heat main to 75 °C

Right
    phase B: powder
        5 %  corn starch
    method
        heat main to 75 °C
        cool main to 35 °C with propeller
        add B to main with propeller

Limits
    The figure in the data of the starch, else 60 °C, in what is a fifth of water or more.

Exceptions
    Oils, melts and sticks without water; water in drops with oil outside. A gel that the starch is to thicken, with nothing else in it that does.
    Starch that was swollen before, and modified ones that thicken cold.

Needs
    needs below ... in water

Source
    common practice, no source, for 40 to 60 °C; the figures of single starches from memory
"""

from procsheet.findings import Finding, Label
from procsheet.rules.batch import gravest, judge
from procsheet.rules.warmth import later
from procsheet.rules.words import celsius

NAME = "starch-temp"
LEVEL = "WARN"
WATERY = 0.2                            # of the vessel: in less a grain finds no water to swell in (common practice, no source)
WHY = "Its grains take up water and burst: the silky powder is gone, the batch thickens to a paste, and cooling does not bring it back."


def check(batch):
    if batch.is_water_in_oil or batch.type == "gel" and not any(row.material.is_a("thickener of water") for row in batch.method.rows):
        return
    found: dict[str, list[Finding]] = {}
    for one in batch.trace.exposures:
        if one.material.is_a("starch") and not one.material.is_a("thickener of water") and "water" not in one.material.words("dissolves in"):
            found.setdefault(one.row.code, []).extend(_swollen(batch, one))
    yield from filter(None, map(gravest, found.values()))


def _swollen(batch, one):
    """Every step that holds it in water too hot."""
    figure = next((figure for figure in one.material.figures("needs") if "water" in figure.words), None)
    limit = figure.value.high if figure else batch.limit(NAME)
    for moment in batch.trace.path(one.moment):
        if batch.trace.watery(moment.contents) >= WATERY * moment.mass:
            level = judge(LEVEL, batch.hotter(moment.allowed, limit), figure, moment.allowed.high - limit)
            if level is not None and level != "OPEN":
                yield _finding(batch, one, moment, level, limit, figure)


def _finding(batch, one, moment, level, limit, figure) -> Finding:
    here = one.moment.span == moment.span
    return Finding(level, NAME, f"{one.row.name} is in water at {celsius(moment.allowed)} in {moment.vessel}; it swells above {celsius(limit)}",
                   Label(moment.span, f"{one.row.name} goes in here" if here else "swells here"), (Label(one.row.span if here else one.moment.span, "to stay a powder"),), WHY,
                   f"Take {one.row.name} out of line {one.moment.span.line} and add it {later(batch, moment, limit)}.",
                   f"data of {one.material.name}: {figure.told}" if figure else batch.source(NAME), material=one.row.name, step=moment.step.number)
