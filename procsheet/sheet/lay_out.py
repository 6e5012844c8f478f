"""A compiled method to its sheet: the pages, in reading order."""

from procsheet.sheet.digest import digest
from procsheet.sheet.lay_out_before import lay_out_before
from procsheet.sheet.lay_out_checks import lay_out_checks, lay_out_deviations
from procsheet.sheet.lay_out_front import lay_out_front
from procsheet.sheet.lay_out_making import lay_out_making
from procsheet.sheet.lay_out_weighing import lay_out_weighing
from procsheet.sheet.model import Head, Sheet
from procsheet.sheet.papers import Papers
from procsheet.sheet.work import Work, work

PAGES = {"front": lay_out_front, "before": lay_out_before, "weighing": lay_out_weighing, "making": lay_out_making, "checks": lay_out_checks,
         "deviations": lay_out_deviations}


def lay_out(compiled, papers: Papers = Papers()) -> Sheet:
    """Return the sheet of a compiled method (pipeline.Compiled). What the papers do not give is a ruled blank.

    Raises ValueError where the method could not be followed to its end: there is nothing to print then.
    """
    read = work(compiled)
    return Sheet(_head(read, papers), **{name: page(read) for name, page in PAGES.items() if name in papers.sections})


def _head(read: Work, papers: Papers) -> Head:
    header = read.method.header
    content = papers.digest or digest(read.compiled)
    return Head(header.product, header.code, header.revision, papers.number, papers.issue, papers.issued, content, read.compiled.method.draft)
