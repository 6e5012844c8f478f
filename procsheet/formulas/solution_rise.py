"""How far a lye heats itself."""


def solution_rise(*, mass_fraction: float, heat: float = 1.03e6, heat_capacity: float = 3700.0) -> float:
    """Return the rise in temperature of water in which solid alkali is dissolved at once.

    dT = w h / c

    mass_fraction  [kg/kg]     pure alkali in the lye
    heat           [J/kg]      heat of solution: potassium hydroxide 1.03e6 (57.6 kJ/mol), sodium hydroxide 1.11e6 (44.5 kJ/mol)
    heat_capacity  [J/(kg*K)]  of the lye
    returns        [K]

    Valid where no heat is lost, up to 20 % or so: the heats are those at infinite dilution, and a stronger lye gives less.

    Example: a lye of 20 % potassium hydroxide made at once comes 56 K above its water.
    >>> round(solution_rise(mass_fraction=0.2))
    56

    Source: enthalpies of solution of electrolytes, CRC Handbook of Chemistry and Physics (from memory).
    """
    if not 0 <= mass_fraction <= 1:
        raise ValueError(f"a mass fraction lies between 0 and 1, got {mass_fraction}")
    return mass_fraction * heat / heat_capacity
