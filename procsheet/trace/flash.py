"""What may be lit in a vessel: the flash limit of what it holds."""

from typing import Iterator, NamedTuple

from procsheet.model.material import Figure
from procsheet.model.method import Row
from procsheet.trace.trace import Moment, Trace

LEAST = 0.01                            # of a vessel: less of an oil or a volatile is dilute (common practice, no source)
DISSOLVED = 0.5                         # of a vessel: less of what dissolves in its water is dilute (common practice, no source)
LEAST_ALCOHOL = 0.03                    # of a vessel by mass, from which a check is made (common practice, no source)
FLAMMABLE = 333.15                      # K: a liquid that flashes at 60 °C or below is flammable (GHS, chapter 2.6)
ALCOHOLS = {"64-17-5": "ethanol", "67-63-0": "propan-2-ol"}         # CAS number -> the alcohol whose mixtures with water are known
NAMED = {"ethanol": "ethanol", "alcohol": "ethanol", "isopropanol": "propan-2-ol", "isopropyl": "propan-2-ol"}
TOLD = {"ethanol": "ethanol", "propan-2-ol": "isopropanol"}


class Flash(NamedTuple):
    """A material that may be lit where it is, and the flash limit [K] that is taken: of itself or of its mixture. basis: how, in words."""

    row: Row
    figure: Figure
    limit: float
    basis: str


def flammable(trace: Trace, moment: Moment) -> Iterator[Flash]:
    """What a vessel holds that has a flash point and is not dilute. Perfume is left out: it is dilute in the batch, and hot only where it goes in."""
    total, mixed = moment.mass, None
    for code, mass in moment.contents.items():
        row = trace.plan.graph.rows.get(code)
        figure = row.material.figure("flash point") if row is not None and not row.material.is_a("perfume") else None
        if figure is None or mass < _least(trace, row, figure) * total:
            continue
        if which(row):
            mixed = mixed or of_alcohols(trace, moment)
        if which(row) and mixed is not None:
            yield Flash(row, figure, max(mixed[0], figure.value.low), mixed[1])
        else:
            yield Flash(row, figure, figure.value.low, "that of the pure material, the lowest figure known")


def _least(trace: Trace, row: Row, figure: Figure) -> float:
    """The share of a vessel from which it counts: glycols are dilute in water, but not what is a flammable liquid by itself."""
    if row.material.is_a("alcohol"):
        return LEAST_ALCOHOL
    dissolved = trace.affinities.get(row.code) == "water" and not row.material.is_a("volatile")
    return (LEAST_ALCOHOL if figure.value.low <= FLAMMABLE else DISSOLVED) if dissolved else LEAST


# ---- alcohol in water

def which(row: Row) -> str:
    """The alcohol a row is of whose flash points in water are known; '' for any other."""
    if not row.material.is_a("alcohol"):
        return ""
    words = (word for name in row.material.names for word in name.lower().replace(",", " ").split())
    return ALCOHOLS.get(row.material.text("CAS")) or next((NAMED[word] for word in words if word in NAMED), "")


def alcohols(trace: Trace, moment: Moment) -> dict[str, float]:
    """kg of ethanol and of propan-2-ol in a vessel, as pure."""
    pure: dict[str, float] = {}
    rows = trace.plan.graph.rows
    for code, mass in moment.contents.items():
        if code in rows and (name := which(rows[code])):
            pure[name] = pure.get(name, 0.0) + mass * float(rows[code].material.assay or 1)
    return pure


def water_beside(trace: Trace, moment: Moment) -> float:
    """kg of water in a vessel: what is water, and what comes with the alcohol."""
    rows = trace.plan.graph.rows
    held = [(rows[code].material, mass, which(rows[code])) for code, mass in moment.contents.items() if code in rows]
    return sum(mass * (1 - float(material.assay or 1)) if alcohol else mass if material.is_a("water") else 0.0 for material, mass, alcohol in held)


def of_alcohols(trace: Trace, moment: Moment) -> tuple[float, str] | None:
    """The flash limit [K] of the alcohols with the water beside them, and how it was found; None where they are too weak for what is known.

    Oils, solids and glycols are left out, which errs on the safe side.
    """
    from procsheet.formulas.alcohol_flash import ALLOWANCE, alcohol_flash, mixture_flash
    pure, water = alcohols(trace, moment), water_beside(trace, moment)
    strength = sum(pure.values()) / (sum(pure.values()) + water) if pure else 0.0
    if strength < LEAST_ALCOHOL:
        return None
    names = " and ".join(TOLD[name] for name in pure)
    basis = f"that of {strength * 100:.0f}\u00a0% {names} in the water it meets"
    if len(pure) == 1:
        return alcohol_flash(alcohol=next(iter(pure)), mass_fraction=min(strength, 1.0)), basis
    return mixture_flash(ethanol=pure["ethanol"], propan_2_ol=pure["propan-2-ol"], water=water) - ALLOWANCE, basis
