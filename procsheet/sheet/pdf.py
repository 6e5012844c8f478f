"""HTML to PDF: the only door to weasyprint."""

import logging
from collections.abc import Iterable
from datetime import datetime, timezone

from procsheet.sheet.enclosed import Enclosed

LONG_AGO = datetime(2000, 1, 1, tzinfo=timezone.utc)        # the same for all: the papers say themselves when they were issued


class PdfNotPossible(Exception):
    """The machine lacks what draws a PDF; the message is one line that says what to install."""


def to_pdf(html: str, along: Iterable[Enclosed] = ()) -> bytes:
    """Return a tagged PDF/A-3u with files inside, the same bytes for the same input. Raises PdfNotPossible."""
    try:
        from weasyprint import HTML, Attachment
    except (ImportError, OSError) as error:
        raise PdfNotPossible("PDF needs weasyprint and pango: pip install weasyprint; then apt-get install libpangoft2-1.0-0 "
                             "libharfbuzz-subset0, or brew install pango") from error
    logging.getLogger("weasyprint").setLevel(logging.ERROR)     # it warns of what only browsers know
    inside = [Attachment(file_obj=_stream(one.content), name=one.name, description=one.what, created=LONG_AGO, modified=LONG_AGO, relationship=one.relation) for one in along]
    return HTML(string=html).write_pdf(pdf_variant="pdf/a-3u", pdf_tags=True, attachments=inside)


def _stream(content: bytes):
    from io import BytesIO
    return BytesIO(content)
