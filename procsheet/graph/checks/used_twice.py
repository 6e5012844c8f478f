"""A phase or material is added a second time, when nothing is left of it.

Why it matters
    The second time the crew finds an empty container, or weighs a double dose.

Wrong
    phase C: late
        5 %  glycerin
    method
        add C to main
        add "glycerin" to main

Wrong
    phase C in the pack: late
        5 %  glycerin
    method
        add C to main

Right
    phase C: late
        5 %  glycerin
    method
        add half of C to main
        add the rest of C to main

Limits
    What a phase `in the pack` holds is weighed there; a step that adds it too weighs it a second time.
"""

from procsheet.findings import Finding, Label

WHY = "The second time the crew finds an empty container, or weighs a double dose."


def _also(first):
    return (Label(first.span, "all of it goes in here"),) if first is not None else ()


def finding(step, row, first, take) -> Finding:
    what = f"phase {take.phase}: {row.name}" if take.phase else row.name
    return Finding("STOP", "used-twice", f"nothing is left of {what} for this step", Label(take.span, "a second time"), _also(first), WHY,
                   "Leave out one of the two, or share it: `half of`, `20 % of`, then `the rest of`.", material=row.name, step=step.number, cannot_be_accepted=True)


def more_than_left(step, row, take, first) -> Finding:
    return Finding("STOP", "used-twice", f"more of {row.name} is taken than is left", Label(take.span), _also(first), WHY,
                   "Check the shares: together they may not pass the whole. `the rest of` takes what is left.", material=row.name, step=step.number,
                   cannot_be_accepted=True)


def in_pack(step, phase, take) -> Finding:
    return Finding("STOP", "used-twice", f"phase {phase.letter} goes into the pack, and this step weighs it a second time", Label(take.span, "a second time"),
                   (Label(phase.span, "in the pack: weighed there"),), "The sheet asks for it twice: at the filling line, and at this step.",
                   f"Leave out the step in line {step.span.line}; or, where it is charged by that step, take `in the pack` out of line {phase.span.line}.",
                   material=phase.rows[0].name, step=step.number, cannot_be_accepted=True)
