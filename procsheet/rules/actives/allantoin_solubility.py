"""More allantoin than cold water dissolves.

Why it matters
    Hot water takes up several times what cold water holds. What was clear at 70 °C grows needles in the jar, weeks later, and they feel like glass.

Wrong
    type gel
    phase B: active
        1 %    allantoin
    method
        heat main to 70 °C
        add B to main until dissolved
        cool main to 25 °C

Right
    type gel
    phase B: active
        0.4 %  allantoin
    method
        heat main to 70 °C
        add B to main until dissolved
        cool main to 25 °C

Limits
    More than 0.5 % of the water in the finished batch is a hint, a fifth above that is given. Twice as much is a warning where it was dissolved hot.

Exceptions
    A fine powder or a dispersion that never gets warmer than 50 °C, in an emulsion, a paste or a suspension: it stays as fine as it went in. Both ways,
    cold and fine or hot and dissolved, are advised.

Source
    public threads and teaching pages; solubility from memory
"""

from procsheet.findings import Finding, Label
from procsheet.intervals import SMALL
from procsheet.rules.words import celsius, share

NAME = "allantoin-solubility"
LEVEL = "WARN"
HINT = "NOTE"
THIN = ("gel", "solution", "surfactant solution", "hydroalcoholic")
GIVEN = 1.2                             # times the figure: less above it is within its spread (common practice, no source)
WHY = "What hot water dissolved and cold water does not hold grows into needles in the jar, weeks later: the product scratches."


def check(batch):
    rows = [row for row in batch.method.rows if row.material.is_a("crystallises from water")]
    total = sum(batch.of_batch(row, "crystallises from water") for row in rows)
    water = sum(batch.of_batch(row) for row in batch.method.rows if batch.trace.watery({row.code: 1.0}))
    holds = batch.limit(NAME, "cold water holds")
    if not rows or water <= 0 or total / water <= holds * GIVEN + SMALL:
        return
    row, hottest = rows[0], _hottest(batch, rows)
    if hottest is None or hottest.peak.high <= batch.limit(NAME, "stays fine") and batch.type not in THIN:
        return
    hot = hottest.peak.low > batch.limit(NAME, "stays fine")
    yield Finding(LEVEL if hot and total / water > 2 * holds else HINT, NAME, f"{share(total)} of {row.name} is {share(total / water)} of the water; cold water holds {share(holds)}",
                  Label(row.span, "too much to stay dissolved"), (Label(hottest.span, f"dissolves at {celsius(hottest.peak)}, and comes out as it cools"),) if hot else (), WHY,
                  f"Bring it to {share(holds * water)} of the batch or less; or disperse it as a fine powder below {celsius(batch.limit(NAME, 'stays fine'))}, in an emulsion.",
                  batch.source(NAME), material=row.name, step=hottest.step.number if hot else 0)


def _hottest(batch, rows):
    codes = {row.code for row in rows}
    held = [moment for moment in batch.trace.moments if codes & moment.contents.keys()]
    return max(held, key=lambda moment: (moment.peak.low, moment.peak.high), default=None)
