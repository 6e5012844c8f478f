"""A dry polymer is carried in a fat that sets before it has met the water.

Why it matters
    Polymer in oil waits for the water to swell. Where butter or wax sets round the grains first, the water never comes to them: the batch
    stays thin, and grains show when it is spread.

Wrong
    type oil-in-water emulsion
    phase B: fat
        8 %  shea butter
        4 %  caprylic/capric triglyceride
        1 %  sodium polyacrylate
    method
        charge "shea butter", "caprylic/capric triglyceride" into side
        heat side to 60 °C until melted
        cool side to 25 °C
        add "sodium polyacrylate" to side
        add side to main with propeller

Right
    type oil-in-water emulsion
    phase B: fat
        8 %  shea butter
    phase C: polymer
        4 %  caprylic/capric triglyceride
        1 %  sodium polyacrylate
    method
        charge "caprylic/capric triglyceride" into pail
        disperse "sodium polyacrylate" in pail by hand until lump-free
        add pail to main, into the vortex, with propeller

Limits
    Powders that swell in water, in 10 % or more of fat whose melting range lies above the warmest of the step that brings the water, or of
    the step before it. A grain that goes in after the water has come is none of this.

Exceptions
    Fat that has never melted: melt-margin tells. Pastes, and fats whose data have no melting range.

Needs
    melts

Source
    two recipes whose pre-neutralised polymer never gelled; common practice, no source, for 10 %
"""

from procsheet.findings import Finding, Label
from procsheet.model.material import SOLID
from procsheet.rules import drops
from procsheet.rules.words import celsius

NAME = "polymer-in-setting-oil"
LEVEL = "WARN"
NEARLY = 1e-9
WHY = "Fat sets round the grains before the water is there, and it never comes to them: the batch stays thin, and grains show when it is spread."


def check(batch):
    for one in batch.trace.exposures:
        if one.material.is_a("thickener of water") and one.material.text("form") in SOLID and batch.of_batch(one.row) > batch.limit(NAME, "polymer at most"):
            found = _closed_in(batch, one)
            if found is not None:
                yield _finding(batch, one, *found)
                return


def _closed_in(batch, one):
    """The moment whose fat has set round a dry polymer, the fats, and where the water comes."""
    dry, met = [], None
    for moment in batch.trace.path(one.moment):
        if batch.watery(moment.contents) > moment.contents[one.row.code]:
            met = moment
            break
        dry.append(moment)
    if not dry or met is None:
        return None
    for moment in (dry[-1], met):
        fats = [(row, figure) for row, figure in drops.solid_fats(batch, moment) if row.code in dry[-1].contents and _melted(batch, moment, row, figure)]
        if fats and sum(dry[-1].contents[row.code] for row, _ in fats) > batch.limit(NAME, "of fat") * dry[-1].mass - NEARLY:
            return moment, fats, met
    return None


def _melted(batch, end, row, figure) -> bool:
    """Whether a fat has been hot enough before."""
    return any(moment.peak.high >= figure.value.low for moment in batch.trace.history(end) if row.code in moment.contents)


def _finding(batch, one, moment, fats, met) -> Finding:
    row = one.row
    return Finding(LEVEL, NAME, f"{row.name} is still dry when {drops.set_now([fat for fat, _ in fats])} round it: {moment.vessel} is {celsius(moment.peak)}",
                   Label(one.moment.span, "goes dry into the fat"),
                   (*(Label(fat.span, f"sets below {celsius(figure.value.low)}") for fat, figure in fats),
                    *([Label(moment.span, "the fat has set here")] if moment is not met and moment is not one.moment else []), Label(met.span, "the water comes only here")), WHY,
                   f"Disperse {row.name} in oil that stays liquid, or sprinkle it into the water by itself; or keep the fat above {celsius(max(figure.value.high for _, figure in fats))} "
                   f"until line {met.span.line} is done.", batch.source(NAME, "of fat"), material=row.name, step=one.moment.step.number)
