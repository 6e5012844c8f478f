"""How long a jacket takes when its medium is changed on the way."""

from .jacket_time import jacket_time


def switched_jacket_time(*, mass: float, heat_capacity: float, coefficient: float, area: float, start: float, target: float,
                         first: float, switch: float, second: float) -> float:
    """Return the time to heat or cool a stirred batch by two media, one after the other.

    the time of jacket_time by the first medium as far as the switch, and by the second from there

    mass           [kg]
    heat_capacity  [J/(kg*K)]
    coefficient    [W/(m^2*K)]  overall, batch to jacket
    area           [m^2]        wetted jacket area
    start, target  [K]          batch temperature before and after
    first, second  [K]          temperatures of the media, as hot water then steam, or mains water then chilled water
    switch         [K]          batch temperature at which the medium is changed; beyond start or target only one of them is used
    returns        [s]

    Valid where jacket_time is, for each part; the minutes that draining and changing take are not in it.

    Example: 500 kg of lotion from 75 to 25 °C, by mains water at 15 °C to 40 °C and then by chilled water at 5 °C.
    >>> round(switched_jacket_time(mass=500, heat_capacity=3500, coefficient=350, area=2.5, start=348.15, target=298.15,
    ...                            first=288.15, switch=313.15, second=278.15) / 60)
    48

    Source: jacket_time, twice; checked by stepping the heat balance.
    """
    between = min(max(switch, min(start, target)), max(start, target))
    parts = ((start, between, first), (between, target, second))
    return sum(jacket_time(mass=mass, heat_capacity=heat_capacity, coefficient=coefficient, area=area, start=cold, target=warm, jacket=jacket)
               for cold, warm, jacket in parts if cold != warm)
