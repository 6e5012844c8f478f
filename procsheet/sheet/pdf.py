"""HTML to PDF: the only door to weasyprint."""

import logging


class PdfNotPossible(Exception):
    """The machine lacks what draws a PDF; the message is one line that says what to install."""


def to_pdf(html: str) -> bytes:
    """Return a tagged PDF (PDF/UA-1), the same bytes for the same text. Raises PdfNotPossible."""
    try:
        from weasyprint import HTML
    except (ImportError, OSError) as error:
        raise PdfNotPossible("PDF needs weasyprint and pango: pip install weasyprint; then apt-get install libpangoft2-1.0-0 "
                             "libharfbuzz-subset0, or brew install pango") from error
    logging.getLogger("weasyprint").setLevel(logging.ERROR)     # it warns of what only browsers know
    return HTML(string=html).write_pdf(pdf_variant="pdf/ua-1")
