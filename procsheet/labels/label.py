"""The labels: one a container, in the order of the weighing list."""

from typing import NamedTuple

from procsheet.labels.code import payload
from procsheet.labels.weighed import Weighed, weighed
from procsheet.sheet.lay_out import lay_out
from procsheet.sheet.model import Head
from procsheet.sheet.papers import Papers
from procsheet.sheet.work import work


class Label(NamedTuple):
    """What stands on one container. number, of: it is the nth of so many; code: the text of its QR code."""

    weighed: Weighed
    number: int
    of: int
    code: str


class Labels(NamedTuple):
    head: Head
    labels: tuple[Label, ...]


def labels(compiled, number: str = "") -> Labels:
    """The labels of a compiled method. number: of the batch, a ruled blank where it is ''.

    Raises ValueError where the method could not be followed to its end, and where a code would hold too much to be read.
    """
    sheet = lay_out(compiled, Papers(number=number, sections=("weighing",)))
    made = weighed(sheet, work(compiled))
    return Labels(sheet.head, tuple(_label(sheet.head, one, at) for one in made for at in range(1, one.line.containers + 1)))


def _label(head: Head, one: Weighed, number: int) -> Label:
    return Label(one, number, one.line.containers, payload(head, one, number))
