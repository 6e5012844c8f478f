"""Surfactant paste and water meet so that they stop in the stiff gel between them.

Why it matters
    Ether sulfate is a soft paste at 70 % and a liquid below 30 %; in between it is a gel as stiff as rubber. Water on paste, or paste in
    little water, makes lumps of that gel which take hours, and the stirrer stands.

Wrong
    type surfactant solution
    phase B: paste
        15 %  sodium laureth sulfate 70 % paste
    method
        charge B into side
        add main to side with propeller
        transfer side to main

Right
    type surfactant solution
    phase B: paste
        15 %  sodium laureth sulfate 70 % paste
    method
        add B to main, in portions, with propeller at 3 m/s until clear

Limits
    A surfactant sold at 60 % or more as a paste, from 2 % of the batch. Water put on it, or so little water that its active matter stands
    between 30 and 65 % of the two, is a warning. Paste put to the water with nothing turning is a hint.

Exceptions
    Surfactant powders. Paste warmed alone. Where the gel is named as a stage of its own, sign for it.

Needs
    assay

Source
    two public threads and a teaching page on diluting ether sulfate
"""

from procsheet.findings import Finding, Label
from procsheet.model.material import SOLID
from procsheet.rules.batch import gravest
from procsheet.rules.words import share
from procsheet.trace.trace import LOW

NAME = "paste-into-water"
LEVEL = "WARN"
NEARLY = 1e-9
WHY = "Between paste and solution lies a gel as stiff as rubber: lumps that take hours to go, and a stirrer that stands."


def check(batch):
    for row in batch.method.rows:
        if _is_paste(batch, row):
            found = gravest(_at(batch, row, moment) for moment in batch.trace.moments if row.code in moment.contents)
            if found is not None:
                yield found


def _is_paste(batch, row) -> bool:
    """A concentrate that water turns to gel on the way down."""
    sold = row.material.assay
    return (row.material.is_a("anionic surfactant") and sold is not None and float(sold) >= batch.limit(NAME, "is a paste") and row.material.text("form") not in SOLID
            and batch.of_batch(row) >= batch.limit(NAME, "it counts") - NEARLY)


def _at(batch, row, moment) -> Finding | None:
    """Where they meet; None where they have met before, or stay clear of the gel."""
    water, low, high = _water(batch, row, moment.contents), batch.limit(NAME, "begins"), batch.limit(NAME, "ends")
    part = moment.contents[row.code] * row.material.share("anionic surfactant") / (moment.contents[row.code] + water)
    before = [batch.trace.moments[one].contents for one in moment.parents if row.code in batch.trace.moments[one].contents]
    met = any(_water(batch, row, held) > held[row.code] for held in before)
    if not water or met or water <= sum(_water(batch, row, held) for held in before):
        return None
    if row.code in moment.before:
        return _finding(batch, row, moment, LEVEL, f"water goes onto {row.name} in {moment.vessel}", f"Turn it round: add {row.name} to the water, in portions")
    if low + NEARLY < part < high - NEARLY:
        return _finding(batch, row, moment, LEVEL, f"{row.name} and the water in {moment.vessel} make {share(part)} of active matter, a stiff gel",
                        f"Take water for {share(low)} or less of active matter into {moment.vessel} before it")
    if not any(one.turning or one.shear.rank.high > LOW for one in [moment, *batch.trace.later(moment)][:3]):
        return _finding(batch, row, moment, "NOTE", f"{row.name} goes into {moment.vessel} with nothing turning", "Put it in, in portions, into the vortex with a propeller")
    return None


def _water(batch, row, held) -> float:
    """kg that thins it: water and what is mostly water."""
    return batch.watery(held) - (held.get(row.code, 0.0) if batch.watery({row.code: 1.0}) else 0.0)


def _finding(batch, row, moment, level, title, fix) -> Finding:
    return Finding(level, NAME, title, Label(moment.span, "they meet here"), (Label(row.span, f"{share(float(row.material.assay))} of active matter"),), WHY,
                   f"{fix}; warm water, 55 to 60 °C, takes it faster.".replace("°C", "\u00a0°C").replace(" \u00a0", "\u00a0"), batch.source(NAME, "begins"),
                   material=row.name, step=moment.step.number)
