"""What the heat of a mill spoils goes through the mill.

Why it matters
    Grinding turns its whole power into heat: between rolls or beads a paste warms by 10 to 30 °C within minutes, more than the kettle's thermometer
    shows. Perfume boils off and actives break down in the gap.

Wrong
    type anhydrous
    phase B: base
        20 %  castor oil
        2 %  red iron oxide
    phase C: late
        1 %  retinol 10 % in oil
    method
        charge B and C into side
        mill side with roll mill for 3 passes
        transfer side to pail

Right
    type anhydrous
    phase B: base
        20 %  castor oil
        2 %  red iron oxide
    phase C: late
        1 %  retinol 10 % in oil
    method
        charge B into side
        mill side with roll mill for 3 passes
        add C to side with paddle
        transfer side to pail

Limits
    30 °C on top of what the vessel has, against the heat limit of the material. A mill whose kind is left open is a hint.

Exceptions
    A step that is kept cool: `keeping`, `never above` the limit, an ice bath. Where it is too hot without the mill, `heat-sensitive` and
    `fragrance-temp` speak; capsules are the matter of `encapsulate-late`.

Needs
    add below

Source
    common practice, no source: 10 to 30 °C
"""

from procsheet.findings import LOWER, Finding, Label
from procsheet.model import quantities
from procsheet.rules.words import celsius, kelvin, listed
from procsheet.trace.trace import HIGH

NAME = "mill-before-heat-sensitive"
LEVEL = "WARN"
SENSITIVE = ("heat-sensitive", "perfume", "volatile")
NOT_MINE = ("encapsulate", "bead")
COOLED = ("ice bath", "cold bath")
WHY = "All the power of a mill ends as heat in the gap, more than the thermometer shows: perfume boils off there, and actives break down."


def check(batch):
    told: set[str] = set()
    for moment in batch.trace.moments:
        if not _mills(moment) or moment.step.has(*COOLED):
            continue
        rows = [row for row in batch.trace.holds(moment, *SENSITIVE) if row.code not in told and not row.material.is_a(*NOT_MINE) and _spoilt(batch, row, moment)]
        told.update(row.code for row in rows)
        if rows:
            yield _finding(batch, moment, rows)


def _mills(moment) -> bool:
    return any("mill" in tool for tool in moment.shear.tools) or moment.step.verb == "mill" and moment.shear.rank.high >= HIGH


def _spoilt(batch, row, moment) -> bool:
    figure = row.material.figure("add below")
    if figure is None or moment.peak.high > figure.value.low:
        return False
    ceilings = [quantities.interval(moment.step.value(kind)) for kind in ("never above", "keeping") if moment.step.value(kind) is not None]
    if any(value is not None and value.high <= figure.value.low for value in ceilings):
        return False
    return moment.peak.low + batch.apart(NAME, "warmer", max) > figure.value.low


def _finding(batch, moment, rows) -> Finding:
    figures = {row.code: row.material.figure("add below") for row in rows}
    first = min(rows, key=lambda row: figures[row.code].value.low)
    warmer = kelvin(batch.apart(NAME, "warmer", max))
    stands = celsius(figures[first.code].value.low)
    known = any("mill" in tool for tool in moment.shear.tools)
    names = listed(row.name for row in rows)
    title = f"{names} {'goes' if len(rows) == 1 else 'go'} through the mill at {celsius(moment.peak)} and up to {warmer} more; {first.name} stands {stands}"
    return Finding(LEVEL if known else LOWER[LEVEL], NAME, title, Label(moment.span, "warms what it grinds"), tuple(Label(row.span, f"add below {figures[row.code].written}") for row in rows), WHY,
                   f"Mill first: move line {moment.span.line} up, and add {names} after it, once the paste is below {stands}; "
                   f"or write `never above {stands}` and cool the mill.",
                   f"{batch.source(NAME)}; data of {first.material.name}: {figures[first.code].told}", material=first.name, step=moment.step.number)
