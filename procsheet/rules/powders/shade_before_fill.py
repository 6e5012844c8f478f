"""A tinted product is filled without its shade compared, or compared before the last of its colour is in.

Why it matters
    A shade is corrected with a few grams of pigment while it is in the kettle, and never in the pack. What is compared before the last milling is not
    yet the shade: each pass brings out more of it.

Wrong
    type anhydrous
    phase B: shade
        20 %  castor oil
        3 %  red iron oxide
    method
        charge B into side
        mill side with roll mill
        transfer side to main

Wrong
    type anhydrous
    phase B: shade
        20 %  castor oil
        3 %  red iron oxide
    method
        charge B into side
        check side shade "as the standard"
        mill side with roll mill
        transfer side to main

Right
    type anhydrous
    phase B: shade
        20 %  castor oil
        3 %  red iron oxide
    method
        charge B into side
        mill side with roll mill
        check side shade "as the standard"
        transfer side to main

Limits
    From 0.3 % of coloured pigment on, lakes and oxides, white not counted.

Exceptions
    Suspensions, pastes and soaps tinted for looks; a method that fills nothing.

Source
    common practice, no source: a drawdown without air, milled and cold
"""

from procsheet.findings import Finding, Label
from procsheet.syntax import tree

NAME = "shade-before-fill"
LEVEL = "NOTE"
WHITE = ("titanium", "zinc", "77891", "77947", "mica", "bismuth")
TYPES = ("oil-in-water emulsion", "water-in-oil emulsion", "water-in-silicone emulsion", "anhydrous", "powder")
FILLS = ("fill", "pour", "discharge")
WHY = "A shade is put right with a few grams of pigment in the kettle, and never in the pack; each pass of a mill brings out more of it."


def check(batch):
    colours = [row for row in batch.method.rows if row.material.kind == "pigment" and not any(word in row.material.name.lower() for word in WHITE)]
    fill = next((moment for moment in batch.trace.moments if moment.step.verb in FILLS and any(row.code in moment.contents for row in colours)), None)
    if batch.type not in TYPES or fill is None or sum(map(batch.of_batch, colours)) < batch.limit(NAME):
        return
    path = [moment for moment in batch.trace.history(fill) if any(row.code in moment.contents for row in colours)]
    looks = [moment for moment in path if _compares(moment)]
    last = next((moment for moment in reversed(path) if _changes(moment, colours)), path[0])
    if not any(moment.index >= last.index for moment in looks):
        place, what = (looks[-1], f"is compared before line {last.span.line}, which changes it") if looks else (fill, "is not compared before filling")
        yield Finding(LEVEL, NAME, f"the shade of {last.vessel} {what}", Label(place.span, "too early" if looks else "the shade as it is"),
                      tuple(Label(row.span, "its colour") for row in colours[:3]), WHY,
                      f'Put a step after line {last.span.line}: check {last.vessel} shade "as the standard, drawdown without air", if not "correct, mix, compare again".',
                      batch.source(NAME), step=place.step.number)


def _compares(moment) -> bool:
    said = (moment.step.written.slots.get("MEASURE"), moment.step.value("until", "each until"))
    return any(isinstance(one, tree.Measure) and one.name in ("colour", "appearance") for one in said)


def _changes(moment, colours) -> bool:
    """A mill, or more colour."""
    return any("mill" in tool for tool in moment.shear.tools) or moment.step.verb == "mill" or any(portion.row is row for portion in moment.entering for row in colours)
