"""The front page: what it is, how much, in which vessels, what is dangerous, what was found, who signs."""

from procsheet.plan.size import declared, fits
from procsheet.sheet.figures import count, four, mass_unit, spaced, volume_unit, written
from procsheet.sheet.lay_out_points import lay_out_points
from procsheet.sheet.model import Approval, Caution, Equipment, Fact, Front
from procsheet.sheet.pieces import capital, line, numbered, sentence
from procsheet.sheet.places import must_be, shown
from procsheet.sheet.step_additions import is_checked
from procsheet.sheet.step_boxes import TWO_PEOPLE
from procsheet.sheet.work import Work
from procsheet.syntax import tree

TYPES = {"hydroalcoholic": "hydroalcoholic product", "anhydrous": "anhydrous product"}
BRIEF = 40      # letters of a caution's advice on the front page
MONTHS = ("January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November", "December")


def lay_out_front(work: Work) -> Front:
    header = work.method.header
    approvals = (Approval("written by", header.written_by), Approval("checked by", header.checked_by, second=True),
                 Approval("accepted by the plant"), Approval("issued by"))
    title = f"What the check of the method found, at {size(work)}{' in this plant' if work.plan.has_plant else ''}"
    return Front(about=_about(work), size=size(work), expected=expected(work), expected_note=_share(work), facts=_facts(work),
                 equipment=equipment(work), cautions=_cautions(work), points_title=title, points=lay_out_points(work.compiled), approvals=approvals)


def size(work: Work) -> str:
    """`150.0 kg`; of a batch that is made up to a mark its volume."""
    method, plan = work.method, work.plan
    if method.by_volume:
        volume = method.basis * plan.factor
        return spaced(four(volume, volume_unit(volume)), volume_unit(volume))
    return spaced(four(plan.mass, mass_unit(plan.mass)), mass_unit(plan.mass))


def expected(work: Work) -> str:
    """`145.5 – 149.2 kg`, '' where the method does not say."""
    if not work.plan.yields or work.method.by_volume:
        return ""
    _, low, high, _ = work.plan.yields[0]
    of = mass_unit(work.plan.mass)
    return spaced(f"{four(low, of)} – {four(high, of)}", of)


def _share(work: Work) -> str:
    return f"{work.plan.yields[0][3]} of {size(work)}" if work.plan.yields else ""


def _about(work: Work) -> tuple[str, ...]:
    header = work.method.header
    look = next((limit.measure.target for limit in work.method.limits if limit.measure.name == "appearance"), None)
    kind = line(sentence(TYPES.get(header.type, header.type)), sentence(look.text) if isinstance(look, tree.Text) else "")
    made = line(f"Made for {header.made_for}." if header.made_for else "", f"Plant: {work.plant.name}." if work.plan.has_plant else "")
    return tuple(filter(None, (kind, made, _revision(work), _proven(work))))


def _revision(work: Work) -> str:
    header = work.method.header
    if not header.revision_reason and not header.revision_date:
        return ""
    said = line(f"Revision {header.revision}", day(header.revision_date), by=", ")
    return f"{said}: {header.revision_reason.rstrip('.')}." if header.revision_reason else f"{said}."


def _proven(work: Work) -> str:
    mass = work.method.header.proven_at
    return f"Proven at {spaced(four(mass, mass_unit(mass)), mass_unit(mass))}." if mass else ""


def day(date: str) -> str:
    """`2 March 2026` from 2026-03-02."""
    year, _, rest = date.partition("-")
    month, _, number = rest.partition("-")
    return f"{int(number)} {MONTHS[int(month) - 1]} {year}" if month.isdigit() and number.isdigit() and 1 <= int(month) <= 12 else date


# ---- facts

def _facts(work: Work) -> tuple[Fact, ...]:
    return tuple(fact for fact in (_packs(work), _cases(work), _people(work), _keeps(work), _where(work), _in_force(work)) if fact is not None)


def _packs(work: Work) -> Fact | None:
    number, content = fits(work.method, work.plan.factor, work.plant.filling_loss or 0), declared(work.method)
    if not number or content is None:
        return None
    return Fact("Fits", f"about {count(float(number))} × {work.method.packs[0].title or written(content)}")


def _cases(work: Work) -> Fact | None:
    per = next((entry for pack in work.method.packs for entry in pack.lines if entry.key == "per"), None)
    figure = next((word for word in per.words if isinstance(word, tree.Quantity)), None) if per else None
    return Fact("Packed", f"{figure.low} per case") if figure is not None else None


def _people(work: Work) -> Fact | None:
    people = work.plant.operators
    if people is None:
        return None
    checks = any(step.has(*TWO_PEOPLE) for step in work.steps) or any(is_checked(line.row) for line in work.plan.lines)
    return Fact("People", f"{people}{', one of them to check' if checks and people > 1 else ', and one to check' if checks else ''}")


def _keeps(work: Work) -> Fact | None:
    return Fact("Bulk keeps", work.method.header.keeps) if work.method.header.keeps else None


def _where(work: Work) -> Fact | None:
    return None if work.plan.has_plant else Fact("Made at")


def _in_force(work: Work) -> Fact | None:
    """The line of the revision says it, where the method does."""
    return None if work.method.header.revision_date else Fact("In force from")


def equipment(work: Work) -> tuple[Equipment, ...]:
    """Each vessel with its bar: the main one first. Moulds and packs are none."""
    tags = {name: kettle.tag for name, kettle in work.plan.kettles.items() if kettle}
    return tuple(Equipment(bar, shown(name), capital(must_be(name, work.plan)), tags.get(name, ""))
                 for name, bar in used(work).items() if name in work.method.vessels)


def used(work: Work) -> dict[str, str]:
    """Every vessel and place that the steps speak of, with its bar."""
    names = {name for step in work.steps for name in (step.vessel, step.into, *(take.vessel for take in (*step.what, *step.down)))}
    return {name: bar for name, bar in work.bars.items() if name in names}


# ---- cautions

def _cautions(work: Work) -> tuple[Caution, ...]:
    """Each danger once, with the steps it stands before."""
    steps: dict[Caution, list[int]] = {}
    for task in work.tasks:
        for caution in (*task.cautions, *work.cautions.get(task.step.number, ())):
            steps.setdefault(caution, []).append(task.step.number)
    before = (Caution(caution.danger, line(_short(caution.advice), f"{capital(numbered(at))}.")) for caution, at in steps.items())
    return (*work.cautions.get(0, ()), *before)


def _short(advice: str) -> str:
    """Its first sentence, where that is short: the whole stands before the step."""
    first = advice.partition(". ")[0].rstrip(".")
    return f"{first}." if first and len(first) <= BRIEF else ""
