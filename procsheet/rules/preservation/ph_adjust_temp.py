"""The pH is set while the batch is hot.

Why it matters
    The pH of a buffer moves with heat and so does the probe: what reads 5.5 at 70 °C is another pH at 25 °C. The acid is in by then, and the batch
    is set twice.

Wrong
    phase B: pH
        as needed, at most 0.8 %  citric acid 20 % solution
    method
        heat main to 75 °C
        adjust main to pH 5.0-5.5 with B, in portions

Right
    phase B: pH
        as needed, at most 0.8 %  citric acid 20 % solution
    method
        heat main to 75 °C
        adjust main to pH 5.0-5.5 at 25 °C with B, in portions

Limits
    40 °C, where the step begins. A range that lies partly above is a hint; one that begins at the room's temperature is nothing.

Exceptions
    A step that says at what temperature the sample is measured. A hot batch whose pH is set or checked again when it is cool. Steps done only
    if needed. Soap, which is made hot; gels that are neutralised. A step that asks for a temperature which the batch never reaches, which
    temperature-not-reached tells of.

Source
    common practice, no source
"""

from procsheet.findings import LEVELS, Finding, Label
from procsheet.rules.batch import judge
from procsheet.rules.drops import is_conditional
from procsheet.rules.ph import measures
from procsheet.rules.words import celsius

NAME = "ph-adjust-temp"
LEVEL = "WARN"
WHY = "The pH moves with heat, and so does the probe: what is right at 70 °C is not at 25 °C. The acid is in by then, and the batch is set twice."


def check(batch):
    if batch.type == "soap":
        return
    found = [(level, moment) for moment in batch.trace.moments if (level := _level(batch, moment)) in ("WARN", "NOTE")]
    if found:
        level, moment = min(found, key=lambda one: (LEVELS.index(one[0]), -one[1].index))
        limit = batch.limit(NAME)
        yield Finding(level, NAME, f"the pH of {moment.vessel} is set at {celsius(moment.start)}", Label(moment.span, "hot"), (), WHY,
                      f"Put the step behind one that cools {moment.vessel} to {celsius(limit)} or below; or measure a cooled sample: write `at 25 °C` behind the pH."
                      .replace("25 °C", "25\u00a0°C"), batch.source(NAME), step=moment.step.number)


def _level(batch, moment) -> str | None:
    if not measures(moment) or moment.step.verb != "adjust" or moment.step.has("measured at", "at") or is_conditional(batch, moment.step):
        return None
    if any(gate.verdict == "missed" for gate in moment.gates):              # temperature-not-reached tells of it
        return None
    if any(measures(one) and one.start.high <= batch.limit(NAME) + batch.plan.plant.temperature_tolerance for one in batch.trace.later(moment)):
        return None
    if moment.start.low <= batch.plan.plant.room.high:
        return None
    return judge(LEVEL, batch.hotter(moment.start, max(batch.limit(NAME), batch.plan.plant.room.high)))
