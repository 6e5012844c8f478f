"""Much of a surface-active preservative or diol goes into an emulsion that is weakly held.

Why it matters
    Caprylyl glycol, hexanediol, ethylhexylglycerin and glyceryl caprylate go to the surface of the drops themselves, and push a weak
    emulsifier off it: the cream thins or splits after the last addition.

Wrong
    phase B: oils
        18 %  caprylic/capric triglyceride
        2 %  cetearyl glucoside
    phase C: preservative
        1.5 %  caprylyl glycol
    method
        heat main to 75 °C
        charge B into side
        heat side to 75 °C
        add side to main with homogeniser
        cool main to 40 °C with anchor
        add C to main

Right
    phase B: oils
        18 %  caprylic/capric triglyceride
        5 %  cetearyl glucoside
    phase C: preservative
        0.8 %  caprylyl glycol
    method
        heat main to 75 °C
        charge B into side
        heat side to 75 °C
        add side to main with homogeniser
        cool main to 40 °C with anchor
        add C to main

Limits
    More than 1 % of them together, in an emulsion with less than 15 % of emulsifier to the oil, or that only a polymer or lecithin
    holds. Of a blend whose parts are known only their share counts.

Exceptions
    Emulsions with emulsifier enough; soap, charged surfactants; oil outside.

Source
    public thread on a cream that split after the preservative
"""

from procsheet.findings import Finding, Label
from procsheet.rules.drops import OILS, joining, makes_soap
from procsheet.rules.words import listed, share

NAME = "preservative-splits-emulsion"
LEVEL = "WARN"
GROUP = "surface-active"
POLYMERS = ("polymeric emulsifier", "inverse emulsion polymer", "holds drops", "carbomer")
WHY = "It goes to the surface of the drops and pushes a weak emulsifier off it: the cream thins or splits after the last addition, or at 40 °C in the test."


def check(batch):
    joined = joining(batch)
    if batch.type != "oil-in-water emulsion" or joined is None or makes_soap(batch):
        return
    rows = [row for row in batch.method.rows if row.material.share(GROUP)]
    there = sum(batch.of_batch(row, GROUP) for row in rows)
    weak = _weak(batch, joined)
    if there > batch.limit(NAME, "of the batch") + 1e-9 and weak:
        yield _finding(batch, joined, rows, there, weak)


def _weak(batch, joined) -> str:
    """What holds the emulsion, where that is weak; '' where it is not."""
    emulsifiers = [row for row in batch.trace.holds(joined, "emulsifier") if not row.material.is_a(*POLYMERS)]
    polymers = batch.trace.holds(joined, *POLYMERS)
    if any(row.material.is_a("surfactant", "soap", "cationic surfactant") for row in emulsifiers):
        return ""
    if not emulsifiers:
        return f"only {listed(row.name for row in polymers)} holds the drops" if polymers else ""
    if all(row.material.text("ionic") == "amphoteric" for row in emulsifiers):
        return f"only {listed(row.name for row in emulsifiers)} holds the drops"
    mass = sum(joined.contents[row.code] for row in emulsifiers)
    oil = batch.trace.weight(joined.contents, *OILS) - sum(joined.contents[row.code] for row in emulsifiers if batch.trace.affinities[row.code] in OILS)
    few = oil > 0 and mass < batch.limit(NAME, "it is weak") * oil - 1e-9
    return f"{listed(row.name for row in emulsifiers)} is only {share(mass / oil)} of the oil" if few else ""


def _finding(batch, joined, rows, there, weak) -> Finding:
    main = max(rows, key=lambda row: batch.of_batch(row, GROUP))
    most = batch.limit(NAME, "of the batch")
    return Finding(LEVEL, NAME, f"{share(there)} of {listed(row.name for row in rows)} loosens this emulsion: {weak}", Label(main.span, "goes to the surface of the drops"),
                   (*(Label(row.span) for row in rows if row is not main), Label(joined.span, "made here")), WHY,
                   f"Bring {main.name} down, to {share(most)} together or less, or add emulsifier; test at 40 °C with it in.", batch.source(NAME, "of the batch"),
                   material=main.name)
