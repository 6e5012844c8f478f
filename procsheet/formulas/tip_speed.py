"""Speed at the edge of a turning tool."""

from math import pi


def tip_speed(*, diameter: float, speed: float) -> float:
    """Return the speed at the tip of a rotor or stirrer.

    v = pi D N

    diameter  [m]
    speed     [1/s]  turns a second: rpm / 60
    returns   [m/s]

    Valid for any turning tool. Equal tip speed does not make two heads equal: gap, passes and geometry differ.

    Example: a 50 mm rotor at 10 000 rpm.
    >>> round(tip_speed(diameter=0.05, speed=10000 / 60), 4)
    26.1799

    Source: definition; scaleup_examples of the handbook, row "tip speed".
    """
    if diameter <= 0 or speed < 0:
        raise ValueError(f"tip_speed needs diameter > 0 and speed >= 0, got {diameter} m, {speed} 1/s")
    return pi * diameter * speed


def turns_for_tip_speed(*, diameter: float, tip: float) -> float:
    """Return the turning speed that gives a tip speed.

    N = v / (pi D)

    diameter  [m]
    tip       [m/s]
    returns   [1/s]

    Valid for any turning tool.

    Example: 12 m/s with a 120 mm rotor is 1910 rpm.
    >>> round(turns_for_tip_speed(diameter=0.12, tip=12) * 60)
    1910

    Source: definition.
    """
    if diameter <= 0 or tip < 0:
        raise ValueError(f"turns_for_tip_speed needs diameter > 0 and tip >= 0, got {diameter} m, {tip} m/s")
    return tip / (pi * diameter)
