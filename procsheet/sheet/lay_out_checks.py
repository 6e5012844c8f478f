"""Checks and limits, yield, deviations and release."""

from procsheet.model import quantities
from procsheet.sheet.figures import BLANK, bounded, four, mass_unit, written
from procsheet.sheet.lay_out_front import size
from procsheet.sheet.model import Box, Check, Checks, Deviations, Mass, Ratio
from procsheet.sheet.phrases import property_name
from procsheet.sheet.sections import numbered
from procsheet.sheet.work import Work, capital
from procsheet.syntax import tree

KEPT = ("stable",)      # tried on kept samples, not before release


def lay_out_checks(work: Work) -> Checks:
    limits = tuple(_limit(limit, work) for limit in work.method.limits)
    return Checks((*limits, *_in_process(work)), _masses(work), _ratios(work), _unit(work))


# ---- limits

def _limit(limit: tree.Limit, work: Work) -> Check:
    said = _conditions(limit.clauses)
    if limit.measure.name in KEPT:
        return _stable(limit, said)
    how = [*(["on " + said["on dilution"] + " in water"] if "on dilution" in said else []), *_steps(limit.measure, work), *([limit.remark.text] if limit.remark else [])]
    name = " ".join(filter(None, (capital(property_name(limit.measure)), f"at {said['at']}" if "at" in said else "", f"after {said['after time']}" if "after time" in said else "")))
    return Check(name, " · ".join(how), _target(limit.measure))


def _stable(limit: tree.Limit, said: dict[str, str]) -> Check:
    target = _target(limit.measure)
    text = " ".join(filter(None, (target, f"at {said['at']}" if "at" in said else "", f"through {said['through']}" if "through" in said else "")))
    return Check("Stable", " · ".join(["on kept samples", *([limit.remark.text] if limit.remark else [])]), text)


def _conditions(clauses: tuple[tree.Clause, ...]) -> dict[str, str]:
    return {clause.kind.removeprefix("measured "): written(clause.value) for clause in clauses if isinstance(clause.value, tree.Quantity)}


def _target(measure: tree.Measure) -> str:
    target = measure.target
    if isinstance(target, tree.Quantity):
        return bounded(target)
    return target.text if target is not None else ""


def _steps(measure: tree.Measure, work: Work) -> list[str]:
    """The steps that look at the same property."""
    numbers = [step.number for step in work.steps if (seen := step.written.slots.get("MEASURE")) is not None and (seen.name, seen.of) == (measure.name, measure.of)
               and (step.verb == "adjust" or _target(seen) == _target(measure))]
    return [numbered(numbers)] if numbers else []


def _in_process(work: Work) -> list[Check]:
    """Checks in the steps that no limit speaks of, or that have another target."""
    limits = {(limit.measure.name, limit.measure.of, _target(limit.measure)) for limit in work.method.limits}
    out = []
    for step in work.steps:
        measure = step.written.slots.get("MEASURE")
        if step.verb == "check" and (measure.name, measure.of, _target(measure)) not in limits:
            where = f"in {step.vessel.upper()}, " if step.vessel else ""
            out.append(Check(capital(property_name(measure)), f"{where}step {step.number}", _target(measure)))
        elif step.verb == "compare":
            out.append(Check("Top and bottom alike", f"step {step.number}", "no difference to be seen"))
    return out


# ---- yield

def _unit(work: Work) -> str:
    return mass_unit(work.plan.mass)


def _masses(work: Work) -> tuple[Mass, ...]:
    of = _unit(work)
    total = "" if work.method.by_volume else four(work.plan.mass, of)
    names = [("Weighed in, all materials", total), *_yielded(work), ("Samples", _samples(work)), ("Left in kettles, strainer, line", "")]
    return tuple(Mass(name, letter, expected) for letter, (name, expected) in zip("abcdefgh", names))


def _yielded(work: Work) -> list[tuple[str, str]]:
    of = _unit(work)
    found = [(f"{capital(what)} that came out", f"{four(low, of)} – {four(high, of)}") for what, low, high, _ in work.plan.yields]
    return found or [("Bulk that came out", "")]


def _samples(work: Work) -> str:
    """What the method says, where it is one sample by weight."""
    taken = [step.written.slots["Q"] for step in work.steps if step.verb == "sample" and "Q" in step.written.slots]
    amount = quantities.middle(taken[0]) if len(taken) == 1 and quantities.dimension(taken[0]) == "mass" else None
    return four(amount, _unit(work)) if amount else ""


def _ratios(work: Work) -> tuple[Ratio, ...]:
    yields = work.plan.yields or (("bulk", None, None, ""),)
    letters = "bcdefg"
    whole = size(work).split(BLANK)[0] if not work.method.by_volume else "a"
    out = [Ratio("Yield" if len(yields) == 1 else f"Yield, {what}", f"{letter} ÷ {whole} × 100", share) for letter, (what, _, _, share) in zip(letters, yields)]
    parts = " + ".join(letters[len(yields) - 1:len(yields) + 2])
    return (*out, Ratio("Accounted for", f"({parts}) ÷ a × 100"))


# ---- deviations

def lay_out_deviations(work: Work) -> Deviations:
    keeps = work.method.header.keeps
    return Deviations(bulk=(Box("containers, number"), Box("stored where"), Box("use or retest before", f"keeps {keeps}" if keeps else "", width=2)))
