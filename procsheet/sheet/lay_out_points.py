"""What the check of the method found, on the front page: exceptions, what to know, what was not checked, hints, in this order."""

from collections.abc import Iterator

from procsheet.findings import Finding
from procsheet.sheet.model import Box, Point
from procsheet.sheet.pieces import line, spoken
from procsheet.sheet.work import on_paper, told

FOR_THE_WRITER = ("qs-reading", "papers-missing")        # how the method was read: the sheet itself shows it
AGREED = Box("agreed for the plant by, date", second=True)


def lay_out_points(compiled) -> tuple[Point, ...]:
    """A finding that stops the method has no place on paper: no papers are made then."""
    found = [one for finding in compiled.findings for one in (finding, *finding.folded)]
    return (*_signed(compiled), *_known(found, compiled), *_open(found, compiled), *_hints(found, compiled))


def _signed(compiled) -> Iterator[Point]:
    for one in compiled.signed:
        yield Point("Exception", told(one.finding, compiled), f"Accepted by {one.by}: “{one.reason}”", AGREED)


def _known(found: list[Finding], compiled) -> Iterator[Point]:
    for finding in found:
        if finding.level == "WARN":
            where = line(f"Step {finding.step}." if finding.step else "", f"Only {spoken(' or '.join(finding.courses))}." if finding.courses else "")
            yield Point("To know", told(finding, compiled), on_paper(line(where, finding.why), compiled))


def _open(found: list[Finding], compiled) -> Iterator[Point]:
    """What lacked a figure, one point a check."""
    by_name: dict[str, list[str]] = {}
    for finding in found:
        if finding.level == "OPEN":
            by_name.setdefault(finding.name, []).append(told(finding, compiled))
    yield from (Point("Not checked", first, " ".join(rest)) for first, *rest in by_name.values())


def _hints(found: list[Finding], compiled) -> Iterator[Point]:
    """Hints that belong to no step, in one point; the others stand beside their step."""
    titles = [told(finding, compiled) for finding in found if finding.level == "NOTE" and not finding.step and finding.name not in FOR_THE_WRITER]
    yield from (Point("Note", first, " ".join(rest)) for first, *rest in ([titles] if titles else []))
