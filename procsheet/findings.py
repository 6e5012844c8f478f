"""A finding: one fact, where it lies, what it does in the plant, how to put it right."""

from typing import NamedTuple

from procsheet.source import NOWHERE, Span

LEVELS = ("STOP", "WARN", "CAUTION", "NOTE", "OPEN")       # the gravest first
LOWER = {"STOP": "WARN", "WARN": "NOTE", "NOTE": "NOTE", "OPEN": "OPEN", "CAUTION": "CAUTION"}


class Label(NamedTuple):
    """A place with a few words of cause. The place to change is marked `^`, the places that make it so `~`."""

    span: Span
    text: str = ""


class Finding(NamedTuple):
    level: str                          # one of LEVELS
    name: str                           # the rule, as `accept` and `explain` call it
    title: str                          # the fact, with the numbers
    at: Label = Label(NOWHERE)          # the place to change
    also: tuple[Label, ...] = ()        # the places that make it so
    why: str = ""                       # what happens in the plant
    fix: str = ""                       # an edit that can be made now
    source: str = ""                    # where the rule or figure comes from
    material: str = ""                  # for `accept NAME for "material"`
    step: int = 0                       # the step's number in the method, 0 for none
    courses: tuple[str, ...] = ()       # the options in which it arises, none when it always does
    cannot_be_accepted: bool = False    # slips of writing and sums
    folded: tuple["Finding", ...] = ()  # others with the same place to change

    @property
    def stops(self) -> bool:
        return self.level == "STOP"


def order(finding: Finding) -> tuple:
    """Sort key: the order of the method, then gravity."""
    place = finding.at.span
    return (place.file, place.line, place.column, LEVELS.index(finding.level), finding.name)
