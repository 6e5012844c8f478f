"""One step on its page."""

from procsheet.sheet.model import Step
from procsheet.sheet.places import shown
from procsheet.sheet.sentence import say
from procsheet.sheet.step_additions import additions, portions
from procsheet.sheet.step_boxes import boxes, second
from procsheet.sheet.step_cues import cues
from procsheet.sheet.step_settings import settings
from procsheet.sheet.work import Job


def lay_out_step(job: Job) -> Step:
    said = say(job)
    going_in = additions(job)
    cautions = (*job.task.cautions, *job.work.cautions.get(job.number, ()))
    two = second(job) or any(each.second for each in going_in)
    return Step(str(job.number), _bars(job), _vessel(job), said.sentence, _inside(job), two, cautions, settings(job), cues(job, said.more),
                boxes(job), going_in, portions(job))


def _bars(job: Job) -> tuple[str, ...]:
    names = dict.fromkeys(name for name in (job.vessel, *job.sources, job.step.into) if name in job.work.bars)
    return tuple(dict.fromkeys(job.work.bars[name] for name in names))


def _vessel(job: Job) -> str:
    """`MAIN`, `SIDE → MAIN`, `MAIN → TIN`."""
    to = job.step.into if job.step.into in job.work.bars and job.step.into != job.vessel else ""
    names = [*job.sources, *([job.vessel] if job.vessel else [])]
    if to:
        return f"{shown(job.vessel)} → {shown(to)}"
    return f"{', '.join(map(shown, job.sources))} → {shown(job.vessel)}" if job.sources and job.vessel else ", ".join(map(shown, names))


def _inside(job: Job) -> str:
    step = job.step
    name = step.value("during") or (step.value("last of")[1] if step.has("last of") else "")
    return f"in step {job.work.numbers[name]}" if name in job.work.numbers else ""
