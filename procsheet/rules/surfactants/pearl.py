"""A pearl wax sets fast, unstirred or hard stirred.

Why it matters
    Glycol stearates shine because they come out of the hot wash as thin plates. Plates need time and a slow, even stream: chilled they
    come out as fine grains, dull and white, left alone they gather, and every batch looks different from the last.

Wrong
    type surfactant solution
    phase B: wash
        35 %  sodium laureth sulfate 27 % solution
        2 %   glycol distearate
    method
        add B to main with paddle
        heat main to 75 °C until melted with paddle
        cool main to 30 °C quickly with paddle

Wrong
    type surfactant solution
    phase B: wash
        35 %  sodium laureth sulfate 27 % solution
        2 %   glycol distearate
    method
        add B to main with paddle
        heat main to 75 °C until melted with paddle
        cool main to 30 °C unstirred

Right
    type surfactant solution
    phase B: wash
        35 %  sodium laureth sulfate 27 % solution
        2 %   glycol distearate
    method
        add B to main with paddle
        heat main to 75 °C until melted with paddle
        cool main to 30 °C at 0.3-1 °C/min with paddle, stirring slowly

Limits
    With 0.3 % pearl wax or more in the vessel: a rate over 1 °C/min, `quickly`, an ice bath; nothing that turns; a turbine or fast stirring; a cold
    addition that takes it through its setting; filling above its melting range. A hint each.

Exceptions
    No rate at all: most methods name none. Pearl concentrates, which are plates already; emulsions, of which cool-rate tells. High shear in a wash is
    told by no-high-shear-surf, wax that does not melt by melt-margin.

Needs
    melts

Source
    common practice, no source
"""

from procsheet.findings import Finding, Label
from procsheet.intervals import INFINITY
from procsheet.rules import cooling
from procsheet.rules.drops import part
from procsheet.rules.words import celsius
from procsheet.trace.trace import HIGH, MEDIUM, NONE

NAME = "pearl"
LEVEL = "NOTE"
WHY = "Its plates need time and a slow stream to grow. What sets fast or unstirred is dull and grainy, and no two batches look alike."
SLOW = "cool at 0.3-1 °C/min, with a paddle or anchor that turns slowly"


def check(batch):
    if batch.is_emulsion or batch.type in ("soap", "anhydrous"):
        return
    told = set()
    for moment in batch.trace.moments:
        row = _wax(batch, moment)
        fault = row is not None and row.code not in told and _fault(batch, moment, row.material.figure("melts").value)
        if fault:
            told.add(row.code)
            yield _finding(batch, moment, row, *fault)


def _wax(batch, moment):
    """The pearl wax of a vessel, where it is enough to see."""
    rows = [row for row in batch.trace.holds(moment, "pearl wax") if row.material.figure("melts") is not None]
    return rows[0] if rows and part(moment, rows) >= batch.limit(NAME, "in the vessel") else None


def _fault(batch, moment, melts) -> tuple[str, str] | None:
    """What is wrong with how it sets, and what to do; None where nothing is, or where it does not set here."""
    if moment.step.verb == "fill" and moment.start.low > melts.high:
        return f"the wash is filled at {celsius(moment.start)}, before {{}} has set", f"Put a step before line {moment.span.line}: {SLOW}."
    if moment.step.verb != "cool":
        return _quenched(batch, moment, melts)
    sets = moment.start.low >= melts.high and cooling.final(batch, moment).high < melts.low
    return _cooled(batch, moment) if sets and moment.part == 0 else None


def _cooled(batch, moment) -> tuple[str, str] | None:
    rate, line = cooling.rate(moment), moment.span.line
    if rate is not None and rate.low < INFINITY and rate.high > batch.limit(NAME, "cooled at most") + 1e-9:
        return f"{{}} sets while the wash is cooled by {cooling.told(rate)}", f"In line {line}, {SLOW}."
    if rate is None and moment.step.has(*cooling.HURRIED):
        return f"{{}} sets while the wash is cooled {'quickly' if moment.step.has('quickly') else 'in an ice bath'}", f"In line {line}, {SLOW}."
    if moment.shear.rank.high <= NONE:
        return "{} sets while nothing turns in the wash", f"In line {line}, {SLOW}."
    if MEDIUM <= moment.shear.rank.low < HIGH:
        return f"{{}} sets while the wash is stirred hard ({moment.shear.told})", f"In line {line}, {SLOW}."
    return None


def _quenched(batch, moment, melts) -> tuple[str, str] | None:
    """Cold meets hot: the wash that holds the wax, or a hot premix of it that is poured into a cold one."""
    was = max((batch.trace.moments[one].end for one in moment.parents if batch.trace.holds(batch.trace.moments[one], "pearl wax")), default=None)
    if not moment.added or was is None or was.low < melts.high or moment.end.high >= melts.low:
        return None
    return (f"{{}} comes from {celsius(was)} to {celsius(moment.end)} at one go, through its setting",
            f"Add it in line {moment.span.line} at {celsius(melts.high)} or above, then {SLOW}.")


def _finding(batch, moment, row, title, fix) -> Finding:
    return Finding(LEVEL, NAME, title.format(row.name), Label(moment.span, "its plates form here"),
                   (Label(row.span, f"melts at {row.material.figure('melts').written}"),), WHY, fix, batch.source(NAME, "cooled at most"),
                   material=row.name, step=moment.step.number)
