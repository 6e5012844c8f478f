"""How fast a mixer warms what it mixes."""


def warming_rate(*, power: float, mass: float, heat_capacity: float) -> float:
    """Return how fast a batch warms by the power put into it, all of which ends as heat.

    dT/dt = P / (m c)

    power          [W]          into the batch: not what the motor draws
    mass           [kg]
    heat_capacity  [J/(kg*K)]
    returns        [K/s]

    Valid where no heat is lost: the most it can be, as jacket and room take some away.

    Example: 5 kW in 200 kg of cream for ten minutes.
    >>> round(600 * warming_rate(power=5000, mass=200, heat_capacity=3500), 2)
    4.29

    Source: heat balance; scaleup_examples of the handbook, row "adiabatic heating by mixer".
    """
    if power < 0 or mass <= 0 or heat_capacity <= 0:
        raise ValueError(f"warming_rate needs power >= 0, mass > 0 and heat capacity > 0, got {power}, {mass}, {heat_capacity}")
    return power / (mass * heat_capacity)
