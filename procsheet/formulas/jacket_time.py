"""How long a jacket takes to heat or cool a batch."""

from math import log


def jacket_time(*, mass: float, heat_capacity: float, coefficient: float, area: float, start: float, target: float, jacket: float) -> float:
    """Return the time to heat or cool a stirred batch by a jacket at constant temperature.

    t = m c / (U A) * ln((Tj - T0) / (Tj - T1))

    mass           [kg]
    heat_capacity  [J/(kg*K)]
    coefficient    [W/(m^2*K)]  overall, batch to jacket
    area           [m^2]        wetted jacket area: less when the vessel is half full
    start, target  [K]          batch temperature before and after
    jacket         [K]          temperature of the medium
    returns        [s]

    Valid for a well-mixed batch, a target between start and jacket, and a coefficient that stays the same.
    A cream that thickens on the way lowers it: split the step there.

    Example: 500 kg of lotion from 20 to 75 °C by a jacket at 95 °C takes 44 min.
    >>> round(jacket_time(mass=500, heat_capacity=3500, coefficient=350, area=2.5,
    ...                   start=293.15, target=348.15, jacket=368.15))
    2644

    Source: standard result for a batch with an isothermal medium; checked by stepping the heat balance.
    """
    if not (start <= target < jacket or jacket < target <= start):
        raise ValueError(f"jacket_time needs target between start and jacket, got {start}, {target}, {jacket} K")
    return mass * heat_capacity / (coefficient * area) * log((jacket - start) / (jacket - target))
