"""Oil, or a dispersion in oil, goes into a water gel that holds no emulsifier.

Why it matters
    The gel holds the drops where they are for a while, but nothing covers them: they merge as the batch is stirred, curdle like sour
    milk, and oil bleeds out.

Wrong
    type gel
    phase B: gel
        0.5 %  carbomer
        0.5 %  triethanolamine
    phase C: oil
        8 %  caprylic/capric triglyceride
    method
        disperse "carbomer" in main
        add "triethanolamine" to main
        add C to main

Right
    type gel
    phase B: gel
        0.5 %  carbomer
        0.5 %  triethanolamine
    phase C: oil
        8 %  caprylic/capric triglyceride
        2 %  polysorbate 20
    method
        disperse "carbomer" in main
        add "triethanolamine" to main
        add C to main

Limits
    More than 5 % of oil and silicone in a vessel with a water thickener and more water than oil. Perfume and preservative do not count.

Exceptions
    Any emulsifier, solubiliser, surfactant or emulsifying polymer in the vessel; emulsions, where emulsifier-present tells; batches
    without water. A material that nothing is known of may be one.

Source
    public thread on a dispersion of titanium dioxide in a gel
"""

from procsheet.findings import Finding, Label
from procsheet.rules.drops import OILS
from procsheet.rules.words import listed, share

NAME = "oil-dispersion-into-gel"
LEVEL = "WARN"
HOLDS = ("emulsifier", "surfactant", "soap", "holds drops", "clay", "organoclay")
WHY = "The gel holds the drops for a while, but nothing covers them: they merge under the stirrer, it looks like sour milk, and oil bleeds out in the pack."


def check(batch):
    if batch.is_emulsion or batch.type in ("anhydrous", "soap", "powder"):
        return
    wrong = next((moment for moment in batch.trace.moments if _is_bare(batch, moment)), None)
    if wrong is not None:
        yield _finding(batch, wrong)


def _is_bare(batch, moment) -> bool:
    oil, water = _oil(batch, moment), batch.trace.weight(moment.contents, "water")
    gel = batch.trace.holds(moment, "carbomer", "gum", "thickener of water")
    if not gel or water <= oil or oil <= batch.limit(NAME) * moment.mass + 1e-12:
        return False
    rows = [batch.graph.rows[code] for code in moment.contents if code in batch.graph.rows]
    return not any(row.material.share("emulsifier") or row.material.is_a(*HOLDS) or not row.material.known for row in rows)


def _oils(batch, moment):
    rows = [batch.graph.rows[code] for code in moment.contents if code in batch.graph.rows]
    return [row for row in rows if batch.trace.affinities[row.code] in OILS and not row.material.is_a("perfume", "preservative")]


def _oil(batch, moment) -> float:
    return sum(moment.contents[row.code] for row in _oils(batch, moment))


def _finding(batch, moment) -> Finding:
    oils, gel = _oils(batch, moment), batch.trace.holds(moment, "carbomer", "gum", "thickener of water")
    oil = f"{share(_oil(batch, moment) / moment.mass)} of oil, {listed(row.name for row in oils)}"
    return Finding(LEVEL, NAME, f"{oil}, goes into a gel of {listed(row.name for row in gel)} with nothing to emulsify it",
                   Label(moment.span, "oil meets the gel here"), tuple(Label(row.span) for row in (*oils[:2], *gel[:1])), WHY,
                   f"Add an emulsifier to the oil before line {moment.span.line}, or take an emulsifying polymer for the gel; "
                   "or a dispersion in water in place of oil.", batch.source(NAME), step=moment.step.number)
