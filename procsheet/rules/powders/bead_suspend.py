"""Beads or grains go into something thin that does not hold them up.

Why it matters
    A thick liquid only slows a bead down; a yield stress stops it. Without one the beads lie on the bottom of the kettle, the first tubes are filled
    without them and the last are full of them.

Wrong
    type surfactant solution
    phase B: wash
        30 %  sodium laureth sulfate 28 %
    phase C: grains
        2 %  apricot kernel powder
    method
        add B to main with paddle
        add C to main with paddle

Wrong
    type gel
    phase B: gel
        0.6 %  carbomer
    phase C: grains
        1 %  jojoba wax bead
    phase D: base
        0.6 %  triethanolamine
    method
        disperse B in main with homogeniser
        add C to main with paddle
        neutralise main with D with paddle

Right
    type gel
    phase B: gel
        0.6 %  carbomer
    phase C: grains
        1 %  jojoba wax bead
    phase D: base
        0.6 %  triethanolamine
    method
        disperse B in main with homogeniser
        neutralise main with D with paddle
        add C to main with paddle

Limits
    Carbomer and the like once the base is in, xanthan, gellan, agar, swelling clays, fine silica. Cellulose ethers, guar and salt make it thick and hold
    nothing. From 0.05 % of grains on.

Exceptions
    Emulsions, pastes, anhydrous scrubs and suspensions that stand on their own fat or powder. Beads and thickener that go in together. Something of
    which nothing is known may be the thickener.

Source
    common practice, no source
"""

from procsheet.findings import Finding, Label
from procsheet.model.material import fold
from procsheet.rules.words import listed, share

NAME = "bead-suspend"
LEVEL = "WARN"
THIN = ("gel", "surfactant solution", "solution", "hydroalcoholic")
GRAINS = ("bead", "grain")
WITH_BASE = ("carbomer", "polymeric emulsifier", "associative thickener")
READY = fold("pre-neutralised polymer")
STRUCTURE = ("structures oil", "soap")
WHY = "A thick liquid only slows grains down, a yield stress holds them: they lie on the bottom, the first packs have none and the last are full of them."


def check(batch):
    if batch.type not in THIN or sum(batch.of_batch(row) for row in batch.method.rows if row.material.is_a(*STRUCTURE)) >= batch.limit(NAME, "wax"):
        return
    told: set[int] = set()
    for one in batch.trace.exposures:
        into = next((moment for moment in batch.trace.path(one.moment) if batch.trace.watery(moment.contents) > moment.mass / 2), None)
        if one.material.is_a(*GRAINS) and batch.of_batch(one.row) >= batch.limit(NAME, "grains") and into is not None and into.index not in told and not _holds(batch, into):
            told.add(into.index)
            yield _finding(batch, one.row, into)


def _holds(batch, moment) -> bool:
    rows = [batch.graph.rows[code] for code in moment.contents if code in batch.graph.rows]
    return any(_makes_yield(row, rows) or not row.material.known for row in rows)


def _makes_yield(row, rows) -> bool:
    material = row.material
    if not material.is_a("holds grains"):
        return False
    return not material.is_a(*WITH_BASE) or material.kind == READY or any(one.material.is_a("base", "neutraliser") for one in rows)


def _finding(batch, row, moment) -> Finding:
    later = [one for one in batch.method.rows if one.material.is_a("holds grains")]
    base = next((one for one in batch.method.rows if one.material.is_a("base", "neutraliser")), None)
    title = f"{share(batch.of_batch(row))} of {row.name} goes into {moment.vessel}, and nothing there holds it up yet" if later else \
        f"{share(batch.of_batch(row))} of {row.name} goes into {moment.vessel}, and nothing in the formula holds it up"
    names = listed(one.name for one in later)
    fix = (f"Add {row.name} after {names} {'and ' + base.name + ' are' if base is not None else 'is'} in and the batch has thickened." if later else
           "Bring in a thickener with a yield stress before the grains: a carbomer and its base, 0.3 % xanthan gum, or gellan.")
    return Finding(LEVEL, NAME, title, Label(moment.span, "too thin to hold it"), (Label(row.span, "sinks or floats"), *(Label(one.span, "would hold it") for one in later[:2])),
                   WHY, fix, batch.source(NAME), material=row.name, step=moment.step.number)
