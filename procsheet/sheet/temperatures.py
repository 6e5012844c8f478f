"""Temperatures that a step asks for: as a number in the sentence and as a limit in the box."""

from procsheet.model import quantities
from procsheet.sheet.figures import BLANK, kelvins, limit, plain, unit, written
from procsheet.sheet.model import Run
from procsheet.sheet.work import Job
from procsheet.syntax import tree
from procsheet.trace.heat import asked

ADDING = ("add", "emulsify", "neutralise", "activate", "dissolve", "disperse", "make up", "rinse", "transfer", "replace loss", "react")
MEASURING = ("check", "adjust", "sample", "compare")    # there `at 25 °C` is how warm the sample is
GATES = ("at", "below", "above", "at most", "at least")


def aimed(value, job: Job) -> Run:
    """In a sentence: the figure as written; one that hangs on a property is worked out, or a blank with its sum."""
    if isinstance(value, tree.Quantity) and value.is_open:
        return Run(value.unit or "°C", "blank")
    if isinstance(value, tree.Quantity) and not value.relative:
        return Run(written(value), "number")
    known = asked(value, "at", job.rows, job.plant)
    if known is not None and not known.missing:
        return Run(f"{kelvins(known, job.work.degree)}{BLANK}{job.work.degree}", "number")
    return Run(box_unit(value, job), "blank", _sum(value, job))


def gated(value: tree.Quantity, job: Job) -> Run:
    """Behind a word that says the bound."""
    return aimed(value, job) if value.is_open or value.relative else Run(plain(value), "number")


def _sum(value, job: Job) -> str:
    """`5–10 °C above the set point found in step 11`."""
    if isinstance(value, tree.Point):
        return _point(value.name, value.of, job)
    side, point = value.relative.split(" ", 1)
    return f"{written(value._replace(relative='', bound='', of=''))} {side} {_point(point, value.of, job)}"


def _point(name: str, of: str, job: Job) -> str:
    seen = next((step.number for step in job.work.steps if step.verb == "check" and step.written.slots["MEASURE"].name == name), 0)
    return f"the {name}" + (f" of {of}" if of else "") + (f" found in step {seen}" if seen else "" if of else " found")


def box_limit(value, job: Job) -> str:
    """In a box, in the unit that `box_unit` gives; '' where it is not known."""
    if isinstance(value, tree.Quantity) and not value.relative:
        return limit(value, job.plant, job.work.degree)
    known = asked(value, "at", job.rows, job.plant)
    return kelvins(known, box_unit(value, job)) if known is not None and not known.missing else ""


def box_unit(value, job: Job) -> str:
    """As the figure is written; of a point or the room, as the other temperatures of the method."""
    return unit(value) if isinstance(value, tree.Quantity) and value.unit and value.unit != "room" else job.work.degree


def gate(job: Job) -> tree.Clause | None:
    """The temperature that the vessel must show before the step starts."""
    clause = job.step.clause(*GATES)
    return None if clause is None or job.step.verb in MEASURING or quantities.dimension(clause.value) not in ("temperature", "") else clause


def goes_before(job: Job, clause: tree.Clause) -> bool:
    """Whether the sentence starts with it: `Below 40 °C, add ...`; `Fill MAIN at 20 °C` ends with it."""
    return clause.kind != "at" or job.step.verb in ADDING

