"""Flash point of ethanol and propan-2-ol in water."""

from functools import lru_cache
from math import log

from .activity_coefficients import activity_coefficients
from .ethanol_flash import ethanol_flash

# kg/mol, parts of the molecule, Antoine A, B, C of log10(p/Pa) = A - B/(T/K + C), closed-cup flash point [K]: None does not burn
LIQUIDS = {"ethanol": (0.046069, {"CH3": 1, "CH2": 1, "OH primary": 1}, (10.33675, 1648.22, -42.232), 285.15),
           "propan-2-ol": (0.060095, {"CH3": 2, "CH": 1, "OH secondary": 1}, (10.24268, 1580.92, -53.54), 284.82),
           "water": (0.018015, {"H2O": 1}, (0.0, 0.0, 0.0), None)}
WEAKEST = 0.03          # by mass, under which no published figure was found
ALLOWANCE = 1.5         # K: the most by which the model lies above a published figure of ethanol
APART = 3.0             # K: the most by which it lies below one


@lru_cache(maxsize=4096)
def mixture_flash(*, ethanol: float = 0.0, propan_2_ol: float = 0.0, water: float = 0.0) -> float:
    """Return the closed-cup flash point that a model of liquids gives for ethanol, propan-2-ol and water together.

    sum over the alcohols of x g(T) p(T) / p(flash point of the pure alcohol) = 1, with x share by moles, g activity coefficient

    ethanol, propan_2_ol, water  [kg]  or any other measure of mass
    returns                      [K]

    Valid from 3 % by mass of alcohols. Within 3 K of the published list for ethanol; sugars, salts, oils and solids beside it are not seen.

    Example: equal masses of ethanol and water.
    >>> round(mixture_flash(ethanol=0.5, water=0.5) - 273.15, 1)
    23.3

    Source: Liaw et al., J. Loss Prev. Process Ind. 15 (2002) 429, and 16 (2003) 173 for water; vapour pressures: Poling, Prausnitz and
    O'Connell, 5th ed.; flash points: ethanol IEC 60079-20-1, propan-2-ol NIOSH Pocket Guide (53 °F).
    """
    masses = {"ethanol": ethanol, "propan-2-ol": propan_2_ol, "water": water}
    if min(masses.values()) < 0 or not ethanol + propan_2_ol or ethanol + propan_2_ol < WEAKEST * sum(masses.values()):
        raise ValueError(f"mixture_flash needs at least {WEAKEST:.0%} of alcohols by mass, got {masses} kg")
    amounts = {name: mass / LIQUIDS[name][0] for name, mass in masses.items() if mass}
    shares = {name: amount / sum(amounts.values()) for name, amount in amounts.items()}
    cold, warm = 280.0, 300.0
    low, high = _strength(cold, shares), _strength(warm, shares)
    while abs(warm - cold) > 1e-4:          # by the secant: the logarithm is nearly straight in 1 / T
        cold, warm = warm, 1 / (1 / warm - high * (1 / warm - 1 / cold) / (high - low))
        low, high = high, _strength(warm, shares)
    return warm


def _strength(temperature: float, shares: dict[str, float]) -> float:
    """ln of the vapour over the mixture, by what would just burn: 0 at the flash point."""
    coefficients = activity_coefficients(temperature=temperature, shares=tuple(shares.values()), parts=tuple(LIQUIDS[name][1] for name in shares))
    whole = 0.0
    for (name, share), coefficient in zip(shares.items(), coefficients):
        _, _, (_, b, c), flash = LIQUIDS[name]
        whole += share * coefficient * 10 ** (b / (flash + c) - b / (temperature + c)) if flash else 0.0
    return log(whole)


def alcohol_flash(*, alcohol: str, mass_fraction: float) -> float:
    """Return the flash point to reckon with for one alcohol in water.

    ethanol: that of the published list, but no more than 3 K above the model; propan-2-ol: the model less 1.5 K, no lower than the pure alcohol

    alcohol        "ethanol" or "propan-2-ol"
    mass_fraction  [1]  of the alcohol, as pure, in alcohol and water
    returns        [K]

    Valid from 3 to 100 % by mass. The published figure leads where there is one: it can be cited, and the model itself errs by 3 K. The model
    leads where the list, or a straight line between its points, lies further above it than that, on the unsafe side. For propan-2-ol no list
    was found: what the model errs by for ethanol is taken off. Within 5 K of a limit in law, a measurement decides.

    Example: 60 % by volume of ethanol, 52.09 % by mass, and propan-2-ol of the same strength.
    >>> [round(alcohol_flash(alcohol=name, mass_fraction=0.5209) - 273.15, 1) for name in ("ethanol", "propan-2-ol")]
    [22.0, 18.1]

    Source: ethanol_flash and mixture_flash, each with its own.
    """
    if alcohol not in ("ethanol", "propan-2-ol") or not WEAKEST <= mass_fraction <= 1:
        raise ValueError(f"alcohol_flash needs ethanol or propan-2-ol, and a mass fraction from {WEAKEST} to 1, got {alcohol}, {mass_fraction}")
    if alcohol == "ethanol":
        return min(ethanol_flash(mass_fraction=mass_fraction), mixture_flash(ethanol=mass_fraction, water=1 - mass_fraction) + APART)
    return max(LIQUIDS[alcohol][3], mixture_flash(propan_2_ol=mass_fraction, water=1 - mass_fraction) - ALLOWANCE)
