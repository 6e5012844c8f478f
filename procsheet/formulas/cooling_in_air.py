"""How far a batch comes to the temperature of the room by itself."""

from math import exp, pi

MOST = 30.0                             # W/(m² K): an open kettle without lagging loses no more in still air


def cooling_in_air(*, mass: float, heat_capacity: float, volume: float, start: float, room: float, time: float, coefficient: float = MOST) -> float:
    """Return the temperature of a batch that is left alone in still air.

    T = Tr + (T0 - Tr) exp(-U A t / (m c)), A = 6 pi (V / 2 pi)^(2/3): the whole surface of a cylinder as high as wide

    mass           [kg]
    heat_capacity  [J/(kg*K)]
    volume         [m^3]
    start, room    [K]
    time           [s]
    coefficient    [W/(m^2*K)]  bare metal loses 10 to 15 by convection and radiation; an open hot surface steams, and loses more
    returns        [K]

    Valid for a batch that is about as warm throughout. The default is an upper bound, so that a batch is at least as warm as this says.

    Example: 250 kg of gel at 60 °C in a room of 20 °C has come to 52 °C at the lowest after one hour.
    >>> round(cooling_in_air(mass=250, heat_capacity=4000, volume=0.25, start=333.15, room=293.15, time=3600) - 273.15, 1)
    51.6

    Source: lumped heat capacity, any text on heat transfer; the coefficient is common practice, no source.
    """
    if min(mass, heat_capacity, volume) <= 0 or time < 0:
        raise ValueError("mass, heat capacity and volume must be above 0, and time not below it")
    area = 6 * pi * (volume / (2 * pi)) ** (2 / 3)
    return room + (start - room) * exp(-coefficient * area * time / (mass * heat_capacity))
