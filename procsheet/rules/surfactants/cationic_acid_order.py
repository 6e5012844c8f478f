"""An amidoamine meets the water without its acid.

Why it matters
    An amidoamine holds nothing until acid has charged it. Without acid in the water, or with acid only when the batch has cooled, it stays a wax:
    grains in a thin milk.

Wrong
    phase B: fats
        5 %  cetearyl alcohol
        2 %  stearamidopropyl dimethylamine
    phase C: acid
        as needed, at most 1 %  lactic acid 90 %
    method
        heat main to 80 °C
        charge B into side
        heat side to 80 °C until melted
        add side to main with homogeniser
        cool main to 30 °C with anchor
        adjust main to pH 4-4.5 with C, in portions

Right
    phase B: fats
        5 %  cetearyl alcohol
        2 %  stearamidopropyl dimethylamine
    phase C: acid
        0.6 %  lactic acid 90 %
    method
        add C to main
        heat main to 80 °C
        charge B into side
        heat side to 80 °C until melted
        add side to main with homogeniser
        cool main to 30 °C with anchor

Limits
    From 0.3 % of amidoamine, where it first meets water: a warning if acid comes later and below 60 °C, or never; a hint if it comes later
    and hot.

Exceptions
    Quaternary ammonium salts, which are charged already. Another cationic surfactant that holds the emulsion: a hint.

Source
    from memory, for pH 4 to 4.5; common practice, no source
"""

from procsheet.findings import Finding, Label
from procsheet.rules.words import celsius

NAME = "cationic-acid-order"
LEVEL = "WARN"
NEARLY = 1e-9
WHY = "Without acid it carries no charge and holds nothing: it sets as grains in a thin milk. Acid that comes to the cold batch does not reach what has set."


def check(batch):
    for row in batch.method.rows:
        if row.material.is_a("amidoamine") and not row.optional and batch.of_batch(row) >= batch.limit(NAME, "it counts") - NEARLY:
            moment = next((one for one in batch.trace.moments if row.code in one.contents and batch.watery(one.contents) > one.contents[row.code]), None)
            if moment is not None and not _acids(batch, moment):
                yield _finding(batch, row, moment)


def _acids(batch, moment):
    held = [*batch.trace.holds(moment, "acid"), *(portion.row for one in batch.trace.history(moment) for portion in one.entering if portion.row.material.is_a("acid"))]
    return [row for row in held if not row.material.is_a("preservative", "borate")]


def _finding(batch, row, moment) -> Finding:
    late = next((one for one in batch.trace.later(moment) if any(portion.row.material.is_a("acid") for portion in one.entering)), None)
    hot = late is not None and late.start.low >= batch.limit(NAME, "still find")
    helped = [one for one in batch.trace.holds(moment, "cationic surfactant") if not one.material.is_a("amidoamine", "preservative")]
    when = "and no acid is in the batch" if late is None else f"and its acid comes at {celsius(late.start)}, in line {late.span.line}"
    acid = next((one for one in batch.method.rows if one.material.is_a("acid") and not one.material.is_a("preservative")), None)
    return Finding("NOTE" if hot or helped else LEVEL, NAME, f"{row.name} meets the water in {moment.vessel} without acid, {when}", Label(moment.span, "no acid in the water"),
                   (Label(row.span, "an amine: acid makes it an emulsifier"), *((Label(late.span, "the acid comes here"),) if late is not None else ())), WHY,
                   f"Put {acid.name if acid is not None else 'lactic acid'}, about one mole to one of {row.name}, into the water before line {moment.span.line}, "
                   "and only correct the pH at the end.",
                   batch.source(NAME, "it counts"), material=row.name, step=moment.step.number)
