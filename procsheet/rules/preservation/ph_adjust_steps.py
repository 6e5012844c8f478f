"""The pH is set with acid or alkali in one pour.

Why it matters
    The last tenth of a pH takes as much as the first whole one. In one pour the batch goes past the mark, and taking it back puts salt in
    that thins and clouds it.

Wrong
    phase B: pH
        as needed, about 0.3 %, at most 0.8 %  citric acid 20 % solution
    method
        adjust main to pH 5.0-5.5 with B

Right
    phase B: pH
        as needed, about 0.3 %, at most 0.8 %  citric acid 20 % solution
    method
        adjust main to pH 5.0-5.5 with B, in portions, each for 5 min

Limits
    A step that adjusts or neutralises to a pH with what is added as needed, and says nothing of portions, rate or time. Between portions 5
    to 10 minutes are usual.

Exceptions
    Slowly, drop by drop, over a time. A first setting that a later one follows in portions. Where the corrector has no cap either, that is
    told, and this is a hint.

Source
    common practice, no source
"""

from procsheet.findings import Finding, Label
from procsheet.rules.ph import measures

NAME = "ph-adjust-steps"
LEVEL = "WARN"
STEPWISE = ("each", "in portions", "portions", "slowly", "very slowly", "drop by drop", "over", "rate")
WHY = "The last tenth of a pH takes as much as the first whole one: in one pour the batch goes past the mark, and taking it back puts salt in."


def check(batch):
    found = [(moment, row) for moment in batch.trace.moments if sets_ph(moment) and not _in_steps(moment) for row in _correctors(moment)[:1]]
    if found and not any(sets_ph(one) and _in_steps(one) for one in batch.trace.later(found[-1][0])):
        yield _finding(batch, *found[-1])


def _correctors(moment):
    return [portion.row for portion in moment.entering if portion.row.kind in ("corrector", "open", "q.s.")]


def sets_ph(moment) -> bool:
    return moment.step.verb in ("adjust", "neutralise") and measures(moment)


def _in_steps(moment) -> bool:
    return any(clause.kind.startswith(STEPWISE) for clause in moment.step.written.clauses)


def _finding(batch, moment, row) -> Finding:
    return Finding(LEVEL if row.cap is not None else "NOTE", NAME, f"{row.name} sets the pH of {moment.vessel} in one pour",
                   Label(moment.span, "in one pour"), (Label(row.span, "as needed"),), WHY,
                   "Write `in portions, each for 5 min` behind it, and measure before each.", batch.source(NAME, "between portions"),
                   material=row.name, step=moment.step.number)
