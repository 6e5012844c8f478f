"""The materials that go in at a step, line by line, and the grid in which a correction is walked."""

from procsheet.model.method import Row
from procsheet.plan.plan import Line
from procsheet.sheet.figures import digits, reading, unit
from procsheet.sheet.model import Addition, PortionRow, Portions
from procsheet.sheet.pieces import capital, line, plural
from procsheet.sheet.things import label
from procsheet.sheet.work import Job
from procsheet.syntax import tree

# kinds that a second person sees go in (common practice, no source)
CHECKED = ("preservative", "active", "uv filter", "retinoid", "ascorbic", "peptide", "enzyme", "encapsulate", "ceramide", "self-tanner",
           "hair dye", "antiperspirant", "hydroxy acid", "oxidiser", "fragrance")
USES = {"hold-back": "held back", "part": "part"}
WALK, PORTIONS = 4, 4       # portions there is room for where the method gives no number


def additions(job: Job) -> tuple[Addition, ...]:
    """Correctors and make-ups have boxes of their own."""
    lines = [each for each in job.lines if each.use not in ("corrector", "make-up")]
    return tuple(addition(each, job.step.has("double-checked") or is_checked(each.row)) for each in lines)


def addition(each: Line, second: bool) -> Addition:
    return Addition(each.row.code, told(each), amount(each), each.unit, second)


def told(each: Line) -> str:
    """`Purified water, held back, 2 drums`."""
    several = f"{each.containers} {plural(each.container, each.containers)}" if each.containers > 1 else ""
    return line(capital(each.row.name), USES.get(each.use, ""), several, by=", ")


def amount(each: Line) -> str:
    """As the balance shows it; '' for an open dose."""
    return reading(each.target, each.unit, each.decimals) if each.exact else ""


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
    return Portions(tuple(f"portion {n}" for n in range(1, count + 1)), tuple(PortionRow(label, ("",) * count) for label in ("time", "by")))


def _walk(job: Job) -> Portions:
    """`before, portion 1, portion 2 ...`: what was added, and what it gave."""
    names = [f"{label(row)} added" for row in job.correctors] or ["added"]
    added = [PortionRow(f"{name}, {_unit(job)}", ("none", *("",) * WALK)) for name in names]
    return Portions(("before", *(f"portion {n}" for n in range(1, WALK + 1))), (*added, PortionRow(_read(job), ("",) * (WALK + 1))))


def _unit(job: Job) -> str:
    codes = {row.code for row in job.correctors}
    return next((each.unit for each in job.plan.lines if each.row.code in codes), "g")


def _read(job: Job) -> str:
    """`viscosity, mPa·s after 10 min`"""
    measure, each = job.step.written.slots["MEASURE"], job.step.value("each for")
    of = unit(measure.target) if isinstance(measure.target, tree.Quantity) else ""
    return line(measure.name, of, by=", ") + (f" after {digits(each)} {unit(each)}" if each is not None and not each.is_open else "")
