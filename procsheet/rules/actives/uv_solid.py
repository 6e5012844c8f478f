"""A solid sun filter is not dissolved before the phases meet.

Why it matters
    A filter that is not dissolved screens little and grows crystals: the film on the skin has holes, and the measured protection is a fraction of
    what the label says. Nothing of it shows in the kettle.

Wrong
    phase B: oils
        3 %  ethylhexyl triazone
        8 %  C12-15 alkyl benzoate
        3 %  glyceryl stearate (and) PEG-100 stearate
    method
        heat main to 75 °C
        charge B into side
        heat side to 62 °C
        emulsify side into main with homogeniser

Wrong
    phase B: oils
        8 %  C12-15 alkyl benzoate
        3 %  glyceryl stearate (and) PEG-100 stearate
    phase C: filter
        3 %  butyl methoxydibenzoylmethane
    method
        heat main to 78 °C
        charge B into side
        heat side to 78 °C
        emulsify side into main with homogeniser
        cool main to 40 °C
        add C to main with homogeniser

Wrong
    phase B: oils
        3 %  ethylhexyl triazone
        9 %  isohexadecane
        3 %  glyceryl stearate (and) PEG-100 stearate
    method
        heat main to 82 °C
        charge B into side
        heat side to 82 °C until clear
        emulsify side into main with homogeniser

Right
    phase B: oils
        3 %  ethylhexyl triazone
        8 %  C12-15 alkyl benzoate
        3 %  glyceryl stearate (and) PEG-100 stearate
    method
        heat main to 82 °C
        charge B into side
        heat side to 82 °C until clear
        emulsify side into main with homogeniser

Limits
    The heat at which the filter's own data say that it dissolves, less 5 °C; 75 °C where they say none. A figure from memory stops from 10 °C on.
    As much ester, liquid filter or the like as filter has to be in its vessel: silicone and paraffin dissolve none.

Exceptions
    `until clear` or `until dissolved` up to 10 °C below, and in a product that is no emulsion at any heat. Ready dispersions.

Needs
    needs

Source
    the filters' own data; common practice, no source
"""

from procsheet.findings import Finding, Label
from procsheet.model.material import Figure
from procsheet.intervals import Interval
from procsheet.rules import dissolving
from procsheet.rules.words import listed, weight

NAME = "uv-solid"
LEVEL = "STOP"
DISSOLVES = ("ester", "uv filter liquid", "triglyceride", "plant oil", "alcohol", "solvent", "liquid fatty alcohol", "fragrance", "essential oil")
FILTER = "uv filter solid"
WHY = "A filter that is not dissolved screens little and grows crystals: the measured protection is a fraction of what the label says."


def check(batch):
    rows = {row.code: _wanted(batch, row) for row in batch.method.rows if row.material.is_a(FILTER)}
    told: dict[tuple[str, int], list[dissolving.Way]] = {}
    for way in dissolving.ways(batch, rows):
        level = dissolving.level(batch, way, batch.apart(NAME, "short"))
        if level is not None:
            told.setdefault((level, way.moment.index), []).append(way)
        elif not way.is_late:
            yield from _in_nothing(batch, way)
    for (level, _), found in told.items():
        yield dissolving.told(NAME, WHY, level, found)


def _wanted(batch, row) -> Figure:
    own = dissolving.wanted(row)
    usual = batch.limit(NAME, "no figure of its own")
    return own if own is not None else Figure("needs", Interval(usual, usual), "75 °C", "common practice", "memory")


def _in_nothing(batch, way):
    """Where what it is heated in dissolves none of it; what is not known may."""
    rows = [batch.graph.rows[code] for code in way.moment.contents if code in batch.graph.rows]
    oils = [row for row in rows if row.material.is_a(*DISSOLVES) or not row.material.known]
    filters = sum(way.moment.contents[row.code] for row in rows if row.material.is_a(FILTER))
    enough = batch.limit(NAME, "to the filter") * filters
    if sum(way.moment.contents[row.code] for row in oils) < enough:
        moment, names = way.moment, listed(row.name for row in oils) or "nothing"
        yield Finding("WARN", NAME, f"{weight(filters)} of solid filter in {moment.vessel} has {names} to dissolve in", Label(moment.span, "too little that dissolves it"),
                      (Label(way.row.span, "dissolves in esters and liquid filters"),), WHY,
                      f"Bring at least {weight(enough)} of an ester or a liquid filter into {moment.vessel} before line {moment.span.line}.",
                      batch.source(NAME, "to the filter"), material=way.row.name, step=moment.step.number)
