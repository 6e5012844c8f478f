"""Niacinamide is kept at a pH that turns it into nicotinic acid.

Why it matters
    In acid, and faster in hot acid, niacinamide turns into nicotinic acid, which makes the skin flush and burn. It happens in the jar, months after
    the tests.

Wrong
    type gel
    phase B: active
        4 %   niacinamide
    phase C: pH
        as needed, about 0.2 %, at most 0.5 %  citric acid 20 % solution
    method
        add B to main until dissolved
        adjust main to pH 3.5-4.0 with C

Wrong
    type gel
    phase B: active
        4 %   niacinamide
    phase C: pH
        as needed, about 0.2 %, at most 0.5 %  citric acid 20 % solution
    method
        add B to main until dissolved
        adjust main to pH 4.2-4.5 with C
        heat main to 75 °C
        hold main at 75 °C for 20 min

Right
    type gel
    phase B: active
        4 %   niacinamide
    phase C: pH
        as needed, about 0.2 %, at most 0.5 %  citric acid 20 % solution
    method
        add B to main until dissolved
        adjust main to pH 5.5-6.0 with C

Limits
    The pH that it goes out with, against its own data, 5 to 7. Sources disagree on what is a little more acid: a handbook says 5, practitioners accept
    4.4. Between the two it is a hint, below both a warning; half a unit above 7 a warning. Hotter than 60 °C in acid below pH 5 a warning, too.

Exceptions
    Less than 0.1 %. A pH that nobody says, unless half a per cent of free acid stands beside it: a hint.

Needs
    pH

Source
    handbook page; formulators' forum, for 4.4
"""

from procsheet.findings import LEVELS, Finding, Label
from procsheet.intervals import BEYOND, WITHIN, above, below
from procsheet.rules import ph
from procsheet.rules.words import celsius, listed, share
from procsheet.trace.acidity import acidity

NAME = "niacinamide-ph"
LEVEL = "WARN"
HINT = "NOTE"
WHY = "In acid, and faster in hot acid, it turns into nicotinic acid, which makes the skin flush and burn. It happens in the jar, after the tests."


def check(batch):
    for row in batch.method.rows:
        if row.material.is_a("turns to nicotinic acid") and batch.of_batch(row) >= batch.limit(NAME, "counts"):
            found = _at_the_end(batch, row) or _hot(batch, row) or _beside_acid(batch, row)
            if found is not None:
                yield found


def _at_the_end(batch, row) -> Finding | None:
    figure = row.material.figure("pH")
    judged = [(level, said) for said in ph.final(batch, row) if figure is not None and (level := _level(batch, figure.value, said.value)) is not None]
    if not judged:
        return None
    level, said = min(judged, key=lambda one: LEVELS.index(one[0]))
    return ph.told(batch, NAME, level, row, said, f"at pH {ph.figure(figure.value)}", WHY, f"Bring the product to pH {ph.figure(figure.value)}, in the adjusting step and in the limits.",
                   f"data of {row.material.name}: pH {figure.told}; {batch.source(NAME, 'practitioners')}")


def _level(batch, figure, value) -> str | None:
    accepted, slack = batch.limit(NAME, "practitioners"), batch.limit(NAME, "above its range")
    if below(value, min(accepted, figure.low)) == BEYOND or above(value, figure.high + slack) == BEYOND:
        return LEVEL
    acid = below(value, figure.low) == BEYOND or below(value, min(accepted, figure.low)) != WITHIN
    return HINT if acid or above(value, figure.high) == BEYOND else None


def _hot(batch, row) -> Finding | None:
    figure, hot = row.material.figure("pH"), batch.limit(NAME, "in acid")
    for moment, value in zip(batch.trace.moments, acidity(batch.trace)):
        if figure is not None and row.code in moment.contents and not value.missing and below(value, figure.value.low) == BEYOND and moment.peak.low > hot:
            return Finding(LEVEL, NAME, f"{row.name} is at {celsius(moment.peak)} in acid of pH {ph.figure(value)}", Label(moment.span, "hot in acid"), (Label(row.span, "splits here"),),
                           WHY, f"Adjust the pH after the batch has cooled, behind line {batch.trace.leaves(moment).span.line - 1}, or add {row.name} then.",
                           batch.source(NAME, "in acid"), material=row.name, step=moment.step.number)
    return None


def _beside_acid(batch, row) -> Finding | None:
    acids = [one for one in ph.free_acids(batch) if ph.meeting(batch, row, one) is not None]
    total = sum(batch.of_batch(one, "acid") for one in acids)
    if total < batch.limit(NAME, "free acid") or ph.final(batch, row):
        return None
    return Finding(HINT, NAME, f"{share(total)} of {listed(one.name for one in acids)} stands with {row.name}, and the pH is not said", Label(row.span, "stable at pH 5 to 7"),
                   tuple(Label(one.span, "makes it acid") for one in acids[:3]), WHY, "Write the pH of the product into its limits, and a step that adjusts it.",
                   batch.source(NAME, "practitioners"), material=row.name)
