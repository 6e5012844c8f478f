"""Why one step follows another: found after the check, by trying the method with two neighbours the other way round.

Neighbours are two steps that follow one another at the same vessel. Each pair is turned round, traced and checked anew, and what then breaks is
the reason. The graph itself stays as it was.
"""

from collections import Counter
from typing import NamedTuple

from procsheet.findings import Finding
from procsheet.followed import findings, follow
from procsheet.model.method import Step
from procsheet.plan.plan import Order
from procsheet.rules.batch import Batch

FLOW, RULE, STATE, FREE = "flow", "rule", "state", "free"
ACCOUNTS = {"never-added", "content-lost", "hold-back", "used-twice", "empty-vessel", "batch-weight", "not-understood", "temperature-not-reached"}
SILENT = {"note", "caution", "sample", "wait", "check", "compare", "prepare"}


class Reason(NamedTuple):
    """Why `step` comes after `before`, both numbers of steps.

    kind    'flow': what it works on is not there yet; 'rule': a rule of the book would speak; 'state': none would, but something would live through
            more heat or shear; 'free': nothing changes, they may be swapped
    rule, material, told    the finding that would come
    """

    step: int
    before: int
    vessel: str
    kind: str
    rule: str = ""
    material: str = ""
    told: str = ""

    @property
    def holds(self) -> bool:
        return self.kind != FREE


def reasons(batch: Batch) -> tuple[Reason, ...]:
    """A reason for every pair of neighbours, in the order of the method."""
    known, lived = _told(batch), _lived(batch)
    return tuple(_reason(batch, one, other, vessel, known, lived) for one, other, vessel in neighbours(batch.graph.course.steps))


def neighbours(steps: tuple[Step, ...]) -> list[tuple[Step, Step, str]]:
    """Each step with the one before it at the same vessel."""
    last: dict[str, Step] = {}
    out = []
    for step in steps:
        if step.verb in SILENT or not step.number:
            continue
        before = [(last[vessel], vessel) for vessel in _vessels(step) if vessel in last]
        if before:
            one, vessel = max(before, key=lambda pair: pair[0].number)
            out.append((one, step, vessel))
        last |= dict.fromkeys(_vessels(step), step)
    return out


def _vessels(step: Step) -> list[str]:
    return list(dict.fromkeys(filter(None, [step.into, step.vessel, *(take.vessel for take in step.what)])))


# ---- turned round


def _reason(batch: Batch, one: Step, other: Step, vessel: str, known: Counter, lived: dict) -> Reason:
    pair = (other.number, one.number, vessel)
    turned = _turned(batch, one, other)
    broken = [finding for finding in findings(turned) if finding.level in ("STOP", "WARN", "OPEN", "NOTE") and _key(finding) not in known]
    account = next((finding for finding in broken if finding.name in ACCOUNTS), None)
    if account is not None:
        return Reason(*pair, FLOW, account.name, account.material, account.title)
    grave = min((finding for finding in broken if finding.level in ("STOP", "WARN")), key=lambda finding: (finding.level != "STOP", finding.at.span.line), default=None)
    if grave is not None:
        return Reason(*pair, RULE, grave.name, grave.material, grave.title)
    changed = _changed(lived, _lived(turned)) or (broken[0].title if broken else "")
    return Reason(*pair, STATE, told=changed) if changed else Reason(*pair, FREE)


def _turned(batch: Batch, one: Step, other: Step) -> Batch:
    """The batch with the second step done right before the first."""
    course = batch.graph.course
    steps = [step for step in course.steps if step is not other]
    steps.insert(steps.index(one), other)
    return follow(batch.method, course._replace(steps=tuple(steps)), batch.plan.plant, Order(mass=batch.plan.mass, vessels=_tags(batch)))


def _tags(batch: Batch) -> tuple[tuple[str, str], ...]:
    return tuple((name, kettle.tag) for name, kettle in batch.plan.kettles.items() if kettle is not None)


def _told(batch: Batch) -> Counter:
    return Counter(map(_key, findings(batch)))


def _key(finding: Finding) -> tuple:
    return finding.name, finding.level, finding.material, finding.at.span.line


def _lived(batch: Batch) -> dict[str, tuple]:
    """The hottest and the hardest that each row lives through [K, class]."""
    trace, out = batch.trace, {}
    for exposure in trace.exposures:
        hot, hard = trace.hottest_from(exposure.moment).peak.high, trace.strongest_from(exposure.moment).shear.rank.high
        known = out.get(exposure.row.name, (0.0, 0))
        out[exposure.row.name] = (max(known[0], round(hot, 1)), max(known[1], hard))
    return out


def _changed(before: dict[str, tuple], after: dict[str, tuple]) -> str:
    hotter = [name for name, (hot, _) in after.items() if hot > before.get(name, (hot, 0))[0] + 0.5]
    harder = [name for name, (_, hard) in after.items() if hard > before.get(name, (0, hard))[1]]
    if hotter:
        return f"{hotter[0]} would come to {after[hotter[0]][0] - 273.15:.0f}\u00a0°C"
    return f"{harder[0]} would go through more shear" if harder else ""


def told(batch: Batch, found: tuple[Reason, ...]) -> list[str]:
    """One line a pair, as `graph --why` prints it."""
    verbs = {step.number: step.verb for step in batch.graph.course.steps}
    wide = max((len(verb) for verb in verbs.values()), default=0)
    return [f"{one.step:>3} {verbs[one.step]:<{wide}} after {one.before:>3} {verbs[one.before]:<{wide}}  {one.vessel:<10} {_why(one)}" for one in found]


def _why(one: Reason) -> str:
    if one.kind == FREE:
        return "may be swapped: nothing in the book minds"
    if one.kind == RULE:
        return f"{one.rule}: {one.told}"
    return f"flow: {one.told}" if one.kind == FLOW else f"no rule minds, but {one.told}"


def fixed(found: tuple[Reason, ...]) -> dict[int, int]:
    """Steps that must not be moved before another, because a rule of the book would be broken: number of the step -> that of the one before it."""
    return {one.step: one.before for one in found if one.kind == RULE}
