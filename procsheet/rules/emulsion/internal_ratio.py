"""There is more oil in an oil-in-water emulsion than its drops have room for.

Why it matters
    Equal spheres fill at most 74 % of a space. From about 50 % on drops touch often, and only a strong emulsifier keeps them apart;
    above the closest packing they are pressed flat, and most emulsions turn over.

Wrong
    phase B: oils
        65 %  mineral oil
        3 %  sorbitan stearate
        4 %  polysorbate 60
    method
        heat main to 75 °C
        charge B into side
        heat side to 75 °C
        add side to main with homogeniser

Right
    phase B: oils
        35 %  mineral oil
        3 %  sorbitan stearate
        4 %  polysorbate 60
    method
        heat main to 75 °C
        charge B into side
        heat side to 75 °C
        add side to main with homogeniser

Limits
    By volume, from the densities of the materials, in the finished batch: over 50 % a hint, over 60 % a warning, over 74 % a stop.
    Powders do not count.

Exceptions
    Oil outside. An emulsion that is meant to be so rich is signed for, with its trial.

Source
    geometry, for the closest packing of spheres; from memory, for 50 and 60 %
"""

from procsheet.findings import Finding, Label
from procsheet.rules.drops import OILS, joining
from procsheet.rules.words import share
from procsheet.trace.contents import internal_phase

NAME = "internal-ratio"
LEVEL = "WARN"
PACKED = "STOP"
NEARLY = 1e-6
WHY = "Drops that touch merge, and what is pressed together turns over: the cream becomes a greasy mass with the water running out of it."


def check(batch):
    joined = joining(batch)
    if batch.type != "oil-in-water emulsion" or joined is None or joined.facts.outside != "water":
        return
    last = batch.trace.leaves(joined)
    inner = internal_phase(batch.trace, last)
    levels = (("a stop", PACKED), ("a warning", LEVEL), ("a hint", "NOTE"))
    words, level = next(((words, level) for words, level in levels if inner is not None and inner > batch.limit(NAME, words) + NEARLY), (None, None))
    if level is not None:
        yield _finding(batch, joined, last, inner, words, level)


def _finding(batch, joined, last, inner, words, level) -> Finding:
    oils = sorted((row for row in batch.method.rows if batch.trace.affinities[row.code] in OILS and row.code in last.contents), key=lambda row: -last.contents[row.code])
    usual = share(batch.limit(NAME, "a hint"))
    limit = f"{share(batch.limit(NAME, words))} {'fills all the room there is' if level == PACKED else 'is a limit for most emulsifiers'}"
    return Finding(level, NAME, f"oil is {share(inner)} of this emulsion by volume, in drops; {limit}",
                   Label(oils[0].span, f"{share(batch.of_batch(oils[0]))} of the batch"),
                   (*(Label(row.span) for row in oils[1:3]), Label(joined.span, "the phases meet here")), WHY,
                   f"Bring the oils down, to under {usual} by volume, at the gain of water; or make it with oil outside.", batch.source(NAME, words), material=oils[0].name)
