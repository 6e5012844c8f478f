"""Zinc oxide meets acid, free fatty acid or carbomer.

Why it matters
    Acid dissolves zinc oxide: the powder that was to protect is gone, and the zinc in solution breaks carbomer and thickens fatty acid to a
    curd. The batch drifts in pH and grows grains or thins for weeks.

Wrong
    phase B: powder
        10 %  zinc oxide
    phase C: acid
        1 %  citric acid
    method
        disperse B in main with homogeniser
        add C to main

Wrong
    phase B: powder
        10 %  zinc oxide
    phase C: pH
        as needed, about 0.2 %, at most 0.5 %  citric acid 20 % solution
    method
        disperse B in main with homogeniser
        adjust main to pH 5-5.5 with C

Right
    phase B: powder
        10 %  zinc oxide
    method
        disperse B in main with homogeniser

Limits
    pH 6.5 in what holds it and in the product. Below pH 6 the batch is stopped, between the two it is a warning. An acid of the formula
    that no base takes up counts as well; up to 0.1 % does not. Stearic acid and the like, and carbomer in water, are a warning.

Exceptions
    Coated grades: one level lower for acid, nothing for fatty acid and carbomer. Polyhydroxystearic and liquid fatty acids, which disperse
    it. Boric acid and others as weak.

Source
    from memory, for the pH and for carbomer; common practice, no source, for fatty acid
"""

from procsheet.findings import LOWER, Finding, Label
from procsheet.intervals import BEYOND, WITHIN, below
from procsheet.rules import ph
from procsheet.rules.batch import gravest
from procsheet.rules.words import share

NAME = "zno-acid"
LEVEL = "STOP"
WARNING = "WARN"
LEAST = 0.002                           # of the batch: less of it is a trace (common practice, no source)
WHY = "Acid dissolves zinc oxide: the powder is gone, and dissolved zinc breaks carbomer and makes curds with fatty acid. The pH drifts for weeks."


def check(batch):
    rows = [row for row in batch.method.rows if row.material.is_a("zinc oxide") and batch.of_batch(row) >= LEAST]
    if rows:
        row = min(rows, key=lambda one: one.material.is_a("coated"))
        found = gravest((*_at_a_ph(batch, row), *_with_acid(batch, row), *_with_others(batch, row)))
        if found is not None:
            yield found


def _level(row, level: str) -> str:
    return LOWER[level] if row.material.is_a("coated") else level


def _at_a_ph(batch, row):
    soft, hard = (batch.limit(NAME, words) for words in ("warning", "stop"))
    for said in ph.stated(batch, row):
        if below(said.value, soft) != WITHIN:
            level = LEVEL if below(said.value, hard) == BEYOND else WARNING
            yield ph.told(batch, NAME, _level(row, level), row, said, f"from pH {soft:.3g} on", WHY,
                          f"Keep what holds {row.name} at pH {soft:.3g} or above, or leave the zinc oxide out of this product.", batch.source(NAME, "pH"))


def _with_acid(batch, row):
    stands = any(below(said.value, batch.limit(NAME, "warning")) != BEYOND for said in ph.stated(batch, row))
    for acid in ph.free_acids(batch):
        moment = ph.meeting(batch, row, acid)
        if moment is not None and (not stands or ph.late(batch, row, acid)):
            yield Finding(_level(row, LEVEL), NAME, f"{share(batch.of_batch(acid))} of {acid.name} meets {row.name} in {moment.vessel}, and nothing neutralises it",
                          Label(moment.span, "they meet here"), (Label(acid.span, "the acid"), Label(row.span, "dissolves in acid")), WHY,
                          f"Take {acid.name} out, or neutralise it to pH 7 in water of its own before line {moment.span.line}.", batch.source(NAME, "pH"),
                          material=acid.name, step=moment.step.number)


def _with_others(batch, row):
    """Free fatty acid, which makes a soap of zinc, and carbomer, which zinc breaks."""
    if row.material.is_a("coated"):
        return
    for other in batch.method.rows:
        carbomer = other.material.is_a("carbomer") and not other.material.is_a("polymeric emulsifier")
        fatty = other.material.kind == "fatty acid" and not batch.is_water_in_oil and batch.of_batch(other) >= LEAST
        moment = ph.meeting(batch, row, other) if carbomer or fatty else None
        if moment is not None:
            what = "zinc breaks its gel" if carbomer else "makes a soap of zinc with it"
            yield Finding(WARNING, NAME, f"{other.name} meets {row.name} in {moment.vessel}; {what}", Label(moment.span, "they meet here"),
                          (Label(other.span, what), Label(row.span, "gives off zinc")), WHY,
                          "Take xanthan gum or a clay in place of the carbomer, or a coated zinc oxide." if carbomer else
                          f"Take a fatty alcohol in place of {other.name}, or a coated zinc oxide.", batch.source(NAME, "carbomer" if carbomer else "fatty acid"),
                          material=other.name, step=moment.step.number)
