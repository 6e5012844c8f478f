"""Urea with nothing that holds its pH.

Why it matters
    In water urea gives off a little ammonia, month after month, faster the warmer it stands. Where nothing takes the ammonia up the pH climbs from 5 to
    8 and more: the preservative stops working, the emulsion thins, and it smells.

Wrong
    phase B: urea
        10 %  urea
    method
        add B to main with paddle until dissolved

Right
    phase B: urea
        10 %  urea
        1 %   lactic acid 90 %
        1 %   sodium lactate 60 % solution
    method
        add B to main with paddle until dissolved

Right
    phase B: urea
        10 %  urea
    phase C: pH
        as needed, about 0.3 %, at most 0.5 %  citric acid 20 % solution
    method
        add B to main with paddle until dissolved
        adjust main to pH 5.0-5.5 with C, in portions

Limits
    Materials whose data say `needs buffer`, from 3 % of the batch on, in a product with water; 0.1 % of acid, lactone, lactate, citrate or phosphate, as
    pure, is a buffer, a corrector up to its cap.

Exceptions
    Alkaline products, such as depilatories. Products without water. How warm the urea gets on its way is told by heat-sensitive.

Needs
    needs buffer

Source
    common practice, no source
"""

from procsheet.findings import Finding, Label
from procsheet.rules.words import share

NAME = "urea-buffer"
LEVEL = "WARN"
HOLDS = ("buffer salt", "phosphate buffer", "acid", "hydroxy acid")
ALKALINE = ("base", "soap", "carbonate", "reducing agent")
NEARLY = 1e-9
WHY = "In water it gives off ammonia month after month. Nothing takes that up: the pH climbs to 8 and more, the preservative stops working, and it smells."


def check(batch):
    rows = [row for row in batch.method.rows if any("buffer" in words.split() for words in row.material.words("needs")) and not row.optional]
    enough = [row for row in rows if batch.of_batch(row) >= batch.limit(NAME, "wants a buffer") - NEARLY]
    if enough and any(row.material.is_a("water") for row in batch.method.rows) and not _is_alkaline(batch) and _held(batch) < batch.limit(NAME, "at least") - NEARLY:
        yield _finding(batch, enough[0])


def _is_alkaline(batch) -> bool:
    """Made alkaline on purpose: a base that is there for more than a carbomer."""
    strong = sum(batch.of_batch(row, *ALKALINE) for row in batch.method.rows if row.kind == "figure")
    return strong >= batch.limit(NAME, "of alkali")


def _held(batch) -> float:
    """The share of what holds a pH, as pure; of a corrector as much as may go in. An unknown material whose name says so counts."""
    return sum(float((row.cap or row.mass or row.guide or 0) / batch.method.mass) * (row.material.share(*HOLDS) if row.material.known else 1.0)
               for row in batch.method.rows if row.material.share(*HOLDS) or not row.material.known and "buffer" in row.name)


def _finding(batch, row) -> Finding:
    return Finding(LEVEL, NAME, f"{share(batch.of_batch(row))} of {row.name}, and nothing in the formula holds the pH", Label(row.span, "gives off ammonia"), (), WHY,
                   f"Dissolve 1 % sodium lactate and lactic acid with {row.name}, to pH 5.0-5.5, or give the batch citrate; and watch the pH over three months at 40\u00a0°C.",
                   f"data of {row.material.name}: needs buffer; {batch.source(NAME, 'wants a buffer')}", material=row.name)
