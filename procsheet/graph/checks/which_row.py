"""A material stands in several phases, and the step does not say which is meant.

Why it matters
    Each row is weighed into a container of its own; the crew must know which one.

Wrong
    phase C: late
        5 %  glycerin
    phase D: later
        2 %  glycerin
    method
        add "glycerin" to main
        add the rest of C to main

Right
    phase C: late
        5 %  glycerin
    phase D: later
        2 %  glycerin
    method
        add "glycerin" from C to main
        add D to main
"""

from procsheet.findings import Finding, Label
from procsheet.syntax.slips import either


def finding(step, take) -> Finding:
    rows = take.rows
    return Finding("STOP", "which-row", f"{rows[0].name} stands in more than one place: {', '.join(row.code for row in rows)}", Label(take.span, "which one?"),
                   tuple(Label(row.span) for row in rows), "Each row is weighed into a container of its own; the crew must know which one.",
                   f'Say which: "{rows[0].name}" from {rows[0].phase}; there are {either(dict.fromkeys(row.phase for row in rows))}.', step=step.number,
                   material=rows[0].name, cannot_be_accepted=True)
