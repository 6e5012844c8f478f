"""What a litre weighs when it is hot."""

EXPANSION = (4.5e-4, 1.4e-3)        # 1/K: glycerin the least, volatile silicones and alcohols the most, glycols and oils between


def water_density(*, temperature: float) -> float:
    """Return the density of pure water without air, at normal pressure.

    d = (999.83952 + 16.945176 t - 7.9870401e-3 t² - 46.170461e-6 t³ + 105.56302e-9 t⁴ - 280.54253e-12 t⁵) / (1 + 16.879850e-3 t), t in °C

    temperature  [K]
    returns      [kg/m^3]

    Valid from 273.15 to 423.15 K; from 373.15 K under its own pressure.

    Example: a litre of water at 80 °C weighs 971.8 g.
    >>> round(water_density(temperature=353.15), 1)
    971.8

    Source: Kell, J. Chem. Eng. Data 20 (1975) 97.
    """
    if not 273.15 <= temperature <= 423.15:
        raise ValueError(f"water_density needs 273.15 to 423.15 K, got {temperature}")
    t = temperature - 273.15
    above = 999.83952 + t * (16.945176 + t * (-7.9870401e-3 + t * (-46.170461e-6 + t * (105.56302e-9 - t * 280.54253e-12))))
    return above / (1 + 16.879850e-3 * t)


def warm_density(*, density: float, known_at: float, temperature: float, expansion: tuple[float, float] = EXPANSION) -> tuple[float, float]:
    """Return the least and the most that a liquid's density can be at another temperature.

    d = d0 / (1 + b (T - T0))

    density      [kg/m^3]  d0
    known_at     [K]       T0
    temperature  [K]
    expansion    [1/K]     b, low and high; if not given, the range of glycols, oils, alcohols and silicones
    returns      [kg/m^3]  low, high

    Valid for liquids other than water, up to 80 K from where the density is known, with no melting or boiling between.

    Example: an oil of 900 kg/m³ at 20 °C, at 80 °C.
    >>> [round(one) for one in warm_density(density=900, known_at=293.15, temperature=353.15)]
    [830, 876]

    Source: definition; the range: eight liquids whose densities were measured, by the thermo 0.6.1 data set, checked in the tests.
    """
    low, high = expansion
    if density <= 0 or abs(temperature - known_at) > 80 or not 0 <= low <= high:
        raise ValueError(f"warm_density needs density > 0, at most 80 K and 0 <= low <= high, got {density}, {known_at}, {temperature}, {expansion}")
    return tuple(sorted(density / (1 + one * (temperature - known_at)) for one in (low, high)))
