"""When each step begins and ends, by the clock."""

import sys
from pathlib import Path

from procsheet.commands.common import OK, Unusable, compiled, coloured, sources, write


def run(chosen) -> int:
    from procsheet.timeplan.checks import waits
    from procsheet.timeplan.schedule import schedule
    from procsheet.timeplan.tasks import tasks
    made = compiled(chosen.file, chosen)
    if made.batch is None:
        raise Unusable(f"{chosen.file} could not be followed to its end; procsheet check {chosen.file} says why")
    plant = made.plant
    plan = schedule(tasks(made.batch), operators=chosen.operators or plant.operators, begin=_begin(chosen.start), shift=plant.shift)
    title = f"{made.method.header.product or made.source.name}, {float(made.batch.plan.mass):.4g} kg, {plant.name or 'no plant'}"
    if chosen.output:
        from procsheet.timeplan.picture import draw
        picture = draw(plan, title)
        if chosen.output == "-":
            sys.stdout.write(picture)
        else:
            write(Path(chosen.output), picture)
            print(chosen.output)
        return OK
    from procsheet.show import show
    print("\n".join(told(plan, title)))
    for finding in waits(made.batch, plan):
        print("\n" + show(finding, sources(made), colour=coloured(sys.stdout)))
    return OK


def _begin(text: str) -> float:
    hours, _, minutes = text.partition(":")
    if not (hours.isdigit() and minutes.isdigit() and int(hours) < 24 and int(minutes) < 60):
        raise Unusable(f'{text} is no time of day; write it like "06:00"')
    return int(hours) * 3600.0 + int(minutes) * 60


def told(plan, title: str) -> list[str]:
    """One line a task, in the order they begin."""
    from procsheet.timeplan.picture import clock_time
    rows = sorted((slot for slot in plan.slots if slot.end > slot.start or not slot.task.weighing), key=lambda one: (one.start, one.task.index))
    wide = max((len(slot.task.at) for slot in rows), default=0)
    lines = [f"{clock_time(slot.start):>12} {clock_time(slot.end) + ('+' if slot.task.is_open else ''):>12}  {slot.task.at:<{wide}}  {slot.task.name}"
             f"{'' if slot.slack > 60 or slot.task.weighing else '   *'}" for slot in rows]
    last = f"begins {clock_time(plan.begins)}, ends {clock_time(plan.ends)}{' or later: + has no time of its own, or no most' if plan.is_open else ''}"
    return [title, *lines, "", last, f"The longest way, marked *, takes {plan.longest / 3600:.3g} h with people and balances enough."]
