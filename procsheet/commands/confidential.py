"""The confidential copy and its key: both are written, or neither."""

import re
import sys
from io import BytesIO
from pathlib import Path

from procsheet.commands.common import OK, STOPPED, Unusable, stem, write

TAG = re.compile(r"<style>.*?</style>|<[^>]*>", re.DOTALL)


def run(made, chosen) -> int:
    from procsheet.commands.sheet import ASKED
    from procsheet.sheet.coded import Leak, check, key_sheet, keys
    from procsheet.sheet.digest import digest
    from procsheet.sheet.enclosed import enclosed
    from procsheet.sheet.pdf import PdfNotPossible, to_pdf
    if chosen.output == "-":
        raise Unusable("a coded copy has a key beside it: give -o a file")
    target = Path(chosen.output) if chosen.output else Path(stem(chosen.file) + (".coded.html" if chosen.html else ".coded.pdf"))
    key = target.with_name(f"{target.stem}.key{target.suffix}")
    known = keys(made.method)
    asked = {name: getattr(chosen, name) for name in ASKED} | {"coded": True}
    try:
        html = page(made, chosen)
        told = key_sheet(made.method, known, digest(made))
        if target.suffix.lower() in (".html", ".htm"):
            copy, sheet = html.encode(), told.encode()
        else:
            copy, sheet = to_pdf(html), to_pdf(told, enclosed(made, asked))
            check(readable(copy), known)
    except Leak as leak:
        print(f"procsheet: {leak}; nothing was written", file=sys.stderr)
        return STOPPED
    except PdfNotPossible as problem:
        raise Unusable(f"{problem}; or write HTML: -o FILE.html") from None
    write(key, sheet)
    write(target, copy)
    print(f"{target}: {made.method.header.product}, coded; the key is {key}: keep it apart")
    return OK


def page(made, chosen) -> str:
    """The coded papers as one HTML document. Raises Leak where a name could still be read."""
    from procsheet.commands.sheet import laid_out
    from procsheet.sheet.coded import check, coded, keys
    from procsheet.sheet.html import to_html
    known = keys(made.method)
    html = to_html(coded(laid_out(made, chosen), known), paper=chosen.paper)
    check([TAG.sub(" ", html), *re.findall(r'="([^"]*)"', html.partition("<body>")[2])], known)
    return html


def readable(pdf: bytes) -> list[str]:
    """All that can be read in a PDF: its pages, its properties, its outline, the names of files inside."""
    from pypdf import PdfReader
    reader = PdfReader(BytesIO(pdf))
    meta = reader.trailer["/Root"].get("/Metadata")
    return [*(page.extract_text() for page in reader.pages), *(str(value) for value in (reader.metadata or {}).values()), *map(str, reader.attachments),
            meta.get_object().get_data().decode("utf-8", errors="replace") if meta is not None else "", str(reader.outline)]
