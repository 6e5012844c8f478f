"""A cream is sheared, or beaten, after its fats have set.

Why it matters
    High shear breaks the network of set fat and emulsifier: the cream thins and does not come back. It beats air in, too, that cannot
    rise any more: a fluffy product, short by weight.

Wrong
    phase B: oils
        5 %  stearyl alcohol
        3 %  cetearyl glucoside
    method
        heat main to 75 °C
        charge B into side
        heat side to 75 °C
        add side to main with homogeniser, then for 5 min
        cool main to 30 °C with anchor
        homogenise main for 5 min

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
        mix main for 10 min with anchor

Limits
    Below 45 °C, with 2 % or more of fat whose melting range lies above. Up to 1 min, or `briefly`, it is a hint, and so is fast
    stirring (`stirring fast`, a whisk, a stirrer from 5 m/s) where the batch is deaerated afterwards; under vacuum fast stirring is
    fine.

Exceptions
    What is done only where grains are seen. The first high shear at all, which emulsify-hot tells of; swollen carbomer, which
    carbomer-shear does. Oil outside, sheared cold on purpose; emulsions without fats that set.

Needs
    melts

Source
    common practice, no source; published questions on creams that were beaten after they thickened
"""

from procsheet.findings import Finding, Label
from procsheet.rules.drops import emulsifies_itself, first_hard, is_conditional, part, set_now, solid_fats
from procsheet.rules.words import celsius
from procsheet.trace.trace import HIGH, MEDIUM

NAME = "over-shear-cool"
LEVEL = "WARN"
FAST = ("fast stirring", "vigorous stirring")
WHY = "Shear breaks the network of set fat: the cream thins and does not come back. Air that is beaten in cannot rise any more, and the fill weight is short."


def check(batch):
    if batch.type != "oil-in-water emulsion":
        return
    told = set() if emulsifies_itself(batch) else {hard.step.number for one in batch.trace.moments if one.facts.met == one.index and (hard := first_hard(batch, one)) is not None}
    for moment in batch.trace.moments:
        if moment.before_facts.emulsified and moment.step.number not in told and not is_conditional(batch, moment.step) and (level := _level(batch, moment)):
            told.add(moment.step.number)
            yield _finding(batch, moment, level)


def _level(batch, moment) -> str | None:
    fats = [row for row, _ in solid_fats(batch, moment)]
    swollen = moment.before_facts.neutralised and any("after neutralising" in row.material.text("shear") for row in batch.trace.holds(moment, "carbomer"))
    if swollen or not _was_hot(batch, moment) or moment.peak.high >= batch.limit(NAME, "a set cream") or part(moment, fats) < batch.limit(NAME, "fat that has set"):
        return None
    if moment.shear.rank.low >= HIGH:
        short = moment.step.has("briefly") or moment.duration is not None and moment.duration.high <= batch.limit(NAME, "of high shear")
        return "NOTE" if short else LEVEL
    if not _is_fast(batch, moment) or moment.cover == "vacuum":
        return None
    return "NOTE" if any(one.step.verb == "deaerate" or one.cover == "vacuum" for one in batch.trace.later(moment)) else LEVEL


def _was_hot(batch, moment) -> bool:
    """Whether it was an emulsion while its fats were molten; else another rule tells how they met."""
    highest = max((figure.value.low for _, figure in solid_fats(batch, moment)), default=0.0)
    return any(one.facts.emulsified and one.peak.low >= highest for one in batch.trace.history(moment))


def _is_fast(batch, moment) -> bool:
    """Stirred so fast that it draws air in."""
    tip = moment.shear.tip
    fast = moment.step.has(*FAST) or moment.shear.tools == ("whisk",) and not moment.step.has("by hand") and moment.step.has("tool")
    return moment.shear.rank.high >= MEDIUM and fast or tip is not None and tip.low >= batch.limit(NAME, "tip speed") and not moment.step.has("into the vortex")


def _finding(batch, moment, level) -> Finding:
    fats = solid_fats(batch, moment)
    hard = moment.shear.rank.low >= HIGH
    hot = next((one for one in reversed(batch.trace.history(moment)) if one.index < moment.index and one.peak.low > max(figure.value.high for _, figure in fats)), None)
    what = f"goes through {moment.shear.told}" if hard else "is stirred fast"
    instead = f"move it behind line {hot.span.line}, while it is hot," if hot is not None and hard else "take out the air under vacuum afterwards,"
    return Finding(level, NAME, f"the cream {what} at {celsius(moment.peak)}, when {set_now([row for row, _ in fats])}", Label(moment.span, "too cold for it"),
                   tuple(Label(row.span, f"melts at {figure.written}") for row, figure in fats[:3]), WHY,
                   f"Stir with an anchor in line {moment.span.line}; or {instead} or sign for the pass that takes out grains.",
                   f"{batch.source(NAME, 'a set cream')}; data of {fats[0][0].material.name}: melts {fats[0][1].told}", step=moment.step.number)
