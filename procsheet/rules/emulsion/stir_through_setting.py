"""A cream stands still while its fats set.

Why it matters
    Fat that sets at rest grows lumps at the wall and a skin on top; stirred in again, they are grains. Oil that has risen meanwhile
    stays on top.

Wrong
    phase B: oils
        5 %  stearyl alcohol
        3 %  cetearyl glucoside
    method
        heat main to 75 °C
        charge B into side
        heat side to 75 °C
        add side to main with homogeniser, then for 5 min
        cool main to 30 °C without stirring

Right
    phase B: oils
        5 %  stearyl alcohol
        3 %  cetearyl glucoside
    method
        heat main to 75 °C
        charge B into side
        heat side to 75 °C
        add side to main with homogeniser, then for 5 min
        cool main to 30 °C with anchor

Limits
    A step at rest that begins above 35 °C and ends below 55 °C, in a batch with 2 % or more of fat that was molten and melts above its
    end. Where a batch is cooled and nothing says that it is stirred, that is an open point.

Exceptions
    Filling and pouring: what sets in its pack is not stirred again. Oil outside; emulsions without fats that set.

Needs
    melts

Source
    common practice, no source; two public questions on creams that were left to cool alone
"""

from procsheet.findings import Finding, Label
from procsheet.rules.batch import gravest
from procsheet.rules.drops import part
from procsheet.rules.words import celsius, listed
from procsheet.trace.trace import NONE

NAME = "stir-through-setting"
LEVEL = "WARN"
LEAVES = ("fill", "pour", "discharge", "sample", "check", "charge", "transfer", "note", "caution", "prepare")
COOLED = 5.0                            # K: a step that cools by less is no cooling (common practice, no source)
WHY = "Fat that sets at rest makes lumps at the wall and a skin on top. Stirred in again they are grains, and oil that rose meanwhile has parted."


def check(batch):
    if batch.type != "oil-in-water emulsion":
        return
    yield from filter(None, [gravest(_judged(batch, moment) for moment in batch.trace.moments)])


def _judged(batch, moment) -> Finding | None:
    fats = _setting(batch, moment) if moment.before_facts.emulsified and moment.step.verb not in LEAVES else []
    if fats and moment.shear.rank.high <= NONE:
        return _finding(batch, moment, fats, LEVEL)
    unsaid = moment.shear.rank.low <= NONE and moment.step.verb == "cool" and not moment.turning
    return _finding(batch, moment, fats, "OPEN") if fats and unsaid else None


def _setting(batch, moment):
    """The fats that set in a step: enough of them, and molten at its beginning or setting already."""
    begins, ends = batch.limit(NAME, "begin to set"), batch.limit(NAME, "have set")
    if moment.start.high <= ends or moment.end.low >= begins or moment.start.low - moment.end.low < COOLED:
        return []
    fats = [(row, row.material.figure("melts")) for row in batch.trace.holds(moment, "structures oil") if row.material.figure("melts") is not None]
    fats = [(row, figure) for row, figure in fats if moment.end.low < figure.value.high and moment.start.high >= figure.value.low]
    return fats if part(moment, [row for row, _ in fats]) >= batch.limit(NAME, "fat that sets") else []


def _finding(batch, moment, fats, level) -> Finding:
    names, set_ = listed(row.name for row, _ in fats), "sets" if len(fats) == 1 else "set"
    title = (f"the cream stands still from {celsius(moment.start)} to {celsius(moment.end)}, while {names} {set_}" if level == LEVEL else
             f"whether the cream is stirred while it cools from {celsius(moment.start)} to {celsius(moment.end)} is not said, and {names} {set_} on the way")
    return Finding(level, NAME, title, Label(moment.span, "nothing turns" if level == LEVEL else "with what stirrer?"),
                   tuple(Label(row.span, f"melts at {figure.written}") for row, figure in fats[:3]), WHY,
                   f"Write in line {moment.span.line} a slow stirrer that wipes the wall, such as `with anchor at 30 rpm`" +
                   (f", down to {celsius(batch.limit(NAME, 'have set'))}." if level == LEVEL else "."),
                   f"{batch.source(NAME, 'begin to set')}; data of {fats[0][0].material.name}: melts {fats[0][1].told}", step=moment.step.number)
