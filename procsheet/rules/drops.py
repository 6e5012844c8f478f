"""What makes the drops of an emulsion and what holds them: emulsifiers, soap made on the way, high shear."""

from procsheet.rules.words import listed
from procsheet.trace.trace import HIGH

OILS = ("oil", "silicone")
MOST = 0.5                              # of the oil: less is a premix (common practice, no source)
NEARLY = 1e-9


def emulsifies_itself(batch) -> bool:
    """A ready base, or a soap that is made where the phases meet."""
    return makes_soap(batch) or any(row.material.is_a("self-emulsifying", "soap") for row in batch.method.rows if not row.optional)


def makes_soap(batch) -> bool:
    """A fatty acid, or beeswax, and a base or borax to turn it into soap; a base that is there for a carbomer makes none."""
    rows = [row for row in batch.method.rows if not row.optional]
    swells = any(row.material.is_a("carbomer") for row in rows)
    base = any(row.material.is_a("borate") or row.material.is_a("base") and row.kind == "figure" and not swells for row in rows)
    return base and any(is_fatty_acid(row) for row in rows)


def is_fatty_acid(row) -> bool:
    """What a base turns into soap: a fatty acid, or a wax that holds some."""
    return row.material.kind in ("fatty acid", "liquid fatty acid") or row.material.is_a("saponifiable") and row.material.kind == "wax"


def first_hard(batch, joined):
    """The warmest step under high shear from the joining on; None for none, or where a warmer one may be high shear, too."""
    path = list(batch.trace.path(joined))
    hard = max((moment for moment in path if moment.shear.rank.low >= HIGH), key=lambda moment: (moment.peak.low, -moment.index), default=None)
    unsure = [moment for moment in path if moment.shear.rank.low < HIGH <= moment.shear.rank.high]
    return None if hard is None or any(moment.peak.high > hard.peak.low for moment in unsure) else hard


def joining(batch):
    """Where the phases of an emulsion meet: the first moment that brings together the half of all oil or more, and water; None where they never do."""
    total = sum(batch.of_batch(row) for row in batch.method.rows if batch.trace.affinities[row.code] in OILS) * float(batch.plan.mass)
    met = (moment for moment in batch.trace.moments if moment.facts.emulsified and batch.trace.weight(moment.contents, *OILS) >= MOST * total - NEARLY)
    return next(met, None) if batch.is_emulsion else None


def sheared_first(batch, joined):
    """The first step from the joining on that may be high shear; the joining itself where there is none."""
    return next((moment for moment in batch.trace.path(joined) if moment.shear.rank.high >= HIGH), joined)


def is_conditional(batch, step) -> bool:
    """Whether the crew does a step only where it sees a reason to."""
    return step.has("if", "if needed", "when") or any(step.number == one.number for block in batch.method.items if getattr(block, "kind", "") == "if"
                                                      for _, items in block.branches for one in items if hasattr(one, "number"))


def solid_fats(batch, moment):
    """The fats of a vessel that have set at a moment, for certain: (row, its melting range)."""
    fats = ((row, row.material.figure("melts")) for row in batch.trace.holds(moment, "structures oil") if row.material.text("form") != "paste")
    return [(row, figure) for row, figure in fats if figure is not None and moment.peak.high < figure.value.low]


def part(moment, rows) -> float:
    """The share of these rows in a vessel."""
    return sum(moment.contents.get(row.code, 0.0) for row in rows) / moment.mass if moment.mass else 0.0


def set_now(rows) -> str:
    """`cetyl alcohol has set`, `cetyl alcohol and beeswax have set`."""
    names = [row.name for row in rows]
    return f"{listed(names)} {'has' if len(set(names)) == 1 else 'have'} set"


def second_stage(batch):
    """Where the finished primary emulsion of a multiple one meets its outer water; None where it does not."""
    if batch.type != "multiple emulsion":
        return None
    return next((moment for moment in batch.trace.moments if _meets_outer_water(batch, moment)), None)


def _meets_outer_water(batch, moment) -> bool:
    """The primary is poured into water, or water that brings an emulsifier for water outside is added to the primary."""
    primary = next((batch.trace.moments[one] for one in moment.poured if batch.trace.moments[one].facts.emulsified), None)
    if primary is not None:
        return batch.trace.weight(moment.before, "water") > batch.trace.weight(moment.before, *OILS)
    brings = any(batch.graph.rows[code].material.is_a("o/w emulsifier") for code in moment.added if code in batch.graph.rows)
    return moment.before_facts.emulsified and brings and batch.trace.weight(moment.added, "water") > batch.trace.weight(moment.added, *OILS)
