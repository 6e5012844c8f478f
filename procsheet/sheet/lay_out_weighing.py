"""The weighing list: phase by phase in the order of the formula, a line for each step that a material goes into."""

from procsheet.model.method import Row
from procsheet.plan.plan import Line
from procsheet.sheet.figures import bounded, reading, written
from procsheet.sheet.model import Box, Weighing, WeighingPhase, WeighingRow
from procsheet.sheet.sections import numbered
from procsheet.sheet.step_additions import amount, plural
from procsheet.sheet.things import ALL
from procsheet.sheet.work import Work, capital, sentence

USES = {"hold-back": "held back", "part": "part", "make-up": "make-up", "corrector": "up to"}


def lay_out_weighing(work: Work) -> Weighing:
    lines = work.plan.lines
    units = list(dict.fromkeys(line.unit for line in lines))
    unit = units[0] if len(units) == 1 else ""
    phases = tuple(_phase(phase, work, unit) for phase in work.method.phases if any(line.row.phase == phase.letter for line in lines))
    total = sum(line.containers for line in lines)
    return Weighing(phases, unit, closing=(Box("weighing started, date, time"), Box("weighing ended, date, time"), Box(f"containers, planned {total}, counted"),
                                           Box("all here and labelled, second person", second=True)))


def _phase(phase, work: Work, unit: str) -> WeighingPhase:
    lines = [line for line in work.plan.lines if line.row.phase == phase.letter]
    name = "All materials" if phase.letter == ALL else f"Phase {phase.letter}" + (" in the pack" if phase.in_pack else "")
    return WeighingPhase(name, capital(phase.title), _total(lines, phase, work), tuple(_row(line, work, unit) for line in lines))


def _total(lines: list[Line], phase, work: Work) -> str:
    """`6 containers, 95.2 kg in all`, to the digit of the coarsest balance."""
    containers = sum(line.containers for line in lines)
    told = f"{containers} {plural('container', containers)}"
    weighed = [line for line in lines if line.row.measured == "mass" and line.use not in ("corrector", "make-up") and line.exact]
    if len(weighed) < 2:
        return told
    return f"{told}, {reading(work.plan.weighed(phase.letter), weighed[0].unit, min(line.decimals for line in weighed))} {weighed[0].unit} in all"


def _row(line: Line, work: Work, unit: str) -> WeighingRow:
    ranged = line.low is not None and line.exact and line.use not in ("make-up", "corrector")
    low, high = (reading(end, line.unit, line.decimals) for end in (line.low, line.high)) if ranged else ("", "")
    target = "" if line.use == "corrector" and line.row.cap is None else amount(line)
    container = f"{line.containers} {plural(line.container, line.containers)}" if line.container else ""
    return WeighingRow(str(line.number), ", ".join(filter(None, (capital(line.row.name), USES.get(line.use, "")))), _second_line(line, work), target, low, high,
                       line.balance, container, " ".join(_notes(line)), unit="" if unit else line.unit)


def _second_line(line: Line, work: Work) -> str:
    """Code, grade, step."""
    grade = line.row.material.text("weigh as")
    here = {other.step for other in work.plan.lines}
    elsewhere = {other.step for batch in work.compiled.batches for other in batch.plan.lines
                 if (other.row.code, other.use, other.exact) == (line.row.code, line.use, line.exact) and other.step not in here}
    step = numbered([line.step, *elsewhere]).replace(" and ", " or ") if line.step else "in the pack"
    return " · ".join(filter(None, (line.row.code, grade, step)))


def _notes(line: Line) -> list[str]:
    """What to mind at the balance."""
    row = line.row
    out = [_USE_NOTES[line.use](line)] if line.use in _USE_NOTES else []
    out += [sentence(row.material.text("before weighing"))] if row.material.has("before weighing") and line.use != "make-up" else []
    out += [_assay(row)] if row.written.as_pure else []
    out += [f"Allowed: {bounded(row.written.within)} of the batch."] if row.within else []
    out += ["Optional."] if row.optional else []
    out += [f"In place of {_others(row)}."] if row.written.alternatives else []
    out += ["Open dose."] if row.kind == "open" else []
    return [*out, *([sentence(row.remark)] if row.remark and line.use in ("", "part") else [])]


def _assay(row: Row) -> str:
    assay = row.material.figure("assay")
    pure = written(row.written.amount) if row.written.amount is not None else ""
    return f"{pure} as pure, counted at {assay.written}." if assay is not None else f"{pure} as pure; no assay is known."


def _others(row: Row) -> str:
    return " or ".join(" ".join(filter(None, (written(other.amount) if other.amount else "", other.name))) for other in row.written.alternatives)


def _corrector(line: Line) -> str:
    if line.row.cap is None:
        return "Used as the step tells; nothing says how much at most."
    return f"At most this much; step {line.step} tells how much goes in."


_USE_NOTES = {"make-up": lambda line: "To the mark: this much is expected, and what evaporated comes on top.", "corrector": _corrector,
              "hold-back": lambda line: f"Kept apart for step {line.step}."}
