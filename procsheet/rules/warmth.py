"""How a rule tells of a material that is too warm: where it is, how that came, when it may go in."""

from procsheet.findings import Label
from procsheet.rules.words import celsius

LEAVES = ("fill", "pour", "discharge")


def found(row, moment, enters: bool, level: str, limit: float) -> str:
    """`collagen goes into main at 75 °C`; where something is not said, how warm it may be."""
    hot = moment.allowed
    if level == "OPEN":
        return f"{row.name} may be in {moment.vessel} at up to {celsius(hot.high)}"
    return f"{row.name} {'goes into' if enters else 'is in'} {moment.vessel} at {celsius(hot if hot.low > limit else hot.high)}"


def unsaid(moment, level: str) -> str:
    """What is missing, behind an open point."""
    return f"; {moment.allowed.missing} is not said" if level == "OPEN" and moment.allowed.missing else ""


def causes(batch, exposure, moment) -> tuple[Label, ...]:
    """Where the material goes in, and the step that made its vessel warm."""
    warmed = batch.trace.warmed_by(moment)
    entry = [Label(exposure.moment.span, f"{exposure.row.name} goes in here")] if moment.index != exposure.moment.index else []
    heat = [Label(warmed.span, f"{warmed.vessel} comes to {celsius(warmed.end)} here")] if warmed.index not in (moment.index, exposure.moment.index) else []
    return tuple(entry + heat)


def brought(batch, row, moment):
    """The step that made it so warm: that warmed the vessel it was in, or brought the two together."""
    warmed = batch.trace.warmed_by(moment)
    if warmed.step.verb == "cool" and row.code in warmed.before:
        return moment
    return next(one for one in batch.trace.path(warmed) if row.code in one.contents)


def cooled(batch, moment, limit: float):
    """The first step after it that leaves the vessel cool enough, while the batch is still there; None where it goes into the pack warm."""
    cool, left = batch.trace.cooled_to(moment, limit), batch.trace.leaves(moment)
    return cool if cool is not None and (cool.index < left.index or left.step.verb not in LEAVES) else None


def cooler(batch, row, made, limit: float) -> str:
    """The step to put in before a step that brings a material and something too warm together; '' where that does not help."""
    if row.code in made.before and not made.poured or row.code not in made.before and cooled(batch, made, limit) is not None:
        return ""
    vessel = batch.trace.moments[made.poured[0]].vessel if row.code in made.before else made.vessel
    return f"Put a step before line {made.span.line}: cool {vessel} to {celsius(limit)} or below"


def later(batch, moment, limit: float) -> str:
    """`after line 24, at 40 °C or below`: when the vessel is cool enough; else the step that is to make it so, and where."""
    cool, left = cooled(batch, moment, limit), batch.trace.leaves(moment)
    if cool is not None:
        return f"after line {cool.span.line}, at {celsius(limit)} or below"
    if left.step.verb not in LEAVES or left.index == moment.index:
        return f"behind a step that cools {moment.vessel}, at {celsius(limit)} or below"
    return f"before line {left.span.line}, behind a step of its own: cool {batch.trace.moments[left.parents[0]].vessel} to {celsius(limit)}"


def moved(batch, exposure, moment, limit: float) -> str:
    """How to bring a material in cool enough: its own step, or the step that pours it in with its premix, goes further down."""
    row, left = exposure.row, batch.trace.leaves(moment)
    if left.step.verb == "pour" and left.start.low > limit:
        return f"The batch is poured at {celsius(left.start)}: take one that stands it, or sign for {row.name} at the end, with the trial that shows it"
    pours = next((one for one in batch.trace.path(exposure.moment) if one.poured and row.code in one.added and one.peak.high > limit), None)
    if pours is not None and pours.index <= moment.index:
        return f"Add {batch.trace.moments[pours.poured[0]].vessel}, with {row.name} in it, {later(batch, moment, limit)}, instead of in line {pours.span.line}"
    return f"Take {row.name} out of line {exposure.moment.span.line} and add it {later(batch, moment, limit)}"
