"""How often a batch goes through a head that pumps."""

from math import exp


def passes(*, flow: float, time: float, volume: float) -> float:
    """Return how often the whole batch has passed the head, on the average.

    n = Q t / V

    flow     [m3/s]  what the head pumps
    time     [s]
    volume   [m3]    of the batch
    returns  [1]

    Valid where the vessel is mixed while the head works.

    Example: 2 m3/h for 30 min on 200 L are five turnovers.
    >>> round(passes(flow=2 / 3600, time=1800, volume=0.2), 6)
    5.0

    Source: table scaleup_examples of the handbook, row "rotor-stator turnovers".
    """
    if min(flow, volume) <= 0 or time < 0:
        raise ValueError("flow and volume must be above 0, time not below it")
    return flow * time / volume


def time_for_passes(*, flow: float, passes: float, volume: float) -> float:
    """Return the time after which a batch has passed the head so often.

    t = n V / Q

    flow     [m3/s]
    passes   [1]
    volume   [m3]
    returns  [s]

    Valid as `passes`.

    Example: five turnovers of 1000 L at 6 m3/h take 50 min.
    >>> round(time_for_passes(flow=6 / 3600, passes=5, volume=1.0) / 60, 6)
    50.0

    Source: table scaleup_examples of the handbook, row "turnover time for same count".
    """
    if min(flow, volume) <= 0 or passes < 0:
        raise ValueError("flow and volume must be above 0, passes not below it")
    return passes * volume / flow


def never_passed(*, passes: float) -> float:
    """Return the share of a batch that has not passed the head once.

    x = exp(-n)

    passes   [1]
    returns  [1]

    Valid for a vessel that is mixed ideally; dead corners leave more.

    Example: after five turnovers.
    >>> round(never_passed(passes=5), 6)
    0.006738

    Source: table scaleup_examples of the handbook, row "fraction never passed after n turnovers".
    """
    if passes < 0:
        raise ValueError("passes must not be below 0")
    return exp(-passes)
