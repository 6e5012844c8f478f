"""The weighing list: phase by phase in the order of the formula, a line for each step that a material goes into."""

from procsheet import units

from procsheet.model.method import Row
from procsheet.plan.plan import Line
from procsheet.plan.weighing import decimals
from procsheet.sheet.figures import bounded, reading, rough, spaced, written
from procsheet.sheet.model import Box, Weighing, WeighingPhase, WeighingRow
from procsheet.sheet.pieces import capital, line, listed, numbered, plural, sentence
from procsheet.sheet.step_additions import amount
from procsheet.sheet.things import ALL
from procsheet.sheet.work import Work

USES = {"hold-back": "held back", "part": "part", "make-up": "make-up"}
BEFORE = {"make-up": "about", "corrector": "up to"}
MEASURED = ("Weigh or measure in this order. Tare the empty container, weigh net, write every figure that the balance or measure shows. "
            "Label each container at once: material or code, lot, net weight or volume, product, batch, step.")
NOT_BEFOREHAND = ("make-up", "corrector")       # weighed as the step goes: no range holds


def lay_out_weighing(work: Work) -> Weighing:
    lines = work.plan.lines
    units = {each.unit for each in lines}
    phases = tuple(_phase(phase, work, len(units) > 1) for phase in work.method.phases if any(each.row.phase == phase.letter for each in lines))
    planned = sum(each.containers for each in lines)
    closing = (Box("weighing started, date, time"), Box("weighing ended, date, time"), Box(f"containers, planned {planned}, counted"),
               Box("all here and labelled, second person", second=True))
    made = Weighing(phases, units.pop() if len(units) == 1 else "", closing=closing)
    return made._replace(intro=MEASURED) if any(each.row.measured == "volume" for each in lines) else made


def _phase(phase, work: Work, mixed: bool) -> WeighingPhase:
    lines = [each for each in work.plan.lines if each.row.phase == phase.letter]
    name = "All materials" if phase.letter == ALL else f"Phase {phase.letter}{' in the pack' if phase.in_pack else ''}"
    return WeighingPhase(name, capital(phase.title), _total(lines), tuple(_row(each, work, mixed) for each in lines))


def _total(lines: list[Line]) -> str:
    """`6 containers, 95.2 kg in all`; weights and volumes each for themselves."""
    containers = sum(each.containers for each in lines)
    told = f"{containers} {plural('container', containers)}"
    ready = [each for each in lines if each.use not in NOT_BEFOREHAND and each.exact]
    sums = [_sum(some) for kind in ("mass", "volume") if (some := [each for each in ready if each.row.measured == kind])]
    return f"{told}, {' and '.join(sums)} in all" if len(ready) > 1 else told


def _sum(lines: list[Line]) -> str:
    """In the unit of the largest, to the digit of the coarsest balance."""
    unit = max(lines, key=lambda each: each.target).unit
    shown = max(units.lookup(each.unit).factor / 10 ** each.decimals for each in lines)
    return f"{reading(sum(each.target for each in lines), unit, decimals(shown / units.lookup(unit).factor))} {unit}"


def _row(each: Line, work: Work, mixed: bool) -> WeighingRow:
    low, high = _range(each)
    target = "" if each.use == "corrector" and each.row.cap is None else rough(each.exact, each.unit) if each.use == "make-up" else amount(each)
    container = f"{each.containers} {plural(each.container, each.containers)}" if each.container else ""
    return WeighingRow(str(each.number), line(capital(each.row.name), USES.get(each.use, ""), by=", "), _second_line(each, work), target, low, high,
                       each.balance, container, " ".join(_notes(each, work)), unit=each.unit if mixed else "",
                       before=BEFORE.get(each.use, "") if target else "")


def _range(each: Line) -> tuple[str, str]:
    if each.low is None or each.high is None or not each.exact or each.use in NOT_BEFOREHAND:
        return "", ""
    return reading(each.low, each.unit, each.decimals), reading(each.high, each.unit, each.decimals)


def _second_line(each: Line, work: Work) -> str:
    """Code, grade, step."""
    return line(each.row.code, each.row.material.text("weigh as"), _steps(each, work), by=" · ")


def _steps(each: Line, work: Work) -> str:
    """The step it goes into; where a fork is not decided, the steps of either branch."""
    here = {other.step for other in work.plan.lines}
    elsewhere = [other.step for batch in work.compiled.batches for other in batch.plan.lines
                 if (other.row.code, other.use, other.exact) == (each.row.code, each.use, each.exact) and other.step not in here]
    return numbered([each.step, *elsewhere]).replace(" and ", " or ") if each.step else "in the pack"


# ---- what to mind at the balance

def _notes(each: Line, work: Work) -> list[str]:
    row, plain = each.row, each.use in ("", "part")
    found = (_use(each, work), "" if each.use == "make-up" else sentence(row.material.text("before weighing")), _assay(row) if row.written.as_pure else "",
             f"Allowed: {bounded(row.written.within)} of the batch." if row.within else "", "Optional." if row.optional else "",
             f"In place of {_others(row)}." if row.written.alternatives else "", "Open dose." if row.kind == "open" else "",
             sentence(row.remark) if plain else "")
    return [note for note in found if note]


def _use(each: Line, work: Work) -> str:
    if each.use == "make-up":
        return f"To the mark in step {each.step}; {'what evaporated comes on top' if each.exact else 'as much as it takes'}."
    if each.use == "hold-back":
        return f"Kept apart for step {each.step}."
    if each.use != "corrector":
        return ""
    guide = f"{spaced(rough(each.row.guide * work.plan.factor, each.unit), each.unit)} expected" if each.row.guide else ""
    return sentence(line(guide, f"step {each.step} tells how much goes in", "" if each.row.cap else "nothing says how much at most", by="; "))


def _assay(row: Row) -> str:
    assay = row.material.figure("assay")
    pure = written(row.written.amount) if row.written.amount is not None else ""
    return f"{pure} as pure, counted at {assay.written}." if assay is not None else f"{pure} as pure; no assay is known."


def _others(row: Row) -> str:
    return listed([line(written(other.amount) if other.amount else "", other.name) for other in row.written.alternatives])
