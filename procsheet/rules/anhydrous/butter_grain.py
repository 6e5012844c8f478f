"""A balm with much shea, cocoa or other butter is neither kept hot long enough nor told how to cool.

Why it matters
    A butter is a mixture of fats that set one after the other. Melted just so and left to cool by itself, the hard ones grow into grains like sand,
    days after the tins have left the plant.

Wrong
    product Balm
    type anhydrous
    basis 1 kg
    phase A: balm
        15 %      white beeswax
        25 %      shea butter
        to 100 %  sunflower oil
    vessel main
    container tin "30 mL tin"
    method
        charge A into main
        heat main to 75 °C until melted
        fill main into tin

Right
    product Balm
    type anhydrous
    basis 1 kg
    phase A: balm
        15 %      white beeswax
        25 %      shea butter
        to 100 %  sunflower oil
    vessel main
    container tin "30 mL tin"
    method
        charge A into main
        heat main to 75 °C until melted
        hold main at 75-80 °C for 20 min
        fill main into tin

Right
    product Balm
    type anhydrous
    basis 1 kg
    phase A: balm
        15 %      white beeswax
        25 %      shea butter
        to 100 %  sunflower oil
    vessel main
    container tin "30 mL tin"
    method
        charge A into main
        heat main to 75 °C until melted
        fill main into tin
        cool tin to 10 °C quickly

Limits
    More than 5 % of butters in a product without water. Enough is 15 min at 70 °C or above, or any word on cooling after that: a step that cools it
    below 35 °C, a rate, quickly, slowly, a cold bath. Seven public sources want it fast and one slow, so the way is not judged.

Exceptions
    Hydrogenated fats, which set as one. Emulsions.

Source
    public threads and teaching pages; common practice, no source, for the hold
"""

from procsheet.findings import Finding, Label
from procsheet.intervals import SMALL
from procsheet.rules.words import celsius, listed, minutes, share

NAME = "butter-grain"
LEVEL = "WARN"
SETS_AS_ONE = ("hydrogenated", "C10-18", "tallow", "lard")   # fats of the butter kind without its fault (common practice, no source)
WAYS = ("heat rate", "quickly", "slowly", "ice bath", "cold bath", "over", "within")
WHY = "A butter is a mixture of fats. Left to cool by itself, the hard ones grow into grains like sand, days after the tins have left the plant."


def check(batch):
    rows = [row for row in batch.method.rows if row.material.kind == "butter" and not row.material.name.startswith(SETS_AS_ONE)]
    total = sum(map(batch.of_batch, rows))
    if batch.type != "anhydrous" or total <= batch.limit(NAME, "counts") + SMALL:
        return
    paths = [list(batch.trace.path(one.moment)) for one in batch.trace.exposures if one.row in rows]
    moments = sorted({moment.index: moment for path in paths for moment in path}.values(), key=lambda moment: moment.index)
    if moments and not _held(batch, moments) and not _told(batch, moments):
        yield _finding(batch, rows, total, moments)


def _held(batch, moments) -> bool:
    hot, long = batch.limit(NAME, "erases"), batch.limit(NAME, "erased")
    return sum(moment.duration.high for moment in moments if moment.duration is not None and max(moment.start.high, moment.end.high) >= hot - SMALL) >= long - SMALL


def _told(batch, moments) -> bool:
    """Any word on how it cools, once it has been hot."""
    soft = batch.limit(NAME, "cooled to")
    return any(moment.step.verb == "cool" and (moment.end.high <= soft + SMALL or moment.step.has(*WAYS)) for moment in moments)


def _finding(batch, rows, total, moments) -> Finding:
    last = batch.trace.leaves(moments[0])
    hot = celsius(batch.limit(NAME, "erases"))
    return Finding(LEVEL, NAME, f"{share(total)} of {listed(row.name for row in rows)} is not kept hot for {minutes(batch.limit(NAME, 'erased'))}, and how it cools is not said",
                   Label(last.span, "cools by itself from here"), tuple(Label(row.span, "grains when it cools by itself") for row in rows[:3]), WHY,
                   f"Put a step before line {last.span.line} that holds {batch.trace.moments[last.parents[0]].vessel if last.parents else last.vessel} at {hot} or above for 20 min; "
                   "and say how it is to cool, as it proved well: a rate, a cold bath, a cold tunnel.", batch.source(NAME, "counts"), material=rows[0].name, step=last.step.number)
