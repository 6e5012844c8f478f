"""A phase or material of the formula is never added, or not all of it.

Why it matters
    It is weighed, stands on the bench and is missing from the batch.

Wrong
    phase C: late
        5 %  glycerin
    method
        stir main for 5 min

Right
    phase C: late
        5 %  glycerin
    method
        add C to main
"""

from fractions import Fraction

from procsheet.findings import Finding, Label
from procsheet.model.checks.formula_total import percent

WHY = "It is weighed, stands on the bench and is missing from the batch."


def of_phase(phase, vessel: str) -> Finding:
    return Finding("STOP", "never-added", f"phase {phase.letter} is never added", Label(phase.span, "no step uses it"), why=WHY,
                   fix=f"Add a step such as: add {phase.letter} to {vessel}", cannot_be_accepted=True)


def of_row(row, vessel: str) -> Finding:
    return Finding("STOP", "never-added", f"{row.name} of phase {row.phase} is never added", Label(row.span, "no step uses it"), why=WHY,
                   fix=f'Add a step such as: add "{row.name}" to {vessel}', material=row.name, cannot_be_accepted=True)


def left_over(row, share: Fraction, step, vessel: str) -> Finding:
    also = (Label(step.span, "takes the first part"),) if step else ()
    return Finding("STOP", "never-added", f"{percent(share)} of {row.name} is never added", Label(row.span, "some of it is left over"), also, WHY,
                   f'Add the rest: add the rest of "{row.name}" to {vessel}', material=row.name, cannot_be_accepted=True)
