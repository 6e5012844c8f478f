"""A strainer is finer than the beads, grains or pearl in the batch.

Why it matters
    A strainer before the filler is to keep back lumps and hairs. One that is finer than what belongs in the product keeps that back instead: it blinds
    within minutes, and what comes through is a product without its beads.

Wrong
    type gel
    phase B: gel
        0.5 %  xanthan gum
    phase C: beads
        1 %  jojoba wax bead
    method
        disperse B in main with homogeniser
        add C to main with paddle
        strain main through 200 µm

Right
    type gel
    phase B: gel
        0.5 %  xanthan gum
    phase C: beads
        1 %  jojoba wax bead
    method
        disperse B in main with homogeniser
        strain main through 200 µm
        add C to main with paddle

Limits
    The strainer in the data of the material, else 1000 µm for beads, three times their size, and 500 µm for grains; 150 µm for pearl is a hint.

Exceptions
    What is strained before they go in.

Needs
    strainer

Source
    common practice, no source
"""

from procsheet.findings import LOWER, Finding, Label
from procsheet.intervals import BEYOND
from procsheet.model import quantities
from procsheet.rules.batch import judge
from procsheet.syntax import tree

NAME = "filter-mesh"
LEVEL = "WARN"
USUAL = {"grain": "grains", "pearlescent": "pearl", "bead": "beads"}
MICRON = 1e-6
WHY = "It keeps back what belongs in the product: it blinds within minutes, and what comes through has no beads in it."


def check(batch):
    told: set[str] = set()
    for moment in batch.trace.moments:
        mesh = _mesh(moment)
        for code in moment.contents if mesh is not None else ():
            row = batch.graph.rows.get(code)
            if row is not None and code not in told and (finding := _judged(batch, row, moment, mesh)):
                told.add(code)
                yield finding


def _mesh(moment) -> float | None:
    """The opening a step passes its batch through [m]; None where it is no mesh, or not said."""
    through = moment.step.written.slots.get("DEVICE") or moment.step.value("through")
    if not isinstance(through, tree.Quantity) or quantities.dimension(through) != "length":
        return None
    value = quantities.interval(through)
    return value.high if value is not None else None


def _judged(batch, row, moment, mesh) -> Finding | None:
    figure = row.material.figure("strainer")
    usual = next((words for group, words in USUAL.items() if row.material.is_a(group)), "")
    least = figure.value.low if figure else batch.limit(NAME, usual) if usual else 0.0
    if mesh >= least - MICRON / 2:
        return None
    level = judge(LOWER[LEVEL] if usual == "pearl" else LEVEL, BEYOND, figure)
    return Finding(level, NAME, f"{moment.vessel} goes through {_microns(mesh)} with {row.name} in it, which asks for {_microns(least)} or wider", Label(moment.span, "keeps it back"),
                   (Label(row.span, f"strainer at least {_microns(least)}"),), WHY,
                   f"Strain before {row.name} goes in, or take a strainer of {_microns(least)} or wider in line {moment.span.line}.",
                   f"data of {row.material.name}: {figure.told}" if figure else batch.source(NAME, usual), material=row.name, step=moment.step.number)


def _microns(length: float) -> str:
    return f"{length / MICRON:.0f}\u00a0µm"
