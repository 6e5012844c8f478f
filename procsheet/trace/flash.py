"""What may be lit in a vessel: the flash limit of what it holds."""

from typing import Iterator, NamedTuple

from procsheet.formulas.ethanol_flash import ethanol_flash
from procsheet.model.material import Figure
from procsheet.model.method import Row
from procsheet.trace.trace import Moment, Trace

LEAST = 0.01                            # of a vessel: less of an oil or a volatile is dilute (common practice, no source)
DISSOLVED = 0.5                         # of a vessel: less of what dissolves in its water is dilute (common practice, no source)
LEAST_ALCOHOL = 0.03                    # of a vessel by mass, from which a check is made (common practice, no source)


class Flash(NamedTuple):
    """A material that may be lit where it is, and the flash limit [K] that is taken: of itself or of its mixture. basis: how, in words."""

    row: Row
    figure: Figure
    limit: float
    basis: str


def flammable(trace: Trace, moment: Moment) -> Iterator[Flash]:
    """What a vessel holds that has a flash point and is not dilute. Perfume is left out: it is dilute in the batch, and hot only where it goes in."""
    total = moment.mass
    for code, mass in moment.contents.items():
        row = trace.plan.graph.rows.get(code)
        figure = row.material.figure("flash point") if row is not None and not row.material.is_a("perfume") else None
        if figure is None or mass < _least(trace, row) * total:
            continue
        if is_ethanol(row) and (strength := ethanol_in_water(trace, moment)) is not None:
            limit = max(ethanol_flash(mass_fraction=strength), figure.value.low)
            yield Flash(row, figure, limit, f"that of {strength * 100:.0f}\u00a0% ethanol in the water it meets")
        else:
            yield Flash(row, figure, figure.value.low, "that of the pure material, the lowest figure known")


def _least(trace: Trace, row: Row) -> float:
    if row.material.is_a("alcohol"):
        return LEAST_ALCOHOL
    return DISSOLVED if trace.affinities.get(row.code) == "water" and not row.material.is_a("volatile") else LEAST


def is_ethanol(row: Row) -> bool:
    names = [name.lower() for name in row.material.names]
    named = any(name in ("alcohol", "alcohol denat.") or "ethanol" in name.split() for name in names)
    return row.material.is_a("alcohol") and (named or row.material.text("CAS") == "64-17-5")


def ethanol_in_water(trace: Trace, moment: Moment) -> float | None:
    """The share by mass of ethanol in ethanol and water, as pure; None where it is too weak for the published table.

    Oils beside it are left out, which errs on the safe side.
    """
    rows = trace.plan.graph.rows
    pure = {code: mass * float(rows[code].material.assay or 1) for code, mass in moment.contents.items() if code in rows and is_ethanol(rows[code])}
    water = sum(mass - pure.get(code, 0.0) for code, mass in moment.contents.items() if code in pure or code in rows and rows[code].material.is_a("water"))
    ethanol = sum(pure.values())
    return min(ethanol / (ethanol + water), 1.0) if ethanol and ethanol >= LEAST_ALCOHOL * (ethanol + water) else None
