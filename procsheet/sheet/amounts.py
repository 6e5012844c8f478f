"""A column of amounts stands with its decimal points under each other."""

DIGIT, POINT = 0.54, 0.27       # em, of the condensed face


def paddings(amounts: tuple[str, ...], *, room: float) -> tuple[float, ...]:
    """Return the space to the right of each amount [em], never more than fits beside it in a column of `room` [em]."""
    tails = [breadth(tail(amount)) for amount in amounts]
    return tuple(max(0.0, round(min(max(tails) - own, room - breadth(amount)), 2)) if amount else 0.0
                 for amount, own in zip(amounts, tails))


def tail(amount: str) -> str:
    """The decimal point and what stands behind it."""
    point = amount.rfind(".")
    return amount[point:] if point >= 0 else ""


def breadth(amount: str) -> float:
    return sum(DIGIT if char.isalnum() else POINT for char in amount)
