"""Print the labels of the containers that a batch is weighed into."""

import sys
from pathlib import Path

from procsheet.commands.check import report
from procsheet.commands.common import OK, STOPPED, Unusable, compiled, stem, write
from procsheet.commands.sheet import undecided


def run(chosen) -> int:
    made = printable(chosen)
    if made is None:
        return STOPPED
    html = page(made, chosen)
    if chosen.output == "-":
        sys.stdout.write(html)
        return OK
    target = Path(chosen.output or f"{stem(chosen.file)}-labels.pdf")
    ending = target.suffix.lower()
    if ending not in (".pdf", ".html", ".htm"):
        raise Unusable(f"{target} ends in neither .pdf nor .html")
    written = _pdf(html, target) if ending == ".pdf" else _html(html, target)
    print(f"{written}: {sum(one.containers for one in made.batch.plan.lines)} labels{', draft' if made.method.draft else ''}")
    return OK


def printable(chosen):
    """The method compiled, where papers may be made of it as it was asked for; else None, and it is said why."""
    made = compiled(chosen.file, chosen)
    open_ones = "" if made.stops else undecided(made) if made.batch else ""
    if made.stops or open_ones:
        print(report(made, False), file=sys.stderr)
        if open_ones:
            print(f"procsheet: say which with --choose: {open_ones}", file=sys.stderr)
        return None
    if made.batch is None:
        raise Unusable(f"{chosen.file} could not be followed to its end; procsheet check {chosen.file} says why")
    return made


def page(made, chosen) -> str:
    """The labels as one HTML document."""
    from procsheet.labels.label import labels
    from procsheet.labels.page import to_html
    try:
        return to_html(labels(made, chosen.number), paper=chosen.paper)
    except ValueError as problem:
        raise Unusable(str(problem)) from None


def _html(html: str, target: Path) -> Path:
    write(target, html)
    return target


def _pdf(html: str, target: Path) -> Path:
    """The PDF, or where the machine cannot draw one, the HTML beside it."""
    from procsheet.sheet.pdf import PdfNotPossible, to_pdf
    try:
        write(target, to_pdf(html))
        return target
    except PdfNotPossible as problem:
        print(f"procsheet: {problem}; wrote HTML instead", file=sys.stderr)
        return _html(html, target.with_suffix(".html"))
