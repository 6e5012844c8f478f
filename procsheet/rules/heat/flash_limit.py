"""A vessel passes the flash limit of what it holds.

Why it matters
    Vapour over a warm vessel can be lit by a motor or a static spark, and what has boiled off is no longer in the product.

Wrong
    phase C: volatile
        8 %  cyclopentasiloxane
    method
        add C to main
        heat main to 80 °C

Right
    phase C: volatile
        8 %  cyclopentasiloxane
    method
        heat main to 80 °C
        cool main to 40 °C
        add C to main below 40 °C

Limits
    The lowest flash point of anything that is at least 1 % of the vessel is used, which errs on the safe side; for ethanol in
    water the published table of flash points by strength. In an open vessel a margin of 10 °C below it is told as well.

Exceptions
    A vessel the plant calls inerted, or a step under nitrogen.

Needs
    flash point

Source
    GHS chapter 2.6 for the meaning of a flash point; the margin is common practice, no source
"""

from procsheet.findings import Finding, Label
from procsheet.formulas.ethanol_flash import ethanol_flash
from procsheet.intervals import BEYOND, STRADDLES, UNDECIDED, above
from procsheet.rules.batch import judge
from procsheet.rules.words import celsius

NAME = "flash-limit"
LEVEL = "STOP"
LEAST = 0.01                            # under 1 % of a vessel is dilute (common practice, no source)
WHY = ("Above its flash point the vapour over the vessel can be lit by a motor or a static spark. "
       "It also boils off, so the pack no longer holds what the label says.")


def check(batch):
    margin = batch.apart(NAME, "margin")
    told = set()
    for moment in batch.trace.moments:
        if moment.cover == "nitrogen" or moment.closed or moment.peak.high < 285:
            continue
        for row, flash, basis in _flammable(batch, moment):
            if row.code not in told and (finding := _judged(batch, moment, row, flash, basis, margin)) is not None:
                told.add(row.code)
                yield finding


def _flammable(batch, moment):
    """What may be lit in a vessel: row, its figure, and the flash limit [K] with its basis."""
    total = moment.mass
    for code, mass in moment.contents.items():
        row = batch.graph.rows.get(code)
        figure = row.material.figure("flash point") if row is not None and mass >= LEAST * total else None
        if figure is None:
            continue
        if row.material.is_a("alcohol") and "ethanol" in (name.lower() for one in row.material.names for name in one.split()):
            strength = mass * float(row.material.assay or 1) / max(total, 1e-12)
            limit = ethanol_flash(mass_fraction=min(strength, 1.0)) if strength >= 0.03 else None
            if limit is not None:
                yield row, figure, (max(limit, figure.value.low), f"at {strength * 100:.0f} % by weight")
        elif figure.value.low < 273.15 + 110:
            yield row, figure, (figure.value.low, "")


def _judged(batch, moment, row, figure, limit, margin) -> Finding | None:
    flash, basis = limit if isinstance(limit, tuple) else (limit, "")
    verdict = above(moment.peak, flash)
    near = moment.cover == "open" and verdict == "within" and above(moment.peak, flash - margin) in (BEYOND, STRADDLES)
    over = moment.peak.high - flash
    level = judge(LEVEL, verdict, figure, over) or ("WARN" if near and above(moment.peak, flash - margin) == BEYOND and not batch.method.by_volume else None)
    if level is None or level == "OPEN" and verdict == UNDECIDED and moment.peak.low < flash - 40:
        return None
    passed = "passes" if over > 0 else "comes close to"
    title = f"{row.name} is in {moment.vessel} at {celsius(moment.peak.high)}, {'above' if over > 0 else 'near'} its flash point of {celsius(flash)}{' ' + basis if basis else ''}"
    return Finding(level, NAME, title, Label(moment.span, f"{passed} {celsius(flash)} here"), (Label(row.span, f"in {moment.vessel} by then"),), WHY,
                   f"Give {row.name} a phase of its own and add it after cooling, at {celsius(min(flash - margin, 313.15))} or below.",
                   f"data of {row.material.name}: flash point " + " and ".join(one.told for one in row.material.figures("flash point")) + "; the lower is used",
                   material=row.name, step=moment.step.number)
