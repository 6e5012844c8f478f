"""Checks and limits, yield, deviations and release."""

from procsheet.model import quantities
from procsheet.model.method import Step
from procsheet.sheet.figures import BLANK, bounded, four, mass_unit, written
from procsheet.sheet.lay_out_front import size
from procsheet.sheet.model import Box, Check, Checks, Deviations, Mass, Ratio
from procsheet.sheet.phrases import property_name
from procsheet.sheet.pieces import capital, line, numbered
from procsheet.sheet.places import shown
from procsheet.sheet.work import Work
from procsheet.syntax import tree

KEPT = ("stable",)      # tried on kept samples, not before release
LETTERS = "abcdefgh"    # of the masses: what is weighed in, what comes out, samples, what is left


def lay_out_checks(work: Work) -> Checks:
    limits = tuple(_limit(limit, work) for limit in work.method.limits)
    return Checks((*limits, *_in_process(work)), _masses(work), _ratios(work), _unit(work))


def _unit(work: Work) -> str:
    """That of the batch: a weight, or the volume it is made up to."""
    return size(work).split(BLANK)[-1]


# ---- limits

def _limit(limit: tree.Limit, work: Work) -> Check:
    said, remark = _conditions(limit.clauses), limit.remark.text if limit.remark else ""
    at, after = _told("at", said, "at"), _told("after", said, "after time")
    if limit.measure.name in KEPT:
        return Check("Stable", line("on kept samples", remark, by=" · "), line(_target(limit.measure), at, _told("through", said, "through")))
    dilution = f"on {said['on dilution']} in water" if "on dilution" in said else ""
    how = line(dilution, _steps(limit.measure, work), remark, by=" · ")
    return Check(line(capital(property_name(limit.measure)), at, after), how, _target(limit.measure))


def _conditions(clauses: tuple[tree.Clause, ...]) -> dict[str, str]:
    return {clause.kind.removeprefix("measured "): written(clause.value) for clause in clauses if isinstance(clause.value, tree.Quantity)}


def _told(word: str, said: dict[str, str], kind: str) -> str:
    return f"{word} {said[kind]}" if kind in said else ""


def _target(measure: tree.Measure) -> str:
    target = measure.target
    return bounded(target) if isinstance(target, tree.Quantity) else target.text if target is not None else ""


def _measure(step: Step) -> tree.Measure | None:
    return step.written.slots.get("MEASURE")


def _steps(measure: tree.Measure, work: Work) -> str:
    """The steps that bring the property there, or look whether it is."""
    found = [step.number for step in work.steps if (seen := _measure(step)) is not None and (seen.name, seen.of) == (measure.name, measure.of)
             and (step.verb == "adjust" or _target(seen) == _target(measure))]
    return numbered(found) if found else ""


def _in_process(work: Work) -> list[Check]:
    """Checks in the steps that no limit speaks of, or that have another target."""
    limits = {(limit.measure.name, limit.measure.of, _target(limit.measure)) for limit in work.method.limits}
    out = []
    for step in work.steps:
        measure = _measure(step)
        if step.verb == "check" and (measure.name, measure.of, _target(measure)) not in limits:
            out.append(Check(capital(property_name(measure)), f"in {shown(step.vessel)}, step {step.number}", _target(measure)))
        elif step.verb == "compare":
            out.append(Check("Top and bottom alike", f"step {step.number}", "no difference to be seen"))
    return out


# ---- yield

def _masses(work: Work) -> tuple[Mass, ...]:
    whole = size(work).split(BLANK)[0]
    first = "Made up to" if work.method.by_volume else "Weighed in, all materials"
    names = [(first, whole), *_yielded(work), ("Samples", _samples(work)), ("Left in kettles, strainer, line", "")]
    return tuple(Mass(name, letter, amount) for letter, (name, amount) in zip(LETTERS, names))


def _yielded(work: Work) -> list[tuple[str, str]]:
    of = mass_unit(work.plan.mass)
    ends = "" if work.method.by_volume else "{} – {}"
    found = [(f"{capital(what)} that came out", ends.format(four(low, of), four(high, of))) for what, low, high, _ in work.plan.yields]
    return found or [("Bulk that came out", "")]


def _samples(work: Work) -> str:
    """What the method says, where it is one sample by weight."""
    taken = [step.written.slots["Q"] for step in work.steps if step.verb == "sample" and "Q" in step.written.slots]
    amount = quantities.middle(taken[0]) if len(taken) == 1 and quantities.dimension(taken[0]) == "mass" else None
    return four(amount, _unit(work)) if amount and not work.method.by_volume else ""


def _ratios(work: Work) -> tuple[Ratio, ...]:
    shares = [(what, share) for what, _, _, share in work.plan.yields] or [("bulk", "")]
    whole = size(work).split(BLANK)[0]
    out = [Ratio("Yield" if len(shares) == 1 else f"Yield, {what}", f"{letter} ÷ {whole} × 100", share)
           for letter, (what, share) in zip(LETTERS[1:], shares)]
    parts = " + ".join(LETTERS[len(shares):len(shares) + 3])
    return (*out, Ratio("Accounted for", f"({parts}) ÷ {LETTERS[0]} × 100"))


# ---- deviations

def lay_out_deviations(work: Work) -> Deviations:
    keeps = work.method.header.keeps
    before = Box("use or retest before", f"keeps {keeps}" if keeps else "", width=2)
    return Deviations(bulk=(Box("containers, number"), Box("stored where"), before))
