"""More preservative than cold water holds.

Why it matters
    It dissolves warm and looks clear. In a cold store it comes out as needles or as a film that etches the bottle, and what has come out
    keeps nothing.

Wrong
    type solution
    phase B: keeping
        0.4 %  methylparaben

Right
    type solution
    phase B: keeping
        0.2 %  methylparaben

Limits
    What water holds at room temperature, by the preservative, against its share of the water in the batch. Twice that much is a warning,
    less a hint: the figures are remembered.

Exceptions
    Emulsions and products with 5 % or more of polyol, alcohol, oil, solubiliser or surfactant, which hold more. Salts.

Source
    from memory; public thread on a film in the bottle
"""

from procsheet.findings import Finding, Label
from procsheet.rules.words import share

NAME = "preservative-solubility"
LEVEL = "WARN"
HOLDS = ("polyol", "alcohol", "solvent", "surfactant", "solubiliser", "soap", "emulsifier")
OF = " that cold water holds"
TWICE = 2.0                             # a remembered figure is passed for certain (as everywhere)
NEARLY = 1e-9
WHY = "It dissolves warm and looks clear; in a cold store it comes out as needles or a film, and what has come out keeps nothing."


def check(batch):
    rows = [row for row in batch.method.rows if not row.optional]
    water = sum(batch.of_batch(row) for row in rows if row.material.is_a("water"))
    more = sum(batch.of_batch(row, *HOLDS) for row in rows) + sum(batch.of_batch(row) for row in rows if batch.trace.affinities[row.code] in ("oil", "silicone"))
    if batch.is_emulsion or not water or more >= batch.limit(NAME, "from which it holds more") - NEARLY:
        return
    for row in rows:
        most = _held(batch, row) if row.material.is_a("preservative") and row.mass else None
        if most is not None and batch.of_batch(row) / water > most + NEARLY:
            yield _finding(batch, row, batch.of_batch(row) / water, most)


def _held(batch, row) -> float | None:
    words = f"{row.material.name}{OF}"
    return batch.limit(NAME, words) if batch.thresholds(NAME, words) else None


def _finding(batch, row, there, most) -> Finding:
    return Finding(LEVEL if there > TWICE * most else "NOTE", NAME, f"{share(there)} of {row.name} in the water, which holds {share(most)} cold", Label(row.span, "comes out cold"), (), WHY,
                   f"Bring {row.name} down to {share(most)} of the water, or give it a glycol to stand in, and keep a bottle at 5\u00a0°C for a week.",
                   batch.source(NAME, f"{row.material.name}{OF}"), material=row.name)
