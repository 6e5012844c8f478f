"""The speed of a larger tool at equal power for each volume."""


def equal_power_speed(*, speed: float, diameter: float, larger: float, power_number: float = 1.0, larger_power_number: float = 1.0) -> float:
    """Return the speed at which a tool of another size puts the same power into each volume.

    N2 = N1 (D1/D2)^(2/3) (Np1/Np2)^(1/3)

    speed         [1/s]  of the tool that was proven
    diameter      [m]    of that tool
    larger        [m]    diameter of the other tool
    power_number, larger_power_number  [1]  of both; 1 and 1 where they are of one kind
    returns       [1/s]

    Valid for turbulent flow, with both vessels of one shape. It says nothing of passes through a head.

    Example: 250 rpm, five times the length.
    >>> round(equal_power_speed(speed=250, diameter=1, larger=5), 4)
    85.4988

    Source: chemical-processing magazine article of 2005 and a process-engineering page; table scaleup_examples of the handbook, row "equal P/V".
    """
    if min(speed, diameter, larger, power_number, larger_power_number) <= 0:
        raise ValueError("speed, diameters and power numbers must be above 0")
    return speed * (diameter / larger) ** (2 / 3) * (power_number / larger_power_number) ** (1 / 3)
