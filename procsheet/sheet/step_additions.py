"""The materials that go in at a step, line by line, and the grid in which a correction is walked."""

from procsheet.model.method import Row
from procsheet.plan.plan import Line
from procsheet.sheet.figures import digits, reading, unit
from procsheet.sheet.model import Addition, PortionRow, Portions
from procsheet.sheet.things import label
from procsheet.sheet.work import Job, capital
from procsheet.syntax import tree

CHECKED = ("preservative", "active", "uv filter", "retinoid", "ascorbic", "peptide", "enzyme", "encapsulate", "ceramide", "self-tanner", "hair dye",
           "antiperspirant", "hydroxy acid", "oxidiser", "fragrance")    # kinds that a second person sees go in
USES = {"hold-back": "held back", "part": "part"}
WALK, PORTIONS = 4, 4       # portions there is room for where the method gives no number


def additions(job: Job) -> tuple[Addition, ...]:
    """Correctors and make-ups have boxes of their own."""
    lines = [line for line in job.lines if line.use not in ("corrector", "make-up")]
    return tuple(addition(line, job.step.has("double-checked") or is_checked(line.row)) for line in lines)


def addition(line: Line, second: bool) -> Addition:
    return Addition(line.row.code, told(line), amount(line), line.unit, second)


def told(line: Line) -> str:
    """`Purified water, held back, 2 drums`."""
    several = f"{line.containers} {plural(line.container, line.containers)}" if line.containers > 1 else ""
    return ", ".join(filter(None, (capital(line.row.name), USES.get(line.use, ""), several)))


def plural(word: str, count: int) -> str:
    return word if count == 1 else f"{word}es" if word.endswith(("s", "x", "ch")) else f"{word}s"


def amount(line: Line) -> str:
    """As the balance shows it; '' for an open dose."""
    return reading(line.target, line.unit, line.decimals) if line.exact else ""


def is_checked(row: Row) -> bool:
    return row.material.kind.startswith(CHECKED)


# ---- grids

def portions(job: Job) -> Portions | None:
    """The walk to a target, or one column a portion."""
    if job.step.verb == "adjust":
        return _walk(job)
    clause = job.step.clause("in portions")
    if clause is None:
        return None
    count = int(clause.value.high) if isinstance(clause.value, tree.Quantity) and not clause.value.is_open else PORTIONS
    return Portions(tuple(f"portion {n}" for n in range(1, count + 1)), (PortionRow("time", ("",) * count), PortionRow("by", ("",) * count)))


def _walk(job: Job) -> Portions:
    """`before, portion 1, portion 2 ...`: what was added, and what it gave."""
    measure = job.step.written.slots["MEASURE"]
    rows = [row for take in (*job.step.what, *job.step.down) for row in take.rows if row.kind == "corrector"]
    of = next((line.unit for line in job.plan.lines if rows and line.row.code == rows[0].code), "g")
    each = job.step.value("each for")
    after = f" after {digits(each)} {unit(each)}" if each is not None and not each.is_open else ""
    read = unit(measure.target) if isinstance(measure.target, tree.Quantity) else ""
    added = [PortionRow(f"{label(row)} added, {of}", ("none", *("",) * WALK)) for row in rows] or [PortionRow(f"added, {of}", ("none", *("",) * WALK))]
    return Portions(("before", *(f"portion {n}" for n in range(1, WALK + 1))),
                    (*added, PortionRow(f"{measure.name}{f', {read}' if read else ''}{after}", ("",) * (WALK + 1))))
