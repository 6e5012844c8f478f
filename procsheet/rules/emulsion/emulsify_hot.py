"""The emulsion first comes under high shear when its fats have set.

Why it matters
    Drops are made of molten fat. Fat that has set is ground into grains, and the coarse drops that stirring left keep their size.

Wrong
    phase B: oils
        8 %  stearyl alcohol
        3 %  cetearyl glucoside
    method
        heat main to 75 °C
        charge B into side
        heat side to 75 °C until melted
        add side to main with anchor
        cool main to 40 °C with anchor
        homogenise main for 5 min

Right
    phase B: oils
        8 %  stearyl alcohol
        3 %  cetearyl glucoside
    method
        heat main to 75 °C
        charge B into side
        heat side to 75 °C until melted
        add side to main with anchor
        homogenise main for 5 min
        cool main to 40 °C with anchor

Limits
    The hottest of the first step under high shear, from the joining on, against the melting range of each fat that was molten before.
    Where most of the fat has set it is a stop, where less of it has, or it may be setting, a warning; less than 5 °C above is a hint. A
    melting point from memory grounds a stop only from 10 °C below it on.

Exceptions
    Any high shear while the fats are molten: what follows it is no longer this rule's. Fats that never melted; phases that meet too far
    apart; a tool that is not known: other rules tell of these. Water-in-oil, sheared cold on purpose; ready bases, soap made in the
    batch, and cold processes, which hold no fat that sets. A cationic base is a warning: it needs little shear.

Needs
    melts

Source
    common practice, no source
"""

from procsheet.findings import LEVELS, Finding, Label
from procsheet.intervals import SMALL, WITHIN, below
from procsheet.rules.batch import judge
from procsheet.rules.drops import emulsifies_itself, first_hard, set_now
from procsheet.rules.emulsion import equal_temps
from procsheet.rules.words import celsius

NAME = "emulsify-hot"
LEVEL = "STOP"
MOST = 0.5                              # of the fat: less of it set leaves drops that can still be cut (common practice, no source)
NEARLY = 5.0                            # K: cooled by less since it melted, it is as hot as it ever was (common practice, no source)
WHY = "Drops are made of molten fat. Fat that has set is ground into grains instead, and the coarse drops that the stirrer left stay coarse."


def check(batch):
    if batch.type != "oil-in-water emulsion" or emulsifies_itself(batch):
        return
    told = {finding.step for finding in equal_temps.check(batch)}
    for joined in batch.trace.moments:
        if joined.facts.met == joined.index and joined.step.number not in told:
            hard = first_hard(batch, joined)
            if hard is not None and hard.step.number not in told:
                yield from _judged(batch, joined, hard)


def _judged(batch, joined, hard):
    fats = _were_molten(batch, joined, hard)
    verdicts = [(below(hard.peak, figure.value.low), row, figure) for row, figure in fats]
    cold = [(row, figure) for verdict, row, figure in verdicts if verdict != WITHIN]
    if cold:
        row, figure = max(cold, key=lambda fat: fat[1].value.low)
        grave = _mass(hard, cold) >= MOST * _mass(hard, fats) and not batch.trace.holds(hard, "cationic surfactant")
        level = judge(LEVEL if grave else "WARN", below(hard.peak, figure.value.low), figure, figure.value.low - hard.peak.high)
        yield _finding(batch, joined, hard, level, cold, figure, set_now([row for row, _ in cold]))
        return
    margin = batch.apart(NAME, "margin")
    near = [(judge("WARN", below(hard.peak, figure.value.high)) or judge("NOTE", below(hard.peak, figure.value.high + margin)), row, figure) for row, figure in fats]
    near = [one for one in near if one[0] is not None]
    if near:
        level, row, figure = min(near, key=lambda one: (LEVELS.index(one[0]), -one[2].value.high))
        yield _finding(batch, joined, hard, level, [(row, figure)], figure, f"{row.name} is about to set")


def _were_molten(batch, joined, hard):
    """The fats in it that were hotter once, and molten then."""
    found = []
    history = [moment for moment in batch.trace.history(hard) if moment.index < hard.index]
    for row in batch.trace.holds(hard, "structures oil"):
        figure = row.material.figure("melts")
        hottest = max((moment.peak.low for moment in history if row.code in moment.contents), default=0.0)
        if figure is not None and row.material.text("form") != "paste" and hottest >= figure.value.low - SMALL and hottest > hard.peak.high + NEARLY:
            found.append((row, figure))
    return found


def _mass(moment, fats) -> float:
    return sum(moment.contents[row.code] for row, _ in fats)


def _finding(batch, joined, hard, level, fats, figure, state) -> Finding:
    also = [Label(joined.span, f"the phases meet here, at {celsius(joined.peak)}")] if joined is not hard else []
    also += [Label(row.span, f"melts at {one.written}") for row, one in fats[:3]]
    return Finding(level, NAME, f"high shear starts at {celsius(hard.peak)}, when {state} (melts at {figure.written})",
                   Label(hard.span, f"the first high shear, at {celsius(hard.peak)}"), tuple(also), WHY, _fix(batch, joined, hard, figure),
                   f"data of {fats[0][0].material.name}: melts {figure.told}; {batch.source(NAME)}", step=hard.step.number)


def _fix(batch, joined, hard, figure) -> str:
    wanted = celsius(figure.value.high + batch.apart(NAME, "margin"))
    if joined is hard:
        return f"Keep both vessels at {wanted} or above until line {hard.span.line} is done."
    cooled = next((moment for moment in batch.trace.path(joined) if moment.index < hard.index and moment.end.high < moment.start.low - NEARLY), None)
    where = f"before the cooling in line {cooled.span.line}" if cooled is not None and cooled is not hard else f"behind line {joined.span.line}, while it is hot"
    return f"Put line {hard.span.line} {where}; or heat {hard.vessel} to {wanted} before it."
