"""Waits that the method does not allow: something asked at once, and bulk that stands longer than it keeps."""

from procsheet.findings import Finding, Label
from procsheet.intervals import INFINITY
from procsheet.rules.batch import Batch
from procsheet.rules.words import minutes
from procsheet.timeplan.schedule import Schedule

NAME = "waits-too-long"
AT_ONCE = 300.0                         # s that may pass where `at once` is written (common practice, no source)


def waits(batch: Batch, plan: Schedule) -> list[Finding]:
    """Every wait of the time plan that a step or the header rules out."""
    steps = {step.number: step for step in batch.graph.course.steps}
    return [finding for slot in plan.slots if not slot.task.weighing for finding in _wait(steps[slot.task.step], slot, plan)] + _kept(batch, plan)


def _wait(step, slot, plan: Schedule):
    before = [plan.slots[need] for need in slot.task.needs if not plan.slots[need].task.weighing]
    ready = max((one.end for one in before), default=slot.start)
    if step.has("at once") and slot.start - ready > AT_ONCE:
        yield Finding("WARN", NAME, f"step {step.number} is to be done at once, and begins {minutes(slot.start - ready)} after what it waits for", Label(step.span),
                      why="People, a balance or the end of the shift hold it up.", fix="Plan more people, begin earlier, or put it where it does not hurry.", step=step.number)


def _kept(batch: Batch, plan: Schedule) -> list[Finding]:
    """Bulk that stands longer than `bulk keeps` says before it is filled."""
    keeps = _keeps(batch.method.header.keeps)
    fill = next((slot for slot in plan.slots if slot.task.name.split(" ")[1] in ("fill", "pour") and not slot.task.weighing), None)
    made = max((slot.end for slot in plan.slots if fill is not None and slot.task.index in fill.task.needs and not slot.task.weighing), default=None)
    if keeps is None or fill is None or made is None or fill.start - made <= keeps:
        return []
    step = next(step for step in batch.graph.course.steps if step.number == fill.task.step)
    return [Finding("WARN", NAME, f"the bulk stands {minutes(fill.start - made)} before it is filled; it keeps {minutes(keeps)}", Label(step.span),
                    why="What stands too long may spoil, set or separate.", fix="Begin earlier in the shift, or fill in the same one.", step=step.number)]


def _keeps(text: str) -> float | None:
    """s from `7 days at 15-25 °C in drum`."""
    from procsheet import units
    words = text.replace("\u00a0", " ").split()
    for number, unit in zip(words, words[1:]):
        if units.dimension(unit) == "time" and number.replace(".", "", 1).isdigit():
            value = float(units.to_si(number, unit))
            return value if value < INFINITY else None
    return None
