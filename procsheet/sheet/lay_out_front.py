"""The front page: what it is, how much, in which vessels, what is dangerous, what was found, who signs."""

from procsheet.findings import Finding
from procsheet.plan.size import declared, fits
from procsheet.sheet.figures import count, four, mass_unit, spaced, volume_unit, written
from procsheet.sheet.model import Approval, Box, Caution, Equipment, Fact, Front, Point
from procsheet.sheet.places import must_be, shown
from procsheet.sheet.sections import numbered
from procsheet.sheet.step_additions import is_checked
from procsheet.sheet.work import Work, capital, on_paper, sentence, told
from procsheet.syntax import tree

TYPES = {"hydroalcoholic": "hydroalcoholic product", "anhydrous": "anhydrous product"}
BRIEF = 40      # letters of a caution's advice on the front page
AGREED = Box("agreed for the plant by, date", second=True)
MONTHS = ("January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November", "December")


def lay_out_front(work: Work) -> Front:
    expected = next(iter(work.plan.yields), None)
    return Front(about=_about(work), size=size(work), expected=_expected(work, expected), expected_note=f"{expected[3]} of {size(work)}" if expected else "",
                 facts=_facts(work), equipment=equipment(work), cautions=_cautions(work),
                 points_title=f"What the check of the method found, at {size(work)}" + (" in this plant" if work.plan.has_plant else ""), points=_points(work),
                 approvals=(Approval("written by", work.method.header.written_by), Approval("checked by", work.method.header.checked_by, second=True),
                            Approval("accepted by the plant"), Approval("issued by")))


def size(work: Work) -> str:
    """`150.0 kg`; of a batch that is made up to a mark its volume."""
    method, plan = work.method, work.plan
    if method.by_volume:
        volume = method.basis * plan.factor
        return spaced(four(volume, volume_unit(volume)), volume_unit(volume))
    return spaced(four(plan.mass, mass_unit(plan.mass)), mass_unit(plan.mass))


def _expected(work: Work, expected) -> str:
    if expected is None or work.method.by_volume:
        return ""
    of = mass_unit(work.plan.mass)
    return f"{four(expected[1], of)} – {four(expected[2], of)}\u00a0{of}"


def _about(work: Work) -> tuple[str, ...]:
    header = work.method.header
    look = next((limit.measure.target.text for limit in work.method.limits if limit.measure.name == "appearance" and isinstance(limit.measure.target, tree.Text)), "")
    made = " ".join(filter(None, (f"Made for {header.made_for}." if header.made_for else "", f"Plant: {work.plant.name}." if work.plan.has_plant else "")))
    proven = f"Proven at {four(header.proven_at, mass_unit(header.proven_at))}\u00a0{mass_unit(header.proven_at)}." if header.proven_at else ""
    return tuple(filter(None, (" ".join(filter(None, (sentence(TYPES.get(header.type, header.type)), sentence(look)))), made, _revision(work), proven)))


def _revision(work: Work) -> str:
    header = work.method.header
    if not header.revision_reason and not header.revision_date:
        return ""
    said = ", ".join(filter(None, (f"Revision {header.revision}", day(header.revision_date))))
    return f"{said}: {header.revision_reason.rstrip('.')}." if header.revision_reason else f"{said}."


def day(date: str) -> str:
    """`2 March 2026` from 2026-03-02."""
    year, _, rest = date.partition("-")
    month, _, number = rest.partition("-")
    return f"{int(number)} {MONTHS[int(month) - 1]} {year}" if month.isdigit() and number.isdigit() and 1 <= int(month) <= 12 else date


# ---- facts

def _facts(work: Work) -> tuple[Fact, ...]:
    return tuple(fact for fact in (_packs(work), _cases(work), _people(work), _keeps(work)) if fact is not None)


def _packs(work: Work) -> Fact | None:
    number, content = fits(work.method, work.plan.factor, work.plant.filling_loss or 0), declared(work.method)
    if not number or content is None:
        return None
    title = work.method.packs[0].title
    return Fact("Fits", f"about {count(float(number))} × {title or written(content)}")


def _cases(work: Work) -> Fact | None:
    per = next((entry for pack in work.method.packs for entry in pack.lines if entry.key == "per"), None)
    figure = next((word for word in per.words if isinstance(word, tree.Quantity)), None) if per else None
    return Fact("Packed", f"{figure.low} per case") if figure is not None else None


def _people(work: Work) -> Fact | None:
    people = work.plant.operators
    if people is None:
        return None
    checks = any(step.has("double-checked", "both at", "both within") for step in work.steps) or any(is_checked(line.row) for line in work.plan.lines)
    return Fact("People", f"{people}, one of them to check" if checks and people > 1 else f"{people}, and one to check" if checks else str(people))


def _keeps(work: Work) -> Fact | None:
    return Fact("Bulk keeps", work.method.header.keeps) if work.method.header.keeps else None


def equipment(work: Work) -> tuple[Equipment, ...]:
    """Each vessel and place with its bar: the main one first."""
    used = [name for name in work.bars if any(name in (step.vessel, step.into, *(take.vessel for take in (*step.what, *step.down))) for step in work.steps)]
    tags = {name: kettle.tag for name in used if (kettle := work.plan.kettles.get(name))}
    return tuple(Equipment(work.bars[name], shown(name), capital(must_be(name, work.plan)), tags.get(name, "")) for name in used)


# ---- cautions and findings

def _cautions(work: Work) -> tuple[Caution, ...]:
    """Each danger once, with the steps it stands before."""
    steps: dict[Caution, list[int]] = {}
    for task in work.tasks:
        for caution in (*task.cautions, *work.cautions.get(task.step.number, ())):
            steps.setdefault(caution, []).append(task.step.number)
    general = [Caution(caution.danger, caution.advice) for caution in work.cautions.get(0, ())]
    return (*general, *(Caution(caution.danger, " ".join(filter(None, (_short(caution.advice), f"{capital(numbered(at))}.")))) for caution, at in steps.items()))


def _short(advice: str) -> str:
    """Its first sentence, where that is short: the whole stands before the step."""
    first = advice.partition(". ")[0].rstrip(".")
    return f"{first}." if first and len(first) <= BRIEF else ""


def _points(work: Work) -> tuple[Point, ...]:
    """Exceptions, what to know, what was not checked, in this order."""
    compiled = work.compiled
    found = [one for finding in compiled.findings for one in (finding, *finding.folded)]
    signed = [Point("Exception", told(one.finding, compiled), f"Accepted by {one.by}: “{one.reason}”", AGREED) for one in compiled.signed]
    known = [Point("To know", told(one, compiled), on_paper(_more(one), compiled)) for one in found if one.level == "WARN"]
    return (*signed, *known, *_open(found, compiled), *_hints(found, compiled))


def _more(finding: Finding) -> str:
    at = f"Step {finding.step}." if finding.step else ""
    only = f"Only {', '.join(finding.courses)}." if finding.courses else ""
    return " ".join(filter(None, (at, only, finding.why)))


def _open(found: list[Finding], compiled) -> list[Point]:
    """What lacked a figure, one point a check."""
    by_name: dict[str, list[str]] = {}
    for finding in found:
        if finding.level == "OPEN":
            by_name.setdefault(finding.name, []).append(told(finding, compiled))
    return [Point("Not checked", titles[0], " ".join(titles[1:])) for titles in by_name.values()]


def _hints(found: list[Finding], compiled) -> list[Point]:
    """Hints that belong to no step."""
    titles = [told(finding, compiled) for finding in found if finding.level == "NOTE" and not finding.step]
    return [Point("Note", titles[0], " ".join(titles[1:]))] if titles else []

