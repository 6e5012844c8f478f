"""A balm is melted in the wrong order: hard wax into melted butter, or cold oil into melted wax.

Why it matters
    A wax that is melted after the butter drags the butter up to its own heat, and the butter loses its smell and grains later. Cold oil poured
    onto melted wax sets it in lumps that never quite melt again at the heat of the rest.

Wrong
    product Balm
    type anhydrous
    basis 1 kg
    phase A: butter
        30 %      shea butter
        to 100 %  sunflower oil
    phase B: wax
        15 %      carnauba wax
    vessel main
    method
        charge A into main
        heat main to 50 °C until melted
        add B to main
        heat main to 88 °C until melted
        pour main into "tin"

Wrong
    product Balm
    type anhydrous
    basis 1 kg
    phase A: wax
        9 %       white beeswax
        8 %       castor oil
    phase B: oil
        to 100 %  sunflower oil
    vessel main
    method
        charge A into main
        heat main to 75 °C until melted
        add B to main at 20 °C
        fill main into "tin"

Right
    product Balm
    type anhydrous
    basis 1 kg
    phase A: wax
        15 %      carnauba wax
        to 100 %  sunflower oil
    phase B: butter
        30 %      shea butter
    vessel main
    method
        charge A into main
        heat main to 88 °C until melted
        cool main to 75 °C
        add B to main until melted
        pour main into "tin"

Limits
    Products without water. A wax that melts 10 °C and more above a butter and goes into it once that is warm, and is then heated to melt. A
    melt that an addition brings 15 °C and more below the melting of a wax that is a twentieth of it, if it is not heated through again.

Exceptions
    All solids charged together and heated. A wax that goes in melted. An addition `until melted` or `until clear`. Where the pouring itself is too cold, pour-temp tells it. Perfume and
    volatiles in the hot melt have rules of their own.

Needs
    melts

Source
    common practice, no source
"""

from procsheet.findings import Finding, Label
from procsheet.intervals import SMALL
from procsheet.rules.batch import gravest
from procsheet.rules.warmth import LEAVES
from procsheet.rules.words import celsius, listed
from procsheet.syntax import tree

NAME = "balm-melt-order"
LEVEL = "WARN"
COOKED = "The wax brings the butter up to its own heat: the butter loses its smell, and grains later."
LUMPS = "Cold oil sets the wax where it touches it. The lumps do not melt again at the heat of the rest, and the tins come out soft and grainy."


def check(batch):
    if batch.type == "anhydrous":
        waxes = sorted((one for one in batch.trace.exposures if _melts(one.row)), key=lambda one: (one.moment.index, -_melts(one.row).low))
        cooked = next(filter(None, (_late_wax(batch, one) for one in waxes)), None)
        found = [cooked, next(filter(None, (_chilled(batch, moment) for moment in batch.trace.moments)), None)]
        yield from filter(None, [gravest(found)])


def _late_wax(batch, exposure) -> Finding | None:
    """A hard wax that goes cold into a warm vessel with butter in it, and is melted there."""
    row, moment = exposure.row, exposure.moment
    melts = _melts(row)
    softer = [one for one in batch.trace.holds(moment, "butter", before=True) if _is_softer(batch, one, melts)]
    heated = batch.trace.hottest_from(moment)
    if not softer or not _is_warm(batch, moment) or heated.peak.high < melts.low or moment.start.low >= melts.low:
        return None
    return Finding(LEVEL, NAME, f"{row.name} goes into {moment.vessel} after {listed(one.name for one in softer)}, and is melted there at {celsius(heated.peak)}",
                   Label(moment.span, f"melts at {celsius(melts)}"), tuple(Label(one.span, "heated along with it") for one in softer[:2]), COOKED,
                   f"Melt {row.name} first, with the oil; cool to where {softer[0].name} just melts, and add that then.", batch.source(NAME, "of a butter"),
                   material=row.name, step=moment.step.number)


def _is_softer(batch, butter, melts) -> bool:
    own = butter.material.figure("melts")
    return batch.of_batch(butter) >= batch.limit(NAME, "soft butter") and own is not None and melts.low - own.value.high >= batch.apart(NAME, "of a butter")


def _melts(row):
    """The melting range of a hard wax; None for what is soft or liquid."""
    figure = row.material.figure("melts")
    return figure.value if figure is not None and row.material.is_a("structures oil") and not row.material.is_a("butter") and row.material.text("form") != "paste" else None


def _is_warm(batch, moment) -> bool:
    return bool(moment.parents) and max(batch.trace.moments[one].end.low for one in moment.parents) > batch.plan.plant.room.high + SMALL


def _chilled(batch, moment) -> Finding | None:
    """An addition that brings a melt far below the melting of its wax, to stay there."""
    if not moment.added or not moment.before or moment.step.verb in LEAVES or moment.end.missing:
        return None
    before = max((batch.trace.moments[one].end for one in moment.parents), key=lambda end: end.low, default=None)
    waxes = [(row, melts) for row in batch.trace.holds(moment, "wax", before=True) if (melts := _melts(row)) and moment.before[row.code] >= batch.limit(NAME, "of wax that") * moment.mass]
    row, melts = max(waxes, key=lambda one: one[1].low, default=(None, None))
    far = batch.apart(NAME, "in lumps")
    if row is None or before.low < melts.low - far or moment.end.high > melts.low - far or _is_seen_to(batch, moment, melts):
        return None
    return Finding(LEVEL, NAME, f"{moment.vessel} comes to {celsius(moment.end)} with {row.name} in it, which melts at {celsius(melts)}", Label(moment.span, "chills the wax"),
                   (Label(row.span, "sets in lumps"),), LUMPS, f"In line {moment.span.line}, warm what goes in to {celsius(melts.low)} first, or heat {moment.vessel} until clear behind it.",
                   batch.source(NAME, "in lumps"), material=row.name, step=moment.step.number)


def _is_seen_to(batch, moment, melts) -> bool:
    """It is melted through again, or the pouring tells of it."""
    left = batch.trace.leaves(moment)
    melted = _looks(moment) or any(one.peak.high >= melts.low - batch.apart(NAME, "in lumps") + SMALL or one.step.verb == "melt" for one in batch.trace.later(moment))
    return melted or left.step.verb == "pour" and left.start.high < melts.low - batch.apart("pour-temp", "far below")


def _looks(moment) -> bool:
    """Whether the crew waits until nothing solid is left."""
    until = moment.step.value("until")
    return isinstance(until, tree.States) and bool({"melted", "clear", "dissolved"} & set(until.names))
