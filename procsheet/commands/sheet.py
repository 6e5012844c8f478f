"""Print the work instruction and record."""

import sys
from pathlib import Path

from procsheet.commands.check import report, summary
from procsheet.commands.common import OK, STOPPED, Unusable, compiled, stem, write


def run(chosen) -> int:
    from procsheet.ready import missing
    if chosen.clauses and chosen.output == "-":
        raise Unusable("--clauses and -o - both write to standard output; give -o a file")
    made = compiled(chosen.file, chosen)
    made = made._replace(findings=(*missing(made.method, chosen.issue), *made.findings))
    open_ones = undecided(made)
    if made.stops or open_ones:
        print(report(made, False), file=sys.stderr)
        if open_ones and not made.stops:
            print(f"procsheet: say which with --choose: {open_ones}", file=sys.stderr)
        return STOPPED
    if chosen.clauses and not chosen.output and not chosen.html:
        return _clauses(made, chosen)
    if chosen.coded:
        from procsheet.commands.confidential import run as coded
        return coded(made, chosen)
    html = page(made, chosen)
    if chosen.output == "-":
        sys.stdout.write(html)
        return OK
    target = Path(chosen.output) if chosen.output else Path(stem(chosen.file) + (".html" if chosen.html else ".pdf"))
    if target.suffix.lower() in (".html", ".htm"):
        write(target, html)
        return _written(made, target, chosen)
    return _pdf(made, html, target, chosen)


def undecided(made) -> str:
    """Options that whoever makes the papers has not chosen yet."""
    from procsheet.graph.courses import choices
    from procsheet.model.material import fold
    open_ones = [fork for fork in choices(made.method) if fork.by == "papers" and fork.key[0] == "block" and len({batch.graph.course.taken.get(fork.key) for batch in made.batches}) > 1]
    return "; ".join(" or ".join(fold(label) for label in fork.labels) for fork in open_ones)


def page(made, chosen) -> str:
    """The papers as one HTML document."""
    from procsheet.sheet.html import to_html
    return to_html(laid_out(made, chosen), paper=chosen.paper)


def laid_out(made, chosen):
    """The papers as a value."""
    from procsheet.sheet.lay_out import lay_out
    from procsheet.sheet.papers import Papers
    return lay_out(made, Papers(number=chosen.number, issue=chosen.issue, issued=chosen.issued))


ASKED = ("batch", "units", "plant", "choose", "without", "vessel", "paper", "number", "issue", "issued")


def _pdf(made, html: str, target: Path, chosen) -> int:
    from procsheet.sheet.enclosed import enclosed
    from procsheet.sheet.pdf import PdfNotPossible, to_pdf
    if sys.stderr.isatty():
        print("setting the pages ...", file=sys.stderr)
    try:
        write(target, to_pdf(html, enclosed(made, {name: getattr(chosen, name) for name in ASKED})))
        return _written(made, target, chosen)
    except PdfNotPossible as problem:
        instead = target.with_suffix(".html")
        write(instead, html)
        print(f"procsheet: {problem}; wrote {instead} instead", file=sys.stderr)
        return _clauses(made, chosen) if chosen.clauses else OK


def _written(made, target: Path, chosen) -> int:
    plan = made.batch.plan
    size = f"{float(plan.mass):.4g} kg" if plan.mass >= 1 else f"{float(plan.mass) * 1000:.4g} g"
    print(f"{target}: {made.method.header.product}, {size}{', draft' if made.method.draft else ''}")
    print(summary(made), file=sys.stderr)
    return _clauses(made, chosen, target) if chosen.clauses else OK


def _clauses(made, chosen, target: Path | None = None) -> int:
    """Where each element that is asked of the papers stands; in a PDF that was written, with its pages."""
    from procsheet.sheet.clause_list import in_lines, pages_of
    pages = pages_of(target.read_bytes()) if target is not None and target.suffix.lower() == ".pdf" else []
    print("\n".join(in_lines(laid_out(made, chosen), pages)))
    return OK
