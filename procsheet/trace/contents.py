"""What a vessel holds, by kind: reckoned only where it is asked for."""

from procsheet.formulas.warm_density import warm_density, water_density
from procsheet.intervals import Interval
from procsheet.trace.flash import alcohols, water_beside
from procsheet.trace.trace import Moment, Trace

AFFINITIES = ("water", "oil", "silicone", "alcohol", "powder", "")
KNOWN_AT = 293.15                       # K: densities without a temperature of their own are those at 20 °C
FREEZES, BOILS = 273.15, 373.15         # K


def by_affinity(trace: Trace, moment: Moment) -> dict[str, float]:
    """kg of each phase, only those that are there; '' is what nothing is known of."""
    found = {kind: 0.0 for kind in AFFINITIES}
    for code, mass in moment.contents.items():
        found[trace.affinities.get(code, "")] += mass
    return {kind: mass for kind, mass in found.items() if mass > 0}


def volume(trace: Trace, moment: Moment) -> Interval:
    """m³ at the temperature it ends at: water by its own curve, other liquids by the range their kinds expand in, powders not at all."""
    low = high = 0.0
    for code, mass in moment.contents.items():
        parts = [_density(trace, code, temperature) for temperature in (moment.end.low, moment.end.high)]
        low += mass / max(most for _, most in parts)
        high += mass / min(least for least, _ in parts)
    return Interval(low, high, moment.end.missing)


def _density(trace: Trace, code: str, temperature: float) -> tuple[float, float]:
    row = trace.plan.graph.rows.get(code)
    known = float(row.material.density or 1000) if row is not None else 1000.0
    warm = min(max(temperature, FREEZES), BOILS)
    if row is not None and row.material.is_a("water"):
        change = water_density(temperature=warm) / water_density(temperature=KNOWN_AT)
        return known * change, known * change
    if trace.affinities.get(code) == "powder":
        return known, known
    return warm_density(density=known, known_at=KNOWN_AT, temperature=min(warm, KNOWN_AT + 80))


def internal_phase(trace: Trace, moment: Moment) -> float | None:
    """The share by volume of what lies in drops; None while nothing is emulsified."""
    if not moment.facts.emulsified:
        return None
    density = {code: float(row.material.density or 1000) for code, row in trace.plan.graph.rows.items()}
    watery = sum(mass / density.get(code, 1000.0) for code, mass in moment.contents.items() if trace.affinities.get(code) in ("water", "alcohol"))
    oily = sum(mass / density.get(code, 1000.0) for code, mass in moment.contents.items() if trace.affinities.get(code) in ("oil", "silicone"))
    inner = oily if moment.facts.outside == "water" else watery
    return inner / (watery + oily) if watery + oily else None


def alcohol_strength(trace: Trace, moment: Moment) -> float:
    """The share by mass of pure alcohol in alcohol and water."""
    pure = sum(alcohols(trace, moment).values())
    total = pure + water_beside(trace, moment)
    return pure / total if total else 0.0


def electrolyte_strength(trace: Trace, moment: Moment) -> float:
    """The share by mass of dissolved electrolyte in the water phase."""
    rows = trace.plan.graph.rows
    salt = sum(mass * rows[code].material.share("electrolyte") for code, mass in moment.contents.items() if code in rows)
    water = trace.weight(moment.contents, "water")
    return min(salt / water, 1.0) if water else 0.0
