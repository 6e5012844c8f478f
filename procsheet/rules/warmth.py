"""How a rule tells of a material that is too warm: where it is, how that came, when it may go in."""

from procsheet.findings import Label
from procsheet.rules.words import celsius


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


def later(batch, moment, limit: float) -> str:
    """`after line 24, at 40 °C or below`: when the vessel is cool enough."""
    cool = batch.trace.cooled_to(moment, limit)
    return f"{f'after line {cool.span.line}' if cool is not None else f'behind a step that cools {moment.vessel}'}, at {celsius(limit)} or below"
