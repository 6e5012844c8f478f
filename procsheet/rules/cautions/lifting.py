"""A container on the weighing list is too heavy for one.

Why it matters
    Backs are hurt at the scale and at the manhole, not on the stairs.

Wrong
    product Heavy
    type gel
    basis 400 kg
    to 100 %  purified water
    8 %       glycerin
    vessel main
    method
        charge "purified water" into main
        add "glycerin" to main

Right
    product Light
    type gel
    basis 100 kg
    to 100 %  purified water
    8 %       glycerin
    vessel main
    method
        charge "purified water" into main
        add "glycerin" to main

Limits
    More than 23 kg in one container, at the step where it goes in; what goes in at one step is told together, with the heaviest. Water, which
    comes by a pipe, is left out.

Source
    common practice, no source; local rules on lifting and the plant's own procedures decide
"""

from procsheet.rules.caution import caution
from procsheet.rules.words import listed, weight

NAME = "lifting"
LEVEL = "CAUTION"
ADVICE = "Two people, a lift or a pump; or weigh it into lighter containers."


def check(batch):
    limit, at = batch.limit(NAME), {moment.node: moment for moment in batch.trace.moments}
    heavy: dict[int, list] = {}
    for line in batch.plan.lines:
        if line.use != "make-up" and line.row.measured == "mass" and not line.row.material.is_a("water") and _each(line) > limit:
            heavy.setdefault(line.node, []).append(line)
    for node, lines in heavy.items():
        if node in at:
            most = f"{'up to ' if len(lines) > 1 else ''}{weight(max(map(_each, lines)))}"
            yield caution(NAME, at[node], f"Heavy: {listed(line.row.name for line in lines)}, {most}{' a container' if lines[0].container else ''}", ADVICE)


def _each(line) -> float:
    return float(line.target) / max(line.containers, 1)
