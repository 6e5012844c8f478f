"""The power a turning tool puts into what it stirs."""


def mixing_power(*, power_number: float, density: float, speed: float, diameter: float) -> float:
    """Return the power of a tool from its power number.

    P = Np rho N^3 D^5

    power_number  [1]
    density       [kg/m3]
    speed         [1/s]
    diameter      [m]
    returns       [W]

    Valid for turbulent flow (Reynolds number above 10 000); below it the power number rises.

    Example: a pitched-blade turbine of 0.3 m at 300 rpm in water.
    >>> round(mixing_power(power_number=1.27, density=1000, speed=5, diameter=0.3), 4)
    385.7625

    Source: definition of the power number; table scaleup_examples of the handbook, row "power".
    """
    if min(power_number, density, diameter) <= 0 or speed < 0:
        raise ValueError("power number, density and diameter must be above 0, speed not below it")
    return power_number * density * speed ** 3 * diameter ** 5


def reynolds(*, density: float, speed: float, diameter: float, viscosity: float) -> float:
    """Return the Reynolds number of a stirrer.

    Re = rho N D^2 / mu

    density    [kg/m3]
    speed      [1/s]
    diameter   [m]
    viscosity  [Pa s]
    returns    [1]

    Valid for any stirrer; laminar below 10, turbulent from 10 000.

    Example: 0.3 m at 300 rpm in 1 Pa s.
    >>> reynolds(density=1000, speed=5, diameter=0.3, viscosity=1)
    450.0

    Source: definition; table scaleup_examples of the handbook, row "impeller Reynolds".
    """
    if min(density, diameter, viscosity) <= 0 or speed < 0:
        raise ValueError("density, diameter and viscosity must be above 0, speed not below it")
    return density * speed * diameter ** 2 / viscosity
