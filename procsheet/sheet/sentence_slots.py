"""The slots of a sentence: vessels, figures, properties, what goes in. A slot with nothing to say is an empty list."""

from procsheet.model import quantities
from procsheet.sheet import things
from procsheet.sheet.figures import four, mass_unit, spaced, volume_unit, written
from procsheet.sheet.model import Run
from procsheet.sheet.phrases import device, measured, number, property_name, until
from procsheet.sheet.sections import words_of
from procsheet.sheet.temperatures import aimed
from procsheet.sheet.things import label
from procsheet.sheet.work import Job


def _vessel(job: Job) -> list[Run]:
    return [job.words(job.step.vessel)] if job.step.vessel else []


def _into(job: Job) -> list[Run]:
    into = job.step.into
    return [] if not into else [job.words(into)] if into in job.work.bars else [Run(into)]


def _target(job: Job) -> list[Run]:
    quantity = job.step.written.slots.get("T")
    return [aimed(quantity, job)] if quantity is not None else []


def _pressure(job: Job) -> list[Run]:
    return [number(job.step.written.slots["P"])]


def _device(job: Job) -> list[Run]:
    return device(job.step.written.slots.get("DEVICE"))


def _measure(job: Job) -> list[Run]:
    return measured(job.step.written.slots["MEASURE"])


def _property(job: Job) -> list[Run]:
    return [Run(property_name(job.step.written.slots["MEASURE"]))]


def _whose(job: Job) -> list[Run]:
    return [Run("in" if job.step.written.slots["MEASURE"].of else "of")]


def _mark(job: Job) -> list[Run]:
    """What the scale must show: of a share, that of the vessel's content by then."""
    quantity = job.step.written.slots.get("Q")
    if quantity is None or quantity.is_open:
        return [number(quantity)] if quantity is not None else []
    return [Run(mark(job), "number"), Run(" net" if job.step.verb == "make up" and not job.work.method.by_volume else "")]


def mark(job: Job) -> str:
    """`150.0 kg` for `100 %`; a written weight or volume at the batch's size."""
    quantity, method = job.step.written.slots["Q"], job.work.method
    kind = quantities.dimension(quantity)
    if kind in ("mass", "volume"):
        amount = quantities.middle(quantity) * job.plan.factor
        of = mass_unit(amount) if kind == "mass" else volume_unit(amount)
        return spaced(four(amount, of), of)
    if kind == "volume share" or method.by_volume:
        return written(quantity)
    of = mass_unit(job.plan.mass)
    held = job.moments[-1].mass if job.moments else float(job.plan.mass * quantities.middle(quantity))
    return spaced(four(held, of), of)


def _amount(job: Job) -> list[Run]:
    quantity = job.step.written.slots.get("Q")
    return [number(quantity)] if quantity is not None else []


def _text(job: Job) -> list[Run]:
    text = words_of(job.step)
    return [Run(text.rstrip("."))] if text else []


def _time(job: Job) -> list[Run]:
    quantity = job.step.written.slots.get("t")
    return [number(quantity)] if quantity is not None else []


def _end(job: Job) -> list[Run]:
    value = job.step.written.slots.get("E")
    return until(value) if value is not None else []


def _up(job: Job) -> list[Run]:
    return things.what(job) if job.step.down else []


def _alone(job: Job) -> list[Run]:
    return [] if job.step.down else correctors(job)


def correctors(job: Job) -> list[Run]:
    """`D1, citric acid 20 % solution,`"""
    rows = [row for take in job.step.what for row in take.rows]
    if len(rows) == 1 and label(rows[0]) == rows[0].code and rows[0].kind == "corrector" and not job.narrow:
        return [Run(f"{rows[0].code}, {rows[0].name}")]
    return things.what(job)


SLOTS = {
    "what": things.what, "down": things.down, "up": _up, "alone": _alone, "vessel": _vessel, "into": _into, "target": _target, "pressure": _pressure,
    "device": _device, "measure": _measure, "property": _property, "whose": _whose, "mark": _mark, "amount": _amount, "text": _text, "time": _time,
    "end": _end,
}
