"""Where a word stands: the text of a file, and a span in it."""

from typing import NamedTuple


class Span(NamedTuple):
    """A stretch of one line. Lines and columns count from 1; `end` is the column after the last character."""

    file: str
    line: int
    column: int
    end: int


NOWHERE = Span("", 0, 0, 0)


class Source(NamedTuple):
    """A file as it was read: its name as the user gave it, and its text with LF line ends and no byte-order mark.

    first: the number of its first line, where it is a part of a file
    """

    name: str
    text: str
    first: int = 1

    @property
    def lines(self) -> list[str]:
        return self.text.split("\n")


def source(name: str, text: str) -> Source:
    """Return a Source with line ends and byte-order mark made plain."""
    return Source(name, text.removeprefix("\ufeff").replace("\r\n", "\n").replace("\r", "\n"))


def covering(first: Span, last: Span) -> Span:
    """The span from the start of one to the end of the other; on two lines, what stands on the first."""
    if first.line != last.line or first.file != last.file:
        return first
    return Span(first.file, first.line, min(first.column, last.column), max(first.end, last.end))
