"""A danger for people: how it is told, and at which step first. What protects the crew is the plant's to say, and the data sheet's."""

from typing import Iterable, Iterator

from procsheet.findings import Finding, Label
from procsheet.model.method import Row
from procsheet.rules.words import listed, weight
from procsheet.trace.trace import Moment

DECIDES = "the safety data sheets and the plant's own procedures decide"


def caution(name: str, moment: Moment, danger: str, advice: str) -> Finding:
    """danger: in a few words, with the number; advice: what to do, in a sentence."""
    return Finding("CAUTION", name, danger, Label(moment.span), fix=advice, source=DECIDES, step=moment.step.number)


def first_in_each_vessel(moments: Iterable[Moment]) -> Iterator[Moment]:
    """The first of them in each vessel."""
    seen: set[str] = set()
    for moment in moments:
        if moment.vessel not in seen:
            seen.add(moment.vessel)
            yield moment


def entering(moment: Moment, applies, seen: set) -> list[Row]:
    """The rows a step weighs into its vessel that a danger applies to, and that were not told of there before."""
    rows = [portion.row for portion in moment.entering if applies(portion.row.material) and (moment.vessel, portion.row.material.name) not in seen]
    seen.update((moment.vessel, row.material.name) for row in rows)
    return rows


def told(moment: Moment, rows: list[Row]) -> str:
    """`zinc oxide, 360 g`: what goes in, and how much of it together."""
    kilograms = sum(moment.added.get(row.code, 0.0) for row in rows)
    return listed(row.name for row in rows) + (f", {weight(kilograms)}" if kilograms else "")


def hazards(material) -> set[str]:
    """The hazard statements of a material's data: `h317`."""
    return set(material.words("hazard"))
