"""The oil of a water-in-oil emulsion lies outside what its emulsifier works with.

Why it matters
    Too little oil cannot go round all the drops: they touch and merge, or the emulsion turns over. Too much, for some emulsifiers,
    leaves a thin cream that separates.

Wrong
    type water-in-oil emulsion
    phase B: oils
        8 %  caprylic/capric triglyceride
        3 %  PEG-30 dipolyhydroxystearate

Right
    type water-in-oil emulsion
    phase B: oils
        20 %  caprylic/capric triglyceride
        3 %  PEG-30 dipolyhydroxystearate

Limits
    The window of the emulsifier there is most of (`oil phase`, `needs oil phase`); where its data say nothing, less than 15 % is a warning,
    less than 20 % a hint. Everything that belongs to the oil or silicone counts, emulsifier and volatiles too; powders do not.

Exceptions
    More oil than the window, where waxes thicken it.

Needs
    oil phase

Source
    supplier page on a glyceryl oleate emulsifier; formulators' forum on silicone emulsifiers; common practice, no source, where an
    emulsifier says nothing
"""

from procsheet.findings import Finding, Label
from procsheet.intervals import INFINITY
from procsheet.rules.words import share

NAME = "oil-phase-min"
LEVEL = "WARN"
LITTLE = "Too little oil cannot go round all the drops: they touch and merge, or the emulsion turns over in the kettle."
MUCH = "With more oil than the emulsifier can hold the cream stays thin and the drops sink to the bottom."


def check(batch):
    oils = [row for row in batch.method.rows if batch.trace.affinities[row.code] in ("oil", "silicone")]
    if not batch.is_water_in_oil or not oils or any(row.kind == "open" for row in oils if row.material.known and not row.material.is_a("perfume", "preservative")):
        return
    there = sum(batch.of_batch(row) for row in oils)
    emulsifier = max((row for row in oils if row.material.is_a("w/o emulsifier")), key=batch.of_batch, default=None)
    lowest, highest = _window(emulsifier)
    waxes = any(row.material.is_a("structures oil", "thickener of oil") for row in oils)
    if lowest and there < lowest.value.low - 1e-6:
        yield _finding(batch, LEVEL, emulsifier, there, f"works from {share(lowest.value.low)}", LITTLE, lowest)
    elif highest and there > highest.value.high + 1e-6 and not waxes:
        yield _finding(batch, LEVEL, emulsifier, there, f"works up to {share(highest.value.high)}", MUCH, highest)
    elif not lowest and there < _usual(batch) - 1e-6:
        level = LEVEL if there < batch.limit(NAME, "oil phase", min) else "NOTE"
        yield _finding(batch, level, emulsifier, there, f"from {share(_usual(batch))} most emulsifiers work", LITTLE, None)


def _usual(batch) -> float:
    """The least oil that most emulsifiers work with; where sources disagree the safer."""
    return batch.limit(NAME, "oil phase", max)


def _window(emulsifier):
    """The figures for the least and the most oil an emulsifier works with."""
    if emulsifier is None:
        return None, None
    figures = [*emulsifier.material.figures("oil phase"), *(one for one in emulsifier.material.figures("needs") if one.words == ("oil", "phase"))]
    bounded = [one for one in figures if one.value.high < INFINITY]
    return max(figures, key=lambda one: one.value.low, default=None), min(bounded, key=lambda one: one.value.high, default=None)


def _finding(batch, level, emulsifier, there, works, why, figure) -> Finding:
    closing = batch.method.closing
    place = emulsifier or closing or batch.method.rows[0]
    fix = (f"Bring the oils to {share(figure.value.low) if figure else share(_usual(batch))} or more, at the cost of water" if why is LITTLE else
           f"Bring the oils to {share(figure.value.high)} or less, or thicken them with a wax")
    return Finding(level, NAME, f"the oil is {share(there)} of the batch; {f'{emulsifier.name} {works}' if figure else works}",
                   Label(place.span, works), (Label(closing.span, "the water takes the rest"),) if closing and closing is not place else (), why,
                   f"{fix}, or choose an emulsifier for this share.", f"data of {emulsifier.material.name}: {figure.told}" if figure else batch.source(NAME, "oil phase"),
                   material=emulsifier.name if emulsifier else "")
