"""A preservative beside so much of an ethoxylate that it is taken up.

Why it matters
    Micelles of polysorbates and other ethoxylates take parabens, phenoxyethanol and the like out of the water. On paper the dose is full; germs
    meet a fraction of it.

Wrong
    type solution
    phase B: solubiliser
        8 %  polysorbate 20
    phase C: keeping
        0.9 %  phenoxyethanol

Right
    type solution
    phase B: solubiliser
        2 %  polysorbate 20
    phase C: keeping
        0.9 %  phenoxyethanol

Limits
    Ethoxylated solubilisers of 5 % and more of the batch together, beside a preservative whose data say `never with` them. Its own figure
    there goes first.

Exceptions
    A second preservative of another kind that no ethoxylate takes up.

Needs
    never with high-HLB solubiliser

Source
    supplier table of preservatives; formulators' forum on preservatives
"""

from procsheet.findings import Finding, Label
from procsheet.rules.words import listed, share

NAME = "preservative-inactivators"
LEVEL = "NOTE"
GROUP = "high-hlb solubiliser"
ETHOXYLATED = ("polysorbate", "peg-", "laureth-", "steareth-", "ceteareth-", "oleth-", "poloxamer", "ppg-", "ceteth-", "trideceth-")
NEARLY = 1e-9
WHY = "Micelles of ethoxylate take it out of the water: on paper the dose is full, and germs meet a fraction of it. The challenge test decides."


def check(batch):
    keeping = [row for row in batch.method.rows if row.material.is_a("preservative") and not row.optional]
    bound = [row for row in keeping if GROUP in _words(row)]
    rows = [row for row in batch.method.rows if row.material.is_a("solubiliser") and row.material.name.lower().startswith(ETHOXYLATED)]
    total = sum(batch.of_batch(row) for row in rows)
    if bound and len(bound) == len(keeping) and total > _most(batch, bound[0]) + NEARLY:
        yield Finding(LEVEL, NAME, f"{share(total)} of {listed(row.name for row in rows)} takes up {bound[0].name}, the only kind of preservative", Label(bound[0].span, "taken up"),
                      tuple(Label(row.span, "takes it up") for row in rows), WHY,
                      f"Bring the ethoxylate to {share(_most(batch, bound[0]))} or below, or add a preservative that stays in the water; and have it challenge-tested.",
                      batch.source(NAME), material=bound[0].name)


def _words(row) -> str:
    return " ".join(row.material.words("never with"))


def _most(batch, row) -> float:
    own = [figure.value.low for figure in row.material.figures("never with") if GROUP in " ".join(figure.words).lower()]
    return min(own, default=batch.limit(NAME))
