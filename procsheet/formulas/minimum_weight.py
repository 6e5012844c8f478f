"""The least that may be weighed on a balance."""


def minimum_weight(*, reads: float, tolerance: float, repeatability: float = 0.0) -> float:
    """Return the least net weight whose weighing error stays within a tolerance.

    m = 2 max(s, 0.41 d) / p

    reads          [kg]  d, the last digit the balance shows
    tolerance      [1]   p, the share of the weight that the error may be
    repeatability  [kg]  s, standard deviation of ten weighings; 0 where it is not known
    returns        [kg]

    Valid for a balance that is level, warmed up and free of draughts.

    Example: a balance that reads 0.1 g, at 0.1 %, weighs nothing below 82 g.
    >>> round(minimum_weight(reads=0.0001, tolerance=0.001), 6)
    0.082

    Source: pharmacopoeia chapter on balances (USP 41): 2 s / 0.10 %, with 0.41 d in the place of a smaller s.
    """
    if reads <= 0 or not 0 < tolerance < 1:
        raise ValueError(f"minimum_weight needs reads > 0 and 0 < tolerance < 1, got {reads} kg, {tolerance}")
    return 2 * max(repeatability, 0.41 * reads) / tolerance
