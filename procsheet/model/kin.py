"""What a name without data is taken for: another strength of a listed material, or the usual article of its kind."""

import re

from procsheet.model.library import Library
from procsheet.model.material import fold
from procsheet.source import source
from procsheet.syntax import tree
from procsheet.syntax.parse import parse_data

STRENGTH = re.compile(r"(.+) (\d+(?:\.\d+)?)%")
ENDINGS = {"scent": "fragrance", "perfume": "fragrance", "parfum": "fragrance", "fragrance": "fragrance", "flavor": "flavour", "aroma": "flavour",
           "extract": "plant extract"}
ITS_OWN = ("INCI", "CAS", "also called")
OF_ANY_STRENGTH = ("INCI", "CAS", "kind", "counts as", "affinity", "corrosive", "never with", "flash point", "add below", "shear")


def kin(name: str, library: Library) -> tuple[tree.Entry | None, str]:
    """The block a name borrows, and what it is taken for; (None, '') where nothing is near enough."""
    folded = fold(name)
    if (found := STRENGTH.fullmatch(folded)) and 0 < float(found[2]) <= 100:
        blocks = library.find(found[1])[0]
        return (_of_strength(blocks[0], found[2]), f"{blocks[0].text}, {found[2]}\u00a0% of it") if blocks else (None, "")
    usual = ENDINGS.get(folded.rsplit(" ", 1)[-1])
    blocks = library.find(usual)[0] if usual else []
    return (_of_another(blocks[0]), blocks[0].text) if blocks else (None, "")


def _of_another(block: tree.Entry) -> tree.Entry:
    return block._replace(lines=tuple(line for line in block.lines if line.key not in ITS_OWN))


def _of_strength(block: tree.Entry, percent: str) -> tree.Entry:
    """The block with what holds at any strength, as a solution of this one."""
    said = parse_data(source("", f"material solution\n    form solution\n    assay {percent} %\n")).tree.blocks[0].lines
    return block._replace(lines=(*(line for line in block.lines if line.key in OF_ANY_STRENGTH), *said))
