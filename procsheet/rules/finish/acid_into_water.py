"""Strong acid or alkali is not brought into water as it should be.

Why it matters
    Water poured on strong alkali or acid boils where it meets it and spits. Undiluted in a cream it burns a hole before it spreads.

Wrong
    phase B: lye
        6 %  sodium hydroxide
    phase C: water for the lye
        12 %  rose water
    method
        charge B into side
        add C to side
        add side to main

Right
    phase B: lye
        6 %  sodium hydroxide
    phase C: water for the lye
        24 %  rose water
    method
        charge C into side
        dissolve B in side, in portions
        add side to main

Limits
    Water on alkali stronger than 20 %, solid or dissolved, is a stop; on a corrosive acid stronger than 50 % a warning. Alkali that
    makes a lye of 2 % or more goes into water of 25 °C or below; where its own heat would bring it to the boil it is a stop. Alkali of
    that strength, solid or dissolved, put undiluted into an emulsion or into what a gum or polymer thickens is a warning. One step that
    charges both asks for the water first.

Exceptions
    Lye that is bound in soap. Mild acids, ammonia and amines, which fume but do not boil. Lime, which hardly dissolves.

Source
    public threads and teaching pages on soap; common practice, no source, for the strengths
"""

from procsheet.findings import Finding, Label
from procsheet.formulas.solution_rise import solution_rise
from procsheet.model.material import SOLID
from procsheet.rules.batch import gravest, judge
from procsheet.rules.words import celsius, share

NAME = "acid-into-water"
LEVEL = "STOP"
BOILS = 373.15                          # K
ORDERED = ("in order", "one at a time")
WHY = "Water on strong alkali or acid boils where they meet and throws drops; in a thick batch it sits as a hot streak that burns the emulsion or the polymer."


def check(batch):
    found: dict[str, list[Finding]] = {}
    for moment in batch.trace.moments:
        for finding in (*_onto_it(batch, moment), *_together(batch, moment), *_warm(batch, moment), *_undiluted(batch, moment)):
            found.setdefault(finding.material, []).append(finding)
    yield from map(gravest, found.values())


def _limit(batch, row) -> float:
    return batch.limit(NAME, "alkali is thinned" if row.material.is_a("base") else "acid is thinned")


def _strong(batch, rows):
    """Corrosive acids and alkalis that are solid, or stronger than they should be put to anything but water."""
    return [row for row in rows if row.material.is_a("acid", "base") and row.material.has("corrosive") and not row.material.is_a("divalent salt", "amine")
            and (row.material.text("form") in SOLID or float(row.material.assay or 1) > _limit(batch, row))]


def _pure(row, mass) -> float:
    return mass * float(row.material.assay or 1)


def _onto_it(batch, moment):
    """Water goes onto what is strong."""
    strong = _strong(batch, batch.trace.holds(moment, "acid", "base", before=True))
    held, total = sum(_pure(row, moment.before[row.code]) for row in strong), sum(moment.before.values())
    water = sum(mass for code, mass in moment.added.items() if code in batch.graph.rows and batch.graph.rows[code].material.is_a("water"))
    if not strong or not water or held <= max(_limit(batch, row) for row in strong) * total or batch.trace.weight(moment.before, "oil") > held:
        return
    alkali = any(row.material.is_a("base") for row in strong)
    came = next((one for one in batch.trace.history(moment) if strong[0].code in one.added), moment)
    yield _finding(batch, moment, LEVEL if alkali else "WARN", f"water goes onto {strong[0].name}, {share(held / total)} in {moment.vessel}", strong[0],
                   (Label(came.span, f"{strong[0].name} is in {moment.vessel} first"),),
                   f"Turn it round: charge the water into {moment.vessel} in line {came.span.line}, "
                   f"and add {strong[0].name} to it in line {moment.span.line}, in portions.")


def _together(batch, moment):
    """One step charges both, and lists the strong one first."""
    rows = [portion.row for portion in moment.entering]
    strong = _strong(batch, rows)
    waters = [index for index, row in enumerate(rows) if row.material.is_a("water")]
    if moment.before or not strong or not waters or rows.index(strong[0]) > waters[0]:
        return
    if not strong[0].material.is_a("base") or not moment.contents.get(strong[0].code):
        return
    level = LEVEL if moment.step.has(*ORDERED) else "WARN"
    yield _finding(batch, moment, level, f"{strong[0].name} is listed before the water it goes into", strong[0], (Label(rows[waters[0]].span, "the water"),),
                   f'Charge "{rows[waters[0]].name}" first, then: add "{strong[0].name}" to {moment.vessel}, in portions.')


def _warm(batch, moment):
    """Strong alkali goes into warm water."""
    strong = [row for row in _strong(batch, [portion.row for portion in moment.entering]) if row.material.is_a("base")]
    pure = sum(_pure(row, moment.added.get(row.code, 0.0)) for row in strong)
    if not strong or not batch.trace.holds(moment, "water") or not pure or pure < batch.limit(NAME, "heat counts") * moment.mass:
        return
    comes_to = moment.start.high + solution_rise(mass_fraction=pure / moment.mass)
    level = judge(LEVEL if comes_to >= BOILS else "WARN", batch.hotter(moment.start, max(batch.limit(NAME, "water that"), batch.plan.plant.room.high)))
    if level is not None:
        title = f"{strong[0].name} goes into water of {celsius(moment.start)}; it makes a lye of {share(pure / moment.mass)} that heats itself"
        title += " to boiling" if comes_to >= BOILS else ""
        yield _finding(batch, moment, level, title, strong[0], (),
                       f"Put it into cold water, of {celsius(batch.limit(NAME, 'water that'))} or below, in portions.")


def _undiluted(batch, moment):
    """Strong alkali goes into an emulsion or a gel as it is, weighed or as needed."""
    entering = [portion.row for portion in moment.entering if portion.use == "corrector" or moment.added.get(portion.row.code)]
    strong = [row for row in _strong(batch, entering) if row.material.is_a("base")]
    thick = moment.before_facts.emulsified or batch.trace.holds(moment, "thickener of water", before=True)
    if not strong or not thick or batch.type == "soap":
        return
    row = strong[0]
    yield _finding(batch, moment, "WARN", f"{row.name} goes undiluted into {moment.vessel}", row, (),
                   f"Dissolve it first, to {share(_limit(batch, row))} at most, in a little of the water, and write the row as that solution.")


def _finding(batch, moment, level, title, row, also, fix) -> Finding:
    return Finding(level, NAME, title, Label(moment.span, "they meet here"), also, WHY, fix, batch.source(NAME), material=row.name, step=moment.step.number)
