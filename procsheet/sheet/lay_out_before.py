"""What is made sure of before starting: papers, materials, vessels, balances, instruments, services."""

from procsheet.sheet.lay_out_front import equipment
from procsheet.sheet.model import BeforeStarting
from procsheet.sheet.places import HEATED, COOLED
from procsheet.sheet.step_additions import plural
from procsheet.sheet.work import Work


def lay_out_before(work: Work) -> BeforeStarting:
    lines = ("This record: batch number and issue agree on every page; no page is missing",
             "All materials on the weighing list are released and within date",
             f"{listed([*(each.vessel for each in equipment(work)), 'tools']).capitalize() if not equipment(work) else listed([*(each.vessel for each in equipment(work)), 'tools'])} clean, dry, labelled clean; nothing left of earlier work",
             _balances(work), _thermometers(work), _meters(work), _services(work))
    return BeforeStarting(tuple(filter(None, lines)), vessels=equipment(work))


def listed(words: list[str]) -> str:
    """`A, B and C`."""
    return f"{', '.join(words[:-1])} and {words[-1]}" if len(words) > 1 else "".join(words)


def _balances(work: Work) -> str:
    tags = list(dict.fromkeys(line.balance for line in work.plan.lines if line.balance))
    return f"Balance{'s' if len(tags) > 1 else ''} {listed(tags)} checked today" if tags else "Balances checked today"


def _thermometers(work: Work) -> str:
    warm = [each.vessel for each in equipment(work) if any(step.vessel.upper() == each.vessel and (step.verb in HEATED + COOLED or step.has(
        "at", "below", "above", "at most", "at least", "both at", "keeping", "never above")) for step in work.steps)]
    return f"Thermometer{'s' if len(warm) > 1 else ''} of {listed(warm)} within calibration" if warm else ""


def _meters(work: Work) -> str:
    names = {limit.measure.name for limit in work.method.limits} | {step.written.slots["MEASURE"].name for step in work.steps if "MEASURE" in step.written.slots}
    meters = [text for name, text in (("pH", "pH meter standardised today"), ("viscosity", "viscometer within calibration")) if name in names]
    return f"{meters[0][0].upper() if not meters[0].startswith('pH') else 'p'}{'; '.join(meters)[1:]}" if meters else ""


def _services(work: Work) -> str:
    """`Jacket hot 95 °C and cold 12 °C, vacuum, nitrogen, drums and pails ready`"""
    plant, steps = work.plant, work.steps
    hot, cold = any(step.verb in HEATED for step in steps), any(step.verb in COOLED for step in steps)
    media = [f"{name} {kelvin - 273.15:.0f}\u00a0°C" for name, kelvin, wanted in (("hot", plant.hot, hot), ("cold", plant.cold, cold)) if wanted and kelvin is not None]
    things = [f"jacket {listed(media)}"] if media else []
    things += [name for name in ("vacuum", "nitrogen") if any(step.has(name) for step in steps)]
    things += list(dict.fromkeys(plural(line.container, 2) for line in work.plan.lines if line.container))
    text = listed(things)
    return f"{text[0].upper()}{text[1:]} ready" if text else ""
