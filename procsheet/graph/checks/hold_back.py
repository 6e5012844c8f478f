"""A hold-back is used that was not set aside, or set aside and never used.

Why it matters
    Water held back for a rinse is missing from the batch if the rinse is forgotten.

Wrong
    phase C: late
        5 %  glycerin
    method
        rinse side with the hold-back into main

Right
    phase C: late
        5 %  glycerin
            hold back 1 %
    method
        add C to main
        rinse side with the hold-back into main
"""

from procsheet.findings import Finding, Label


def missing(step, take) -> Finding:
    return Finding("STOP", "hold-back", "nothing was held back for this step", Label(take.span), why="The crew finds no container for it.",
                   fix="Write `hold back 1.5 %` below the row it is taken from.", step=step.number, cannot_be_accepted=True)


def unused(row) -> Finding:
    return Finding("STOP", "hold-back", f"what is held back of {row.name} is never added", Label(row.span, "held back here"),
                   why="It is missing from the batch.", fix="Use it: rinse side with the hold-back into main; or make up main with it.", material=row.name,
                   cannot_be_accepted=True)
