"""Acid or alkali goes in after an enzyme or a peptide.

Why it matters
    Each drop of acid is a place at pH 2 before it has spread. An enzyme that passes through it is dead, though the batch ends at the right pH.

Wrong
    phase B: enzyme
        0.5 %  papain
    phase C: pH
        as needed, at most 0.8 %  citric acid 20 % solution
    method
        add B to main
        adjust main to pH 5.5-6 with C, in portions

Right
    phase B: enzyme
        0.5 %  papain
    phase C: pH
        as needed, at most 0.8 %  citric acid 20 % solution
    method
        adjust main to pH 5.5-6 with C, in portions
        add B to main

Limits
    Any acid or alkali, weighed or as needed, into the vessel behind an enzyme: a warning. Behind a peptide it is a hint.

Exceptions
    Hydrolysed proteins, which stand it. Acids that are themselves the active, into a buffered batch, where the pH stays: sign for it. The same step.

Source
    common practice, no source
"""

from procsheet.findings import Finding, Label

NAME = "acid-before-sensitive"
LEVEL = "WARN"
SOUR = ("acid", "base")
WHY = "Each drop of acid is a place at pH 2 before it has spread: what passes through it is dead, though the batch ends at the right pH."


def check(batch):
    for one in batch.trace.exposures:
        if one.material.is_a("enzyme", "peptide"):
            found = next(((moment, portion.row) for moment in batch.trace.later(one.moment) for portion in moment.entering if _is_sour(portion.row)), None)
            if found is not None:
                yield _finding(batch, one, *found)


def _is_sour(row) -> bool:
    return row.material.is_a(*SOUR) and not row.material.is_a("preservative", "borate", "amidoamine")


def _finding(batch, one, moment, acid) -> Finding:
    row = one.row
    return Finding(LEVEL if one.material.is_a("enzyme") else "NOTE", NAME, f"{acid.name} goes into {moment.vessel} after {row.name}",
                   Label(one.moment.span, f"{row.name} goes in too early"), (Label(moment.span, f"{acid.name} goes in here"), Label(row.span, "suffers from acid")), WHY,
                   f"Set the pH first: add {row.name} after line {moment.span.line}.", batch.source(NAME), material=row.name, step=one.moment.step.number)
