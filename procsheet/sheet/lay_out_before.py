"""What is made sure of before starting: papers, materials, vessels, balances, instruments, services."""

from procsheet.sheet.figures import BLANK, degrees
from procsheet.sheet.lay_out_front import equipment, used
from procsheet.sheet.model import BeforeStarting, Equipment
from procsheet.sheet.pieces import capital, listed, plural
from procsheet.sheet.places import BATHS, COOLED, HEATED, shown
from procsheet.sheet.temperatures import MEASURING
from procsheet.sheet.work import Work

METERS = {"pH": "pH meter standardised today", "viscosity": "viscometer within calibration"}
WARM = ("at", "below", "above", "at most", "at least", "both at", "keeping", "never above")


def lay_out_before(work: Work) -> BeforeStarting:
    lines = ("This record: batch number and issue agree on every page; no page is missing",
             "All materials on the weighing list are released and within date", _vessels(work), _balances(work), _thermometers(work), _meters(work),
             _services(work))
    return BeforeStarting(tuple(map(capital, filter(None, lines))), vessels=tuple(Equipment(bar, shown(name)) for name, bar in used(work).items()))


def _vessels(work: Work) -> str:
    return f"{listed([*(each.vessel for each in equipment(work)), 'tools'])} clean, dry, labelled clean; nothing left of earlier work"


def _balances(work: Work) -> str:
    tags = list(dict.fromkeys(line.balance for line in work.plan.lines if line.balance))
    return f"{plural('balance', len(tags))} {listed(tags)} checked today" if tags else "balances checked today"


def _thermometers(work: Work) -> str:
    """Of the vessels that are heated, cooled, or must stand at a temperature."""
    warm = {shown(step.vessel) for step in work.steps if step.vessel and step.verb not in MEASURING and (step.verb in HEATED + COOLED or step.has(*WARM))}
    names = [each.vessel for each in equipment(work) if each.vessel in warm]
    return f"{plural('thermometer', len(names))} of {listed(names)} within calibration" if names else ""


def _meters(work: Work) -> str:
    measured = {limit.measure.name for limit in work.method.limits} | {measure.name for measure in map(_measure, work.steps) if measure}
    return "; ".join(text for name, text in METERS.items() if name in measured)


def _measure(step):
    return step.written.slots.get("MEASURE")


def _services(work: Work) -> str:
    """`Jacket hot 95 °C and cold 12 °C, vacuum, nitrogen, drums and pails ready`"""
    plant = work.plant
    media = [f"{name} {degrees(kelvin, work.degree)}{BLANK}{work.degree}" for name, kelvin, wanted in (("hot", plant.hot, HEATED), ("cold", plant.cold, COOLED))
             if kelvin is not None and any(step.verb in wanted and not step.has(*BATHS) for step in work.steps)]
    things = [f"jacket {listed(media)}"] if media else []
    things += [name for name in ("vacuum", "nitrogen") if any(step.has(name) for step in work.steps)]
    things += [one.text or one.name for one in work.method.places if one.name in used(work) and one.name not in work.method.vessels]
    things += list(dict.fromkeys(plural(line.container, 2) for line in work.plan.lines if line.container))
    return f"{listed(things)} ready" if things else ""
