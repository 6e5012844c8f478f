"""Flash point of ethanol in water."""

# % v/v, share by mass, flash point [°C]: a published list (chemical-safety mailing list); shares by mass from OIML R 22 densities
TABLE = ((0.0801, 49.0), (0.1621, 36.0), (0.2461, 29.0), (0.3330, 26.0), (0.4243, 24.0), (0.5209, 22.0), (0.6239, 21.0), (0.7348, 20.0), (0.8566, 17.0),
         (0.9384, 17.0), (1.0, 12.0))


def ethanol_flash(*, mass_fraction: float) -> float:
    """Return the closed-cup flash point of ethanol in water, read from a published table.

    between the points of the table a straight line is taken; under its weakest point the figure of that point plus the slope before it

    mass_fraction  [1]  ethanol, as pure, of all that is in the vessel
    returns        [K]

    Valid from 3 to 100 % by mass, for water as the other part. Oils and solids beside it make the true figure uncertain: keep a margin.

    Example: 60 % by volume, 52.09 % by mass.
    >>> round(ethanol_flash(mass_fraction=0.5209) - 273.15, 2)
    22.0

    Source: published list of ethanol-water flash points, handbook flash_mixtures.csv, rows marked read; pure ethanol 12 °C, IEC 60079-20-1.
    """
    if not 0.03 <= mass_fraction <= 1:
        raise ValueError(f"ethanol_flash needs a mass fraction from 0.03 to 1, got {mass_fraction}")
    points = TABLE
    for (lower, hot), (upper, cold) in zip(points, points[1:]):
        if mass_fraction <= upper:
            return 273.15 + hot + (cold - hot) * (mass_fraction - lower) / (upper - lower)
    return 273.15 + points[-1][1]
