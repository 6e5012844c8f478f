"""What a stirrer puts into a batch."""

TURBULENT = 1e4         # Reynolds number from which the power number is constant


def stirrer_reynolds(*, speed: float, diameter: float, density: float, viscosity: float) -> float:
    """Return the Reynolds number of a stirrer: below 10 the batch creeps, from 10 000 it is turbulent.

    Re = rho N D² / mu

    speed      [1/s]     turns a second: rpm / 60
    diameter   [m]       of the stirrer
    density    [kg/m^3]
    viscosity  [Pa*s]    at the stirrer; a cream is thinner there than in a resting jar
    returns    [1]

    Valid for any stirrer.

    Example: 60 rpm, half a metre, a lotion of 0.1 Pa s.
    >>> round(stirrer_reynolds(speed=1, diameter=0.5, density=1000, viscosity=0.1))
    2500

    Source: definition; the limits: process-engineering reference page, power_numbers of the handbook.
    """
    if min(speed, diameter, density, viscosity) <= 0:
        raise ValueError(f"stirrer_reynolds needs figures above 0, got {speed}, {diameter}, {density}, {viscosity}")
    return density * speed * diameter ** 2 / viscosity


def stirring_power(*, power_number: float, density: float, speed: float, diameter: float, viscosity: float) -> float:
    """Return the power that a stirrer puts into a turbulent batch: divided by the volume, the measure for scaling up.

    P = Np rho N³ D⁵

    power_number  [1]       of the stirrer: about 5 for a disc turbine, 1.3 for four pitched blades
    density       [kg/m^3]
    speed         [1/s]     turns a second: rpm / 60
    diameter      [m]       of the stirrer
    viscosity     [Pa*s]    decides whether it is turbulent
    returns       [W]

    Valid from a Reynolds number of 10 000, in a vessel with baffles. Below it the power number rises: raises, for want of its curve.

    Example: a disc turbine of 0.3 m at 120 rpm in water.
    >>> round(stirring_power(power_number=5, density=1000, speed=2, diameter=0.3, viscosity=0.001), 1)
    97.2

    Source: definition of the power number; process-engineering reference page.
    """
    reynolds = stirrer_reynolds(speed=speed, diameter=diameter, density=density, viscosity=viscosity)
    if reynolds < TURBULENT or power_number <= 0:
        raise ValueError(f"stirring_power needs a power number above 0 and a Reynolds number from {TURBULENT:.0f}, got {power_number}, {reynolds:.0f}")
    return power_number * density * speed ** 3 * diameter ** 5
