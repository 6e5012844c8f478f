"""What is in a vessel never reaches the product.

Why it matters
    The batch is short of it, and the vessel stands full when the line is cleared.

Wrong
    phase C: late
        5 %  glycerin
    method
        charge C into side

Right
    phase C: late
        5 %  glycerin
    method
        charge C into side
        add side to main
"""

from procsheet.findings import Finding, Label


def holds(state, method) -> list[str]:
    """What stands in a vessel, by name; a dose that is still open counts."""
    rows = {row.code: row for row in method.rows}
    return [rows[code].name for code, mass in state.contents.items() if code in rows and (mass or rows[code].kind == "open")]


def finding(state, step, method, vessel: str) -> Finding:
    held = holds(state, method)
    what = ", ".join(held[:3]) + (f" and {len(held) - 3} more" if len(held) > 3 else "")
    return Finding("STOP", "content-lost", f"what is in {state.vessel} never reaches the product: {what}", Label(step.span, f"the last step with {state.vessel}"),
                   why="The batch is short of it, and the vessel stands full when the line is cleared.",
                   fix=f"Add a step such as: add {state.vessel} to {vessel}", step=step.number, cannot_be_accepted=True)
