"""There is too little emulsifier for the oil.

Why it matters
    Each drop wants its skin. Too little emulsifier cannot cover the drops that the homogeniser makes: they merge until their surface
    fits, and the cream parts after cooling, or in weeks.

Wrong
    phase B: oils
        20 %  caprylic/capric triglyceride
        4 %  cetearyl alcohol
        1 %  cetearyl glucoside
    method
        heat main to 75 °C
        charge B into side
        heat side to 75 °C
        add side to main with homogeniser

Right
    phase B: oils
        20 %  caprylic/capric triglyceride
        4 %  cetearyl alcohol
        4 %  cetearyl glucoside
    method
        heat main to 75 °C
        charge B into side
        heat side to 75 °C
        add side to main with homogeniser

Limits
    All emulsifiers in the vessel when the phases meet, to the oils and fats there. Nonionic emulsifiers: under 8 % a warning, under 15
    % a hint; a quarter is the rule of thumb. Charged ones and those for oil outside need less: under 3 % a warning; a surfactant such
    as sodium lauryl sulfate under 1.5 %.

Exceptions
    Polymers that emulsify, soap that is made in the batch, cationic bases. No emulsifier at all is emulsifier-present's. A material
    that nothing is known of may be one; beside a carbomer or a clay there is no hint.

Source
    emulsifier maker's page, for a quarter; an official cream of two parts of wax to 25 of oil, for the least; common practice, no
    source
"""

from procsheet.findings import Finding, Label
from procsheet.rules.drops import OILS, joining, makes_soap
from procsheet.rules.words import share

NAME = "emulsifier-ratio"
LEVEL = "WARN"
NEARLY = 1e-6
NONIONIC = "a warning"
ENOUGH = ("polymeric emulsifier", "inverse emulsion polymer", "holds drops", "cationic surfactant")      # they need no skin of emulsifier
WHY = "Too little emulsifier cannot cover the drops that the homogeniser makes: they merge, and the cream parts after cooling, or weeks later in the pack."


def check(batch):
    joined = joining(batch)
    if joined is None or makes_soap(batch) or _unknown(batch, joined) or batch.trace.holds(joined, *ENOUGH):
        return
    emulsifiers = [row for row in batch.trace.holds(joined, "emulsifier") if not row.material.is_a("carbomer", "soap")]
    there = sum(joined.contents[row.code] for row in emulsifiers)
    oil = batch.trace.weight(joined.contents, *OILS) - sum(joined.contents[row.code] for row in emulsifiers if batch.trace.affinities[row.code] in OILS)
    if not emulsifiers or oil <= 0:
        return
    words = _which(batch, emulsifiers)
    if there < batch.limit(NAME, words) * oil - NEARLY:
        yield _finding(batch, joined, emulsifiers, there / oil, LEVEL, words)
    elif words == NONIONIC and there < batch.limit(NAME, "a hint") * oil - NEARLY and not batch.trace.holds(joined, "carbomer", "clay"):
        yield _finding(batch, joined, emulsifiers, there / oil, "NOTE", "a hint")


def _unknown(batch, joined) -> bool:
    """Whether an oil that nothing is known of, or an emulsifier without an amount, may be what is missing."""
    oils = (row for row in batch.method.rows if batch.trace.affinities[row.code] in OILS)
    return any(row.kind == "open" and not row.material.is_a("perfume", "preservative") or not row.material.known and row.code in joined.contents for row in oils)


def _which(batch, emulsifiers) -> str:
    """The limit that holds for them."""
    if batch.makes_water_in_oil:
        return "oil is outside"
    if any(row.material.is_a("surfactant") for row in emulsifiers):
        return "a surfactant"
    charged = any(row.material.text("ionic") in ("anionic", "amphoteric") and not row.material.is_a("self-emulsifying") for row in emulsifiers)
    return "is charged" if charged else NONIONIC


def _finding(batch, joined, emulsifiers, ratio, level, words) -> Finding:
    least = batch.limit(NAME, words)
    main = max(emulsifiers, key=lambda row: joined.contents[row.code])
    names = main.name if len(emulsifiers) == 1 else f"{main.name} and {len(emulsifiers) - 1} more"
    wanted = batch.of_batch(main) * least / ratio
    return Finding(level, NAME, f"{names}: {share(ratio)} of the oil that they are to hold; {share(least)} is the least" if len(emulsifiers) > 1 else
                   f"{names} is {share(ratio)} of the oil that it is to hold; {share(least)} is the least",
                   Label(main.span, "too little for the oil" if level == LEVEL else "little for the oil"),
                   (*(Label(row.span) for row in emulsifiers if row is not main), Label(joined.span, "the phases meet here")), WHY,
                   f"Bring {main.name} to {share(wanted)} or more, at the cost of oil or water; or take an emulsifying polymer beside it.",
                   batch.source(NAME, words), material=main.name)
