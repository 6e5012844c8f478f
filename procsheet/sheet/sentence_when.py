"""What comes before the verb: `Below 40 °C, ...`, `If grains are seen, ...`, `After step 5, ...`."""

from procsheet.sheet.model import Run
from procsheet.sheet.phrases import number, until
from procsheet.sheet.temperatures import gate, gated, goes_before
from procsheet.sheet.work import Job
from procsheet.syntax import tree

GATE_WORDS = {"at": ("at ", ""), "below": ("below ", ""), "above": ("above ", ""), "at most": ("at ", " or below"),
              "at least": ("at ", " or above")}


def condition(job: Job) -> list[Run]:
    """All that must be so before the step, joined by commas; [] for nothing."""
    parts = [part for part in (_chosen(job), _seen(job), _when(job), _order(job), _warm(job)) if part]
    return [run for place, part in enumerate(parts) for run in ([Run(", ")] if place else []) + part]


def _chosen(job: Job) -> list[Run]:
    return [Run("if wanted")] if job.step.has("optional") else [Run("if needed")] if job.step.has("if needed") else []


def _seen(job: Job) -> list[Run]:
    return [Run(f"if {job.step.value('if')}")] if job.step.has("if") else []


def _when(job: Job) -> list[Run]:
    value = job.step.value("when")
    if value is None:
        return []
    if isinstance(value, str):
        return [Run(f"when {value}")]
    return [Run("when it is "), *until(value)] if isinstance(value, tree.States) else [Run("when "), *until(value)]


def _order(job: Job) -> list[Run]:
    step = job.step
    for kind, word in (("after", "after"), ("just before", "just before"), ("before step", "before")):
        if step.has(kind):
            return [Run(f"{word} step {job.work.numbers.get(step.value(kind), '')}")]
    if step.has("after time"):
        return [Run("after "), number(step.value("after time"), "min")]
    if step.has("last of"):
        time, name = step.value("last of")
        return [Run("in the last "), number(time, "min"), Run(f" of step {job.work.numbers.get(name, '')}")]
    return []


def _warm(job: Job) -> list[Run]:
    clause = gate(job)
    if clause is None or not goes_before(job, clause):
        return []
    before, after = GATE_WORDS[clause.kind]
    return [Run(before), gated(clause.value, job), Run(after)]
