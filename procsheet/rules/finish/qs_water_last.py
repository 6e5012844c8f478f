"""Water boils off a hot open vessel and nobody puts it back, or puts it back too soon.

Why it matters
    What boiled off leaves everything else too strong, and the batch too light. Water made up hot goes on boiling off.

Wrong
    product Open
    type gel
    basis 1 kg
    to 100 %  purified water
    5 %  glycerin
    vessel main
    method
        charge all into main
        heat main to 80 °C
        hold main at 80 °C for 30 min
        cool main to 30 °C
        fill main

Wrong
    phase B: humectant
        5 %  glycerin
    method
        add B to main
        heat main to 80 °C

Right
    phase B: humectant
        5 %  glycerin
    method
        add B to main
        heat main to 80 °C
        hold main at 80 °C for 30 min
        cool main to 30 °C

Limits
    More than 15 min above 60 °C in an open vessel with at least a fifth of water in it, as far as times are written or the plant gives
    them. A stop where the plant's kettle has no load cells either. A make-up is asked for at 40 °C or below.

Exceptions
    A lid, vacuum, nitrogen, a closed kettle; what stands in its mould or pack; water charged `plus 3-5 % for evaporation`; a stick that is poured hot. Soap, powder and
    what holds no water.

Source
    public threads and teaching pages; common practice, no source, for 40 °C
"""

from procsheet.findings import Finding, Label
from procsheet.rules import warmth
from procsheet.rules.batch import judge
from procsheet.rules.words import celsius, minutes

NAME = "qs-water-last"
LEVEL = "WARN"
NOT_WEIGHED = "STOP"
DRY = ("anhydrous", "soap", "powder")
MADE_UP = ("make up", "replace loss")
WHY = "What boils off leaves everything else too strong and the batch too light: the pH, the thickness and the strength of the preservative all move."


LASTING = ("heat", "hold", "stir", "mix", "homogenise", "emulsify", "melt", "hydrate")


def check(batch):
    if batch.type in DRY or any(moment.step.has("plus") for moment in batch.trace.moments):
        return
    yield from _never(batch)
    for moment in batch.trace.moments:
        if moment.step.verb in MADE_UP and moment.cover == "open":
            yield from _too_soon(batch, moment)


def _never(batch):
    """Hot open steps that no make-up follows."""
    hot = batch.limit(NAME, "above which")
    lost = [(time, moment) for moment in batch.trace.moments if _boils_off(batch, moment) and (time := batch.trace.time_above(moment, hot))
            and not any(one.step.verb in MADE_UP for one in batch.trace.path(moment))]
    total = sum(time for time, _ in lost)
    if total <= batch.limit(NAME, "make-up is asked"):
        yield from _of_unknown_length(batch, hot)
        return
    longest = max(lost, key=lambda one: one[0])[1]
    kettle = batch.plan.kettles.get(longest.vessel)
    level = NOT_WEIGHED if kettle is not None and kettle.load_cells is None and batch.plan.has_plant else LEVEL
    yield Finding(level, NAME, f"the batch is open and above {celsius(hot)} for {minutes(total)}, and no step makes up the water",
                  Label(longest.span, "water boils off here"), tuple(Label(moment.span, "and here") for _, moment in lost if moment is not longest)[:3],
                  WHY, _fix(batch, longest), batch.source(NAME), step=longest.step.number)


def _fix(batch, longest) -> str:
    """Make it up once it is cool; before it is poured where it is poured hot; before the drops are made where water lies inside."""
    covered, closing, left = f"write `covered` in line {longest.span.line}", batch.method.closing, batch.trace.leaves(longest)
    water = closing.name if closing is not None else "purified water"
    meets = next((one for one in batch.trace.moments if one.facts.outside == "oil" and one.facts.met == one.index), None)
    if batch.is_water_in_oil and meets is not None:
        return f"{covered[0].upper()}{covered[1:]}; or weigh the water phase before line {meets.span.line} and make it up there: it takes no water once it lies in drops."
    last = next(one.vessel for one in reversed(list(batch.trace.path(longest))) if one.vessel in batch.method.vessels)
    hot = _is_poured_hot(batch, left)
    when = f"just before line {left.span.line}" if hot else f"once it has cooled to {celsius(batch.limit(NAME, 'made up'))}"
    return f'Add a step {when}: make up {last} with "{water}" to 100 %; or {covered}.'


def _is_poured_hot(batch, left) -> bool:
    return "set point" in left.start.missing or left.step.verb == "pour" and left.start.low > batch.limit(NAME, "made up", max)


def _of_unknown_length(batch, hot: float):
    """Hot and open for a time nobody knows, because it is neither written nor worked out from a plant."""
    if any(moment.step.verb in MADE_UP for moment in batch.trace.moments):
        return
    moments = [moment for moment in batch.trace.moments if moment.duration is None and moment.peak.low > hot and moment.step.verb in LASTING and _boils_off(batch, moment)]
    if moments:
        first = moments[0]
        yield Finding("OPEN", NAME, f"how long {first.vessel} is open above {celsius(hot)} is not known, and no step makes up the water", Label(first.span, "no time"), (), WHY,
                      "Write how long it takes, name a plant, write `covered`, or make up the water at the end.", batch.source(NAME), step=first.step.number)


def _boils_off(batch, moment) -> bool:
    kettle = batch.plan.kettles.get(moment.vessel)
    water = sum(moment.contents[row.code] for row in batch.trace.holds(moment, "water"))
    return (moment.cover == "open" and moment.vessel in batch.method.vessels and not moment.closed and not (kettle is not None and kettle.closed) and moment.mass > 0
            and water >= batch.limit(NAME, "under which") * moment.mass)


def _too_soon(batch, moment):
    cool, left = batch.limit(NAME, "made up", max), batch.trace.leaves(moment)
    again = any(one.step.verb in MADE_UP for one in batch.trace.later(moment))
    kettle = batch.plan.kettles.get(moment.vessel)
    level = judge(LEVEL, batch.hotter(moment.start, cool))
    if level is None or _is_poured_hot(batch, left) or again or kettle is not None and kettle.closed:
        return
    missing = f"; {moment.start.missing} is not said" if level == "OPEN" else ""
    later = warmth.cooled(batch, moment, cool)
    behind = f"line {later.span.line}" if later else "a step that cools the batch"
    yield Finding(level, NAME, f"the water is made up while {moment.vessel} is {celsius(moment.start)}{missing}", Label(moment.span, "more boils off after this"), (),
                  WHY, f"Move line {moment.span.line} behind {behind}, to {celsius(cool)} or below.", batch.source(NAME, "made up"), step=moment.step.number)
