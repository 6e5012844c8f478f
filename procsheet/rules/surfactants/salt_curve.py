"""Salt that thickens a cleanser goes in at one dose, or past the peak.

Why it matters
    Salt thickens anionic surfactant up to a peak and thins it past that, for good: more surfactant is the only way back. How much it
    takes differs from lot to lot, so the dose is found in the kettle.

Wrong
    type surfactant solution
    phase B: surfactant
        35 %  sodium laureth sulfate 27 % solution
    phase C: salt
        as needed, about 3 %, at most 6 %  sodium chloride 25 % solution
    method
        add B to main slowly with paddle
        adjust main to viscosity 4000-7000 mPa.s with C

Wrong
    type surfactant solution
    phase B: surfactant
        35 %  sodium laureth sulfate 27 % solution
    phase C: salt
        4 %  sodium chloride
    method
        add B to main slowly with paddle
        add C to main, in portions

Right
    type surfactant solution
    phase B: surfactant
        35 %  sodium laureth sulfate 27 % solution
    phase C: salt
        as needed, about 3 %, at most 6 %  sodium chloride 25 % solution
    method
        add B to main slowly with paddle
        adjust main to viscosity 4000-7000 mPa.s with C, in portions, each for 10 min

Limits
    3 % of salt in all, of a corrector up to its cap, and what the betaine brings with it. A viscosity adjusted with salt and not in
    portions is a warning; while the viscosity is still open, a hint. A fixed dose of 0.3 % or more is a hint.

Exceptions
    Cleansers with less than 3 % of anionic surfactant. A fixed dose in one that a polymer or gum thickens. Salt that goes in before the
    surfactant, which surfactant-order tells of.

Source
    four public threads on thin shampoo; common practice, no source, for the doses
"""

from procsheet.findings import Finding, Label
from procsheet.rules.batch import gravest
from procsheet.rules.salts import at_most, is_salt, salts
from procsheet.rules.words import listed, share
from procsheet.syntax import tree

NAME = "salt-curve"
LEVEL = "WARN"
STEPWISE = ("in portions", "portions", "drop by drop", "slowly", "very slowly", "over")
BETAINE = "surfactant amphoteric"
NEARLY = 1e-9
WHY = "Past the peak every more salt thins the batch, and neither water nor time brings it back. The lots differ, so the dose is found in the kettle."


def check(batch):
    anionic = sum(batch.of_batch(row, "anionic surfactant") for row in batch.method.rows)
    if batch.type != "surfactant solution" or anionic < batch.limit(NAME, "salt thickens") - NEARLY:
        return
    found = gravest((*_past(batch), *_at_once(batch), *_fixed(batch)))
    if found is not None:
        yield found


def _chlorides(batch):
    return [row for row in salts(batch) if not row.material.is_a("buffer salt", "acid", "base", "carbonate", "phosphate buffer")]


def _past(batch):
    """More salt in all than a peak lies at."""
    rows = [row for row in _chlorides(batch) if at_most(batch, row)]
    carried = batch.limit(NAME, "betaine") * sum(batch.of_batch(row, BETAINE) for row in batch.method.rows)
    total, most = sum(at_most(batch, row) for row in rows) + carried, batch.limit(NAME, "past the peak")
    if rows and total > most + NEARLY:
        names = listed([*(row.name for row in rows), *(["the betaine"] if carried else [])])
        yield Finding(LEVEL, NAME, f"{share(total)} of salt in all ({names}) is past the usual peak at {share(most)}", Label(rows[0].span, "salt"), (), WHY,
                      f"Bring {rows[0].name} down, so that all salt is {share(most)} at most, as a solution, in portions; or thicken with a polymer.",
                      batch.source(NAME, "past the peak"), material=rows[0].name)


def _at_once(batch):
    """A viscosity is adjusted with salt, and not in steps."""
    for moment in batch.trace.moments:
        measure = moment.step.written.slots.get("MEASURE")
        rows = [portion.row for portion in moment.entering if is_salt(portion.row)]
        if isinstance(measure, tree.Measure) and measure.name == "viscosity" and rows and not moment.step.has(*STEPWISE) and not _repeated(moment):
            level = LEVEL if isinstance(measure.target, tree.Quantity) and not measure.target.is_open else "NOTE"
            yield Finding(level, NAME, f"{rows[0].name} sets the viscosity of {moment.vessel}, and not in portions", Label(moment.span, "one dose"),
                          (Label(rows[0].span, "thickens up to a peak, then thins"),), WHY,
                          "Write the step `in portions, each for 10 min`, and measure between them.", batch.source(NAME, "in one dose"),
                          material=rows[0].name, step=moment.step.number)


def _repeated(moment) -> bool:
    return any(clause.kind.startswith("each") for clause in moment.step.written.clauses)


def _fixed(batch):
    """A dose that is not found in the kettle."""
    thick = any(row.material.is_a("thickener of water", "carbomer") for row in batch.method.rows)
    for one in batch.trace.exposures:
        row = one.row
        if thick or row.kind != "figure" or row not in _chlorides(batch) or at_most(batch, row) < batch.limit(NAME, "in one dose") - NEARLY:
            continue
        if batch.trace.holds(one.moment, "anionic surfactant", before=True) and not one.moment.step.has(*STEPWISE):
            yield Finding("NOTE", NAME, f"{share(at_most(batch, row))} of {row.name} goes in at one dose", Label(one.moment.span, "one dose"),
                          (Label(row.span, "thickens up to a peak, then thins"),), WHY,
                          f"Write the row `as needed, about {share(at_most(batch, row))}, at most ...` and adjust the viscosity with it, in portions, each for 10 min.",
                          batch.source(NAME, "in one dose"), material=row.name, step=one.moment.step.number)
