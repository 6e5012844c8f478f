"""A pressed powder has too little or too much binder, or is pressed with no pressure said.

Why it matters
    Too little binder and the cake crumbles in the bag; too much, or too high a pressure, and it glazes: the puff slides over it and takes nothing up. The
    pressure decides as much as the binder, and a pan pressed twice as hard is another product.

Wrong
    product Pressed powder
    type powder
    basis 1 kg
    phase A: powders
        to 100 %  talc
    phase B: binder
        1 %  isopropyl myristate
    vessel main
    mould pan "37 mm pan"
    method
        charge A into main
        add B to main slowly with blade
        fill main into pan
        press pan at 60 bar

Wrong
    product Pressed powder
    type powder
    basis 1 kg
    phase A: powders
        to 100 %  talc
    phase B: binder
        5 %  isopropyl myristate
    vessel main
    mould pan "37 mm pan"
    method
        charge A into main
        add B to main slowly with blade
        fill main into pan
        press pan

Right
    product Pressed powder
    type powder
    basis 1 kg
    phase A: powders
        to 100 %  talc
    phase B: binder
        5 %  isopropyl myristate
    vessel main
    mould pan "37 mm pan"
    method
        charge A into main
        add B to main slowly with blade
        fill main into pan
        press pan at 60 bar

Limits
    3 to 10 % of oils, esters, silicones and waxes together; metal soaps, which bind dry, count from 3 % on as a quarter of their weight. A pressure
    that is not said is a warning.

Exceptions
    Loose powders, which nobody presses. Wet-pressed and baked ones, where water or alcohol goes in and dries off: only the pressure is asked for.

Source
    public threads and teaching pages on pressed powder
"""

from procsheet.findings import Finding, Label
from procsheet.rules.words import share

NAME = "pressed-powder-binder"
LEVEL = "WARN"
OILY = ("oil", "silicone")
SOAPS = ("stearate", "myristate", "laurate")
METALS = ("magnesium", "zinc", "calcium", "aluminium", "aluminum")
DRY = 0.25                              # of a metal soap counts as binder (common practice, no source)
NEARLY = 1e-6
WHY = "With too little binder the cake crumbles in the bag; with too much, or pressed too hard, it glazes and the puff takes nothing up."


def check(batch):
    pressed = [moment for moment in batch.trace.moments if moment.step.verb == "press"] or [step for step in batch.method.steps() if step.verb == "press"]
    if batch.type != "powder" or not pressed:
        return
    step = getattr(pressed[0], "step", pressed[0])
    if not step.has("pressure"):
        yield Finding(LEVEL, NAME, "the pressure that the powder is pressed at is not said", Label(step.span, "at how many bar?"), (), WHY,
                      f"Write the pressure in line {step.span.line}, from the trial: press ... at 60 bar.", batch.source(NAME, "pressure"), step=step.number)
    least, most, there = batch.limit(NAME, "at least"), batch.limit(NAME, "at most"), _binder(batch)
    if not any(batch.trace.affinities[row.code] in ("water", "alcohol") and batch.of_batch(row) > least for row in batch.method.rows) and not least - NEARLY <= there <= most + NEARLY:
        yield _finding(batch, step, there, least, most)


def _binder(batch) -> float:
    """The share of binder [1]."""
    rows = batch.method.rows
    oils = sum(batch.of_batch(row) for row in rows if batch.trace.affinities[row.code] in OILY and not _is_metal_soap(row) and not row.material.is_a("preservative"))
    soaps = sum(batch.of_batch(row) for row in rows if _is_metal_soap(row))
    return oils + (soaps * DRY if soaps >= batch.limit(NAME, "metal soap") else 0.0)


def _is_metal_soap(row) -> bool:
    words = row.material.name.lower().split()
    return words[0] in METALS and words[-1] in SOAPS


def _finding(batch, step, there, least, most) -> Finding:
    oils = [row for row in batch.method.rows if batch.trace.affinities[row.code] in OILY and not row.material.is_a("preservative")]
    place = max(oils, key=batch.of_batch, default=None)
    few = there < least
    return Finding(LEVEL, NAME, f"the powder is pressed with {share(there)} of binder; {share(least)} to {share(most)} is usual",
                   Label(place.span if place else step.span, "too little binder" if few else "too much binder"), (Label(step.span, "pressed here"),) if place else (), WHY,
                   f"Bring oils and esters to {share(least if few else most)} {'or more' if few else 'or less'}, at the cost of the filler, or show by a drop test that it holds.",
                   batch.source(NAME, "binder"), material=place.name if place else "", step=0 if place else step.number)
