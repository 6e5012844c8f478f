"""A carbomer is neutralised before the oil is in.

Why it matters
    The gel is thick from the base on: oil that comes afterwards is not drawn in, drops stay coarse, and the high shear that would make them
    small cuts the polymer instead.

Wrong
    phase B: polymer
        0.3 %  carbomer
    phase C: base
        0.3 %  triethanolamine
    phase D: oils
        15 %  caprylic/capric triglyceride
        3 %  polysorbate 60
    method
        disperse B in main
        neutralise main with C
        add D to main with propeller

Right
    phase B: polymer
        0.3 %  carbomer
    phase C: base
        0.3 %  triethanolamine
    phase D: oils
        15 %  caprylic/capric triglyceride
        3 %  polysorbate 60
    method
        disperse B in main
        add D to main with homogeniser for 5 min
        neutralise main with C with anchor

Limits
    Over 0.1 % of carbomer. Where the oil goes in under high shear for longer than carbomer-shear allows, that rule tells of it.

Exceptions
    A gel that is made in a vessel of its own and stirred into the finished emulsion; pre-neutralised and emulsifying polymers; soap that
    the same base makes of fatty acid.

Source
    supplier's page on carbomers, for the viscosity at pH 6.5 to 7.5; common practice, no source, for the order
"""

from procsheet.findings import Finding, Label
from procsheet.rules import drops, polymers
from procsheet.trace.trace import HIGH

NAME = "neutralise-after"
LEVEL = "WARN"
WHY = "Oil is not drawn into a gel that is thick already: the drops stay coarse, and high shear to make them small cuts the polymer."


def check(batch):
    if any(drops.is_fatty_acid(row) for row in batch.method.rows):
        return
    for one in batch.trace.exposures:
        if polymers.wants_base(one.material) and one.material.kind != "polymeric emulsifier" and batch.of_batch(one.row, "carbomer") > batch.limit(NAME):
            swollen, met = polymers.swells(batch, one), _meeting(batch, one)
            if met is not None and swollen is not None and not _is_sheared(batch, one, met):
                yield _finding(batch, one.row, swollen, met)
                return


def _meeting(batch, one):
    """Where oil meets water that holds the swollen polymer, before anything is emulsified."""
    return next((moment for moment in batch.trace.path(one.moment) if moment.facts.met == moment.index and _is_swollen(batch, moment)), None)


def _is_swollen(batch, moment) -> bool:
    return moment.before_facts.neutralised or any(batch.trace.moments[index].facts.neutralised for index in moment.poured)


def _is_sheared(batch, one, met) -> bool:
    """Whether carbomer-shear speaks of it."""
    minds = "after neutralising" in one.material.text("shear")
    hard = [moment for moment in batch.trace.path(met) if moment.shear.rank.low >= HIGH and not moment.step.has("briefly")]
    return minds and any(moment.duration is None or moment.duration.low > batch.limit("carbomer-shear", "a warning") for moment in hard)


def _finding(batch, row, swollen, met) -> Finding:
    return Finding(LEVEL, NAME, f"{row.name} is neutralised in line {swollen.span.line}, before the oil meets the water in line {met.span.line}",
                   Label(swollen.span, "thick from here on"), (Label(met.span, "the oil comes only here"),), WHY,
                   f"Emulsify first, in the thin dispersion, and neutralise after line {met.span.line}, with a slow stirrer.", batch.source(NAME),
                   material=row.name, step=swollen.step.number)
