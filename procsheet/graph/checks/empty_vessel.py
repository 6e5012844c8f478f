"""A step works on a vessel with nothing in it.

Why it matters
    The crew stands before an empty kettle: a charge was forgotten, or the batch has moved to another vessel.

Wrong
    phase C: late
        5 %  glycerin
    method
        heat side to 40 °C
        add C to main

Right
    phase C: late
        5 %  glycerin
    method
        add C to main
"""

from procsheet.findings import Finding, Label

WHY = "The crew stands before an empty kettle: a charge was forgotten, or the batch has moved to another vessel."


def finding(step, vessel: str, span=None) -> Finding:
    return Finding("STOP", "empty-vessel", f"{vessel} is empty when this step begins", Label(span or step.span, f"nothing is in {vessel}"), why=WHY,
                   fix=f"Charge something into {vessel} first, or name the vessel that holds the batch.", step=step.number, cannot_be_accepted=True)


def into_itself(step, take) -> Finding:
    return Finding("STOP", "empty-vessel", f"{take.vessel} is added to itself", Label(take.span), why=WHY, fix="Name two different vessels.",
                   step=step.number, cannot_be_accepted=True)
