"""Acid or much salt meets a water-in-oil emulsifier that does not stand it.

Why it matters
    A glyceryl ester comes apart in acid within weeks, and much salt draws its film together. Soap of beeswax and borax is salted out at once. Either way
    the drops merge and the cream sweats.

Wrong
    type water-in-oil emulsion
    phase B: oils
        30 %  caprylic/capric triglyceride
        4 %  glyceryl oleate
    phase C: active
        2 %  lactic acid
    method
        charge B into side
        add C to main
        add main to side slowly, over 20 min with homogeniser
        transfer side to main

Wrong
    type water-in-oil emulsion
    phase B: oils
        30 %  mineral oil
        12 %  white beeswax
    phase C: water
        0.8 %  borax
        1 %  sodium chloride
    method
        charge B into side
        heat side to 75 °C
        dissolve C in main
        heat main to 75 °C
        add main to side slowly, over 20 min with homogeniser
        transfer side to main

Right
    type water-in-oil emulsion
    phase B: oils
        30 %  caprylic/capric triglyceride
        4 %  glyceryl oleate
    phase C: salt
        0.8 %  magnesium sulfate heptahydrate
    method
        charge B into side
        dissolve C in main
        add main to side slowly, over 20 min with homogeniser
        transfer side to main

Limits
    0.5 % of acid that no base takes up, and 2 % of salt, where a glyceryl ester is half of the emulsifier or more. 0.5 % of salt beside soap that is made
    in the batch.

Exceptions
    Acids as weak as boric acid, and an acid that an adjusting step measures out. Where the data of the emulsifier give a lowest pH,
    `acid-stable-emulsifier` speaks, as it does for soap in acid.

Source
    supplier page on a glyceryl oleate emulsifier, that acids and electrolytes can break such emulsions; the figures are common practice, no source
"""

from procsheet.findings import Finding, Label
from procsheet.rules import ph
from procsheet.rules.drops import makes_soap
from procsheet.rules.words import listed, share

NAME = "acid-and-salt-sensitive"
LEVEL = "WARN"
CLASS = "glyceryl ester"
NO_SALT = ("preservative", "borate", "base")
NEARLY = 1e-9
WHY = "The film round the drops comes apart: they merge, and the cream sweats water within days or weeks."


def check(batch):
    if not batch.is_water_in_oil:
        return
    main = of_class(batch)
    acids = [row for row in ph.free_acids(batch) if not row.material.is_a("preservative", "fatty acid", "liquid fatty acid")]
    strong = sum(batch.of_batch(row, "acid") for row in acids) >= batch.limit(NAME, "acid") - NEARLY
    if acids and strong and main is not None and not main.material.has("pH"):
        yield _finding(batch, acids, main.name, main.span, "acid",
                       f"Neutralise it, or hold the emulsion with a polymer such as PEG-30 dipolyhydroxystearate in place of {main.name}.")
    salts = [row for row in batch.method.rows if row.material.share("electrolyte") and not row.material.is_a(*NO_SALT)]
    soap = next((row for row in batch.method.rows if row.material.is_a("borate")), None) if makes_soap(batch) else None
    held = soap or main
    if salts and held is not None and sum(batch.of_batch(row, "electrolyte") for row in salts) >= batch.limit(NAME, "beside soap" if soap else "ester") - NEARLY:
        name = f"the soap that {soap.name} makes" if soap else main.name
        yield _finding(batch, salts, name, held.span, "electrolyte", "Bring the salt down to 1 % or less." if not soap else "Take the salt out: soap needs none.")


def of_class(batch):
    """The emulsifier of that class, where it is half of what puts oil outside or more; None where it is not."""
    rows = [row for row in batch.method.rows if row.material.is_a("w/o emulsifier")]
    mine = [row for row in rows if row.material.is_a(CLASS)]
    return max(mine, key=batch.of_batch) if mine and 2 * sum(map(batch.of_batch, mine)) >= sum(map(batch.of_batch, rows)) else None


def _finding(batch, rows, name, span, what, fix) -> Finding:
    main = max(rows, key=lambda row: batch.of_batch(row, what))
    total = sum(batch.of_batch(row, what) for row in rows)
    return Finding(LEVEL, NAME, f"{share(total)} of {listed(row.name for row in rows)} stands against {name}, which {what} breaks", Label(main.span, f"{what} that breaks it"),
                   (Label(span, "holds the drops"),), WHY, fix, batch.source(NAME), material=main.name)
