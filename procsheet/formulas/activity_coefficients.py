"""How much more readily a liquid leaves a mixture than its share says: modified UNIFAC (Dortmund)."""

from math import exp, log

# of each part of a molecule: its family, volume R, surface Q
PARTS = {"CH3": ("CH2", 0.6325, 1.0608), "CH2": ("CH2", 0.6325, 0.7081), "CH": ("CH2", 0.6325, 0.3554),
         "OH primary": ("OH", 1.2302, 0.8927), "OH secondary": ("OH", 1.063, 0.8663), "H2O": ("H2O", 1.7334, 2.4561)}
# between two families: a [K], b [1], c [1/K] of psi = exp(-(a + b T + c T²) / T)
PAIRS = {("CH2", "OH"): (2777.0, -4.674, 0.001551), ("OH", "CH2"): (1606.0, -4.746, 0.0009181),
         ("CH2", "H2O"): (1391.3, -3.6156, 0.001144), ("H2O", "CH2"): (-17.253, 0.8389, 0.0009021),
         ("OH", "H2O"): (-801.9, 3.824, -0.007514), ("H2O", "OH"): (1460.0, -8.673, 0.01641)}


def activity_coefficients(*, temperature: float, shares: tuple[float, ...], parts: tuple[dict[str, int], ...]) -> tuple[float, ...]:
    """Return the activity coefficient of each liquid in a mixture.

    ln g = 1 - V' + ln V' - 5 q (1 - V/F + ln V/F) + sum over its parts of n (ln G in the mixture - ln G in the pure liquid)

    temperature  [K]
    shares       [1]  by moles, adding up to 1; a share may be 0
    parts             of each liquid: how many of each of PARTS a molecule has
    returns      [1]  in the same order

    Valid for alcohols and water from 273 to 400 K. Salt, polymer and oil beside them are not seen.

    Example: a trace of ethanol in water at 25 °C.
    >>> ethanol, water = {"CH3": 1, "CH2": 1, "OH primary": 1}, {"H2O": 1}
    >>> [round(one, 3) for one in activity_coefficients(temperature=298.15, shares=(0.0, 1.0), parts=(ethanol, water))]
    [4.792, 1.0]

    Source: Gmehling, Li and Schiller, Ind. Eng. Chem. Res. 32 (1993) 178; parameters as the UNIFAC consortium publishes them, read in three copies.
    """
    if not 273 <= temperature <= 400 or min(shares) < 0 or abs(sum(shares) - 1) > 1e-9:
        raise ValueError(f"activity_coefficients needs 273 to 400 K and shares adding up to 1, got {temperature} K, {shares}")
    volumes = [sum(count * PARTS[part][1] for part, count in one.items()) for one in parts]
    surfaces = [sum(count * PARTS[part][2] for part, count in one.items()) for one in parts]
    mean, mean_surface, mean_three = (sum(share * value for share, value in zip(shares, values))
                                      for values in (volumes, surfaces, [volume ** 0.75 for volume in volumes]))
    mixture: dict[str, float] = {}
    for share, one in zip(shares, parts):
        for part, count in one.items():
            mixture[part] = mixture.get(part, 0.0) + share * count
    mixed = _of_parts(mixture, temperature)
    found = []
    for one, volume, surface in zip(parts, volumes, surfaces):
        v, f = volume ** 0.75 / mean_three, volume / mean / (surface / mean_surface)
        pure = _of_parts(one, temperature)
        residual = sum(count * (mixed[part] - pure[part]) for part, count in one.items())
        found.append(exp(1 - v + log(v) - 5 * surface * (1 - f + log(f)) + residual))
    return tuple(found)


def _of_parts(amounts: dict[str, float], temperature: float) -> dict[str, float]:
    """ln G of each part, where these amounts of parts meet."""
    whole = sum(amount * PARTS[part][2] for part, amount in amounts.items())
    cover = {part: amount * PARTS[part][2] / whole for part, amount in amounts.items()}
    psi = {(m, k): _psi(PARTS[m][0], PARTS[k][0], temperature) for m in cover for k in cover}
    met = {k: sum(cover[m] * psi[m, k] for m in cover) for k in cover}
    return {k: PARTS[k][2] * (1 - log(met[k]) - sum(cover[m] * psi[k, m] / met[m] for m in cover)) for k in cover}


def _psi(one: str, other: str, temperature: float) -> float:
    a, b, c = PAIRS.get((one, other), (0.0, 0.0, 0.0))
    return exp(-(a / temperature + b + c * temperature))
