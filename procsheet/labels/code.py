"""The QR code of a label: what a scanner reads, and how it is drawn. The only door to segno."""

import json
from fractions import Fraction

from procsheet import units
from procsheet.labels.weighed import Weighed
from procsheet.sheet.model import Head

MOST = 250          # characters: with more the squares are too small on paper for a common reader (common practice, no source)
QUIET = 4           # squares of white around it (ISO/IEC 18004)


def payload(head: Head, one: Weighed, number: int) -> str:
    """One line of JSON in plain ASCII: product, batch, formula row, weighing line, container, target in kg or L, content digest.

    `use` stands only where the amount is no plain target: a make-up is about that much, a corrector at most. null is a figure to fill in.
    Raises ValueError for more than MOST characters.
    """
    kind = "L" if one.line.row.measured == "volume" else "kg"
    said = {"code": head.code, "rev": head.revision, "batch": head.batch, "row": one.line.row.code, "line": one.line.number, "n": number, "of": one.line.containers,
            kind: _amount(one, kind)} | ({"use": one.line.use} if one.line.use else {}) | {"content": head.digest.replace(" ", "")}
    text = json.dumps(said, separators=(",", ":"))
    if len(text) > MOST:
        raise ValueError(f"the code of a label would hold {len(text)} characters, {MOST} at most; give a shorter batch number or product code")
    return text


def _amount(one: Weighed, kind: str) -> float | None:
    """kg or L, of the figure that is printed."""
    if one.target is None:
        return None
    return float(Fraction(one.target) * units.lookup(one.line.unit).factor / units.lookup(kind).factor)


def drawn(text: str) -> str:
    """The code as SVG. Level M: it is still read with a smear or a crease over a small part of it."""
    import segno
    return segno.make(text, error="m", micro=False, boost_error=False).svg_inline(border=QUIET, omitsize=True, title="Code of this label", svgclass="qr", lineclass=None)
