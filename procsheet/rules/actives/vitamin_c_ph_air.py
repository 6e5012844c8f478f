"""Vitamin C stands at the wrong pH, beside copper or iron, or in air with nothing that takes up metal.

Why it matters
    Ascorbic acid keeps only in acid; from pH 4 on air browns it within weeks, and a trace of copper or iron makes that days. Its phosphates and
    glucosides are the other way round: acid splits them. The colour shows it when the jars are sold.

Wrong
    type solution
    phase B: active
        0.1 %  disodium EDTA
        10 %   ascorbic acid
    phase C: pH
        as needed, about 1 %, at most 3 %  sodium hydroxide 10 % solution
    method
        add B to main until dissolved
        blanket main with nitrogen
        adjust main to pH 6-6.5 with C

Wrong
    type gel
    phase B: active
        2 %    sodium ascorbyl phosphate
    phase C: pH
        as needed, about 1 %, at most 3 %  lactic acid 10 % solution
    method
        add B to main until dissolved
        adjust main to pH 4.5 with C

Wrong
    type solution
    phase B: active
        10 %   ascorbic acid
    method
        add B to main until dissolved

Right
    type solution
    phase B: active
        0.1 %  disodium EDTA
        10 %   ascorbic acid
    phase C: pH
        as needed, about 1 %, at most 3 %  sodium hydroxide 10 % solution
    method
        add B to main until dissolved
        blanket main with nitrogen
        adjust main to pH 3-3.3 with C

Limits
    The pH that it goes out with, against its own data: half a unit outside is a warning, less a hint. Dissolved copper or iron in one vessel with the
    free acid is a warning, a pigment a hint. The free acid without a chelator, or never under nitrogen or a closed lid, is a hint.

Exceptions
    Up to 1 %, which is there as an antioxidant. What holds no water. Encapsulated vitamin C.

Needs
    pH, never with

Source
    formulators' guide to vitamin C; from memory, for air and metal
"""

from procsheet.findings import LEVELS, Finding, Label
from procsheet.intervals import BEYOND, STRADDLES, above, below
from procsheet.rules import ph
from procsheet.rules.batch import gravest
from procsheet.rules.words import share

NAME = "vitamin-c-ph-air"
LEVEL = "WARN"
HINT = "NOTE"
WHY = "In the wrong pH, in air or beside metal vitamin C is gone within weeks, and browns the product. The colour shows it when the jars are sold."


def check(batch):
    for row in batch.method.rows:
        if row.material.is_a("ascorbic") and batch.of_batch(row) > batch.limit(NAME, "counts") and batch.type != "anhydrous":
            found = gravest((_at_a_ph(batch, row), *((_beside_metal(batch, row), _in_air(batch, row)) if _is_free(row) else ())))
            if found is not None:
                yield found


def _is_free(row) -> bool:
    """Air takes it where iron does: its esters stand both."""
    return "iron" in row.material.words("never with")


def _at_a_ph(batch, row) -> Finding | None:
    figure = row.material.figure("pH")
    judged = [(level, said) for said in ph.final(batch, row) if figure is not None and (level := _level(batch, figure.value, said.value)) is not None]
    if not judged:
        return None
    level, said = min(judged, key=lambda one: LEVELS.index(one[0]))
    wanted = ph.figure(figure.value)
    return ph.told(batch, NAME, level, row, said, f"at pH {wanted}", WHY, f"Bring the product to pH {wanted}, in the adjusting step and in the limits, or take a form of vitamin C for pH {ph.figure(said.value)}.",
                   f"data of {row.material.name}: pH {figure.told}")


def _level(batch, figure, value) -> str | None:
    slack = batch.limit(NAME, "outside")
    verdicts = (above(value, figure.high), below(value, figure.low))
    if BEYOND in (above(value, figure.high + slack), below(value, figure.low - slack)):
        return LEVEL
    far = STRADDLES in (above(value, figure.high + slack), below(value, figure.low - slack))
    return HINT if BEYOND in verdicts or far else None


def _beside_metal(batch, row) -> Finding | None:
    metals = [one for one in batch.method.rows if one.material.is_a("iron", "copper") and ph.meeting(batch, row, one) is not None]
    metal = min(metals, key=lambda one: one.material.is_a("powder"), default=None)
    if metal is None:
        return None
    meets = ph.meeting(batch, row, metal)
    return Finding(HINT if metal.material.is_a("powder") else LEVEL, NAME, f"{row.name} meets {metal.name}, whose metal lets air destroy it", Label(metal.span, "brings metal"),
                   (Label(row.span, "stands no iron or copper"), Label(meets.span, "they meet here")), WHY,
                   f"Leave {metal.name} out, or take an ester of vitamin C that stands it.", f"data of {row.material.name}: never with iron, copper (from memory)",
                   material=row.name, step=meets.step.number)


def _in_air(batch, row) -> Finding | None:
    held = [moment for moment in batch.trace.moments if row.code in moment.contents]
    lidded = any(moment.cover in ("nitrogen", "vacuum") or moment.closed for moment in held)
    chelated = any(one.material.is_a("chelator") for one in batch.method.rows)
    lacks = " and ".join(filter(None, ("" if chelated else "no chelator", "" if lidded else "no nitrogen")))
    if not lacks or not held:
        return None
    fix = " and ".join(filter(None, ("" if chelated else "add 0.1 % disodium EDTA to the water before it", "" if lidded else f"write `under nitrogen` from line {held[0].span.line} on")))
    return Finding(HINT, NAME, f"{share(batch.of_batch(row))} of {row.name} has {lacks} to keep it", Label(row.span, "browns in air"), (Label(held[0].span, "goes in here"),), WHY,
                   f"{fix[0].upper()}{fix[1:]}.", batch.source(NAME, "counts"), material=row.name, step=held[0].step.number)
