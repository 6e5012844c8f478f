"""A clear gel is neutralised before the air is out.

Why it matters
    Stirring a powder in draws air into the water. In the thin dispersion the bubbles rise; once the base has made the gel they stay, and are
    seen in every clear pack.

Wrong
    type gel
    phase B: polymer
        0.5 %  carbomer
    phase C: base
        0.6 %  triethanolamine
    method
        disperse B in main, into the vortex, with homogeniser for 10 min
        neutralise main with C with anchor

Right
    type gel
    phase B: polymer
        0.5 %  carbomer
    phase C: base
        0.6 %  triethanolamine
    method
        disperse B in main, into the vortex, with homogeniser for 10 min
        rest main for 30 min
        neutralise main with C with anchor

Limits
    30 min of rest or slow stirring between the last high shear or vortex and the base.

Exceptions
    `deaerate`, vacuum, `until free of air`, before the base or after it. Dispersing with a slow stirrer. Emulsions, pastes and what is not a gel.

Source
    two public threads on bubbles in carbomer gels; common practice, no source, for the time
"""

from procsheet.findings import Finding, Label
from procsheet.rules import polymers
from procsheet.trace.trace import HIGH, LOW

NAME = "deaerate-before-neutralise"
LEVEL = "NOTE"
TYPES = ("gel", "hydroalcoholic")
WHY = "In the thin dispersion bubbles rise; once the base has made the gel they stay, and are seen in every clear pack."


def check(batch):
    if batch.type not in TYPES:
        return
    for one in batch.trace.exposures:
        swollen = polymers.swells(batch, one) if polymers.wants_base(one.material) else None
        aired = _aired(batch, one, swollen) if swollen is not None else None
        if aired is not None and not any(map(polymers.lets_air_out, batch.trace.path(swollen))):
            yield _finding(batch, one.row, aired, swollen)
            return


def _aired(batch, one, swollen):
    """The last step that drew air in, where nothing lets it out before the base."""
    between = [moment for moment in batch.trace.path(one.moment) if moment.index < swollen.index]
    last = next((moment for moment in reversed(between) if _draws_in(moment)), None)
    if last is None:
        return None
    after = [moment for moment in between if moment.index > last.index]
    still = [moment for moment in after if moment.shear.rank.high <= LOW]
    unknown = any(moment.duration is None and moment.step.has("until") for moment in after)
    time = sum(moment.duration.high for moment in still if moment.duration is not None)
    return None if unknown or any(map(polymers.lets_air_out, (last, *after))) or time >= batch.limit(NAME) else last


def _draws_in(moment) -> bool:
    return moment.cover != "vacuum" and (moment.shear.rank.low >= HIGH or moment.step.has("into the vortex", "vigorous stirring"))


def _finding(batch, row, aired, swollen) -> Finding:
    return Finding(LEVEL, NAME, f"{row.name} is neutralised before the air of line {aired.span.line} is out", Label(swollen.span, "what air is in it stays"),
                   (Label(aired.span, "draws air in"),), WHY, f"Put before line {swollen.span.line}: rest {swollen.vessel} for 30 min until free of air.",
                   batch.source(NAME), material=row.name, step=swollen.step.number)
