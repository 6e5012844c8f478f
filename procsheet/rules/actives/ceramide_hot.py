"""A ceramide, sterol or the like is not dissolved in hot oil before the phases meet.

Why it matters
    These lipids melt far above the rest of the oil phase. What has not dissolved stays a powder in the cream: it feels like sand, does nothing for the
    skin, and seeds more crystals from what did dissolve.

Wrong
    phase B: oils
        0.2 %  ceramide NP
        8 %    caprylic/capric triglyceride
        4 %    glyceryl stearate (and) PEG-100 stearate
    method
        heat main to 65 °C
        charge B into side
        heat side to 65 °C
        emulsify side into main with homogeniser

Wrong
    phase B: oils
        8 %    caprylic/capric triglyceride
        4 %    glyceryl stearate (and) PEG-100 stearate
    phase C: lipids
        0.5 %  phytosterols
    method
        heat main to 75 °C
        charge B into side
        heat side to 75 °C
        emulsify side into main with homogeniser
        cool main to 40 °C
        add C to main

Right
    phase B: oils
        0.2 %  ceramide NP
        8 %    caprylic/capric triglyceride
        4 %    glyceryl stearate (and) PEG-100 stearate
    method
        heat main to 80 °C
        charge B into side
        heat side to 85 °C until clear
        emulsify side into main with homogeniser

Limits
    The heat at which the material's own data say that it dissolves in oil, less 5 °C; 80 °C for a ceramide whose data say none. A figure from memory
    stops from 10 °C on. Less than 0.01 % of the batch does not count.

Exceptions
    `until clear` or `until dissolved` up to 10 °C below. Ready dispersions of ceramides.

Needs
    needs

Source
    the materials' own data; from memory, for 80 °C
"""

from procsheet.intervals import Interval
from procsheet.model.material import Figure
from procsheet.rules import dissolving

NAME = "ceramide-hot"
LEVEL = "STOP"
ELSEWHERE = "uv filter solid"           # has a rule of its own
WHY = "What has not dissolved stays a powder: the cream feels like sand, and the powder seeds more crystals from what did dissolve."


def check(batch):
    rows = {row.code: wanted for row in batch.method.rows if batch.of_batch(row) >= batch.limit(NAME, "counts") and (wanted := _wanted(batch, row)) is not None}
    told: dict[tuple[str, int], list[dissolving.Way]] = {}
    for way in dissolving.ways(batch, rows):
        level = dissolving.level(batch, way, batch.apart(NAME, "short"))
        if level is not None:
            told.setdefault((level, way.moment.index), []).append(way)
    for (level, _), found in told.items():
        yield dissolving.told(NAME, WHY, level, found)


def _wanted(batch, row) -> Figure | None:
    """What it needs to dissolve in oil; None for what does not go into oil, or has a rule of its own."""
    if not row.material.is_a("oil phase") or row.material.is_a(ELSEWHERE):
        return None
    usual = batch.limit(NAME, "no figure of its own")
    return dissolving.wanted(row) or (Figure("needs", Interval(usual, usual), "80 °C", "common practice", "memory") if row.material.is_a("ceramide") else None)
