"""Clay is in the batch before the only preservative.

Why it matters
    Clay takes up phenoxyethanol and the like as they come: what is added to a finished clay paste never reaches the water in it. Tubes swell and
    smell after a week.

Wrong
    type paste
    phase B: clay
        20 %  kaolin
    phase C: keeping
        0.9 %  phenoxyethanol
    method
        disperse B in main
        add C to main

Right
    type paste
    phase B: clay
        20 %  kaolin
    phase C: keeping
        0.9 %  phenoxyethanol
    method
        add C to main
        disperse B in main

Limits
    5 % or more of clay in the vessel, all kinds together, and no preservative in the water before it.

Exceptions
    Another preservative that was in first: a hint. Products without water. Less clay, which only thickens.

Source
    three public sources on clay masks that spoiled; common practice, no source
"""

from procsheet.findings import Finding, Label
from procsheet.rules.words import share

NAME = "clay-preservative"
LEVEL = "WARN"
CLAYS = ("clay", "adsorbing clay")
NEARLY = 1e-9
WHY = "Clay takes up the preservative as it comes, and none reaches the water between its platelets: the tubes swell and smell after a week."


def check(batch):
    late = [one for one in batch.trace.exposures if one.material.is_a("preservative") and _clay(batch, one.moment) and batch.trace.weight(one.moment.contents, "water")]
    if late:
        first = late[0]
        earlier = [row for row in batch.trace.holds(first.moment, "preservative", before=True)]
        yield _finding(batch, first, _clay(batch, first.moment), earlier)


def _clay(batch, moment) -> float:
    """The share of clay that is in a vessel before a step; 0 where it is little."""
    total = sum(moment.before.values())
    held = sum(moment.before[row.code] for row in batch.trace.holds(moment, *CLAYS, before=True))
    return held / total if total and held >= batch.limit(NAME) * total - NEARLY else 0.0


def _finding(batch, one, clay, earlier) -> Finding:
    row, moment = one.row, one.moment
    came = next((step for step in batch.trace.history(moment) if batch.trace.holds(step, *CLAYS)), moment)
    return Finding("NOTE" if earlier else LEVEL, NAME, f"{row.name} goes into {moment.vessel} with {share(clay)} of clay in it", Label(moment.span, "the clay is in already"),
                   (Label(came.span, "clay goes in here"), Label(row.span, "is taken up by clay")), WHY,
                   f"Add {row.name} to the water before line {came.span.line}; or add a second preservative there, and have the paste tested.",
                   batch.source(NAME), material=row.name, step=moment.step.number)
