"""What light spoils stands open for hours, or goes into a clear pack.

Why it matters
    Daylight and plain lamps take retinoids, vitamins and peroxide apart. An open kettle that rests overnight under the lamps loses in one night what the
    pack was chosen to keep for a year.

Wrong
    type solution
    phase B: active
        0.5 %  cyanocobalamin
    method
        add B to main until dissolved
        rest main for 12 h

Wrong
    type solution
    phase B: active
        0.5 %  cyanocobalamin
    container bottle "30 mL clear glass bottle"
    method
        add B to main until dissolved
        fill main into bottle

Right
    type solution
    phase B: active
        0.5 %  cyanocobalamin
    method
        add B to main until dissolved
        rest main for 12 h covered

Limits
    Two hours and more of rest without a lid, from 0.01 % of what its data call light-sensitive. A pack that its own words call clear or transparent.

Exceptions
    A lid, nitrogen or vacuum, a vessel called amber, brown or dark. Dyes have a rule of their own.

Needs
    light

Source
    common practice, no source
"""

import re

from procsheet.findings import Finding, Label
from procsheet.rules.words import minutes

NAME = "light-sensitive"
LEVEL = "NOTE"
ELSEWHERE = ("color", "pearlescent")
RESTS = ("rest", "hold", "set aside", "cure")
CLEAR = re.compile(r"\b(clear|transparent|flint)\b", re.IGNORECASE)
DARK = re.compile(r"amber|brown|dark|black|opaque|alumini?um|stainless", re.IGNORECASE)
WHY = "Light takes it apart: a night under the lamps, or a month in a clear pack, loses what was weighed in for a year."


def check(batch):
    told: set[int] = set()
    for exposure in batch.trace.exposures:
        material = exposure.material
        if material.has("light") and material.kind not in ELSEWHERE and batch.of_batch(exposure.row) >= batch.limit(NAME, "counts"):
            for moment in batch.trace.path(exposure.moment):
                if moment.index not in told and (found := _lit(batch, exposure, moment)) is not None:
                    told.add(moment.index)
                    yield found


def _lit(batch, exposure, moment) -> Finding | None:
    row = exposure.row
    words = " ".join([moment.vessel, moment.step.into, *(place.text for place in batch.method.places if place.name in (moment.vessel, moment.step.into))])
    if moment.step.verb in RESTS and moment.vessel in batch.method.vessels and _long(batch, moment) and moment.cover == "open" and not moment.closed and not DARK.search(words):
        return _finding(batch, row, moment, f"{row.name}, which light spoils, stands open in {moment.vessel} for {minutes(moment.duration.low)}", "open to the light",
                        f"Write `covered` in line {moment.span.line}.")
    if moment.step.verb in ("fill", "pour") and CLEAR.search(words) and not DARK.search(words):
        return _finding(batch, row, moment, f"{row.name}, which light spoils, goes into a clear pack", "clear", f"Take a brown or opaque pack in line {moment.span.line}, or one in a carton.")
    return None


def _long(batch, moment) -> bool:
    return moment.duration is not None and moment.duration.low >= batch.limit(NAME, "of rest")


def _finding(batch, row, moment, title, label, fix) -> Finding:
    return Finding(LEVEL, NAME, title, Label(moment.span, label), (Label(row.span, "keep from light"),), WHY, fix, batch.source(NAME, "of rest"), material=row.name, step=moment.step.number)
