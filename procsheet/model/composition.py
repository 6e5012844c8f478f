"""What a solution or a blend is made of: its `composed of` lines, read as mass shares of the named parts."""

import re
from fractions import Fraction

from procsheet.syntax import tree

PART = re.compile(r"(?P<name>\S.*?)\s+(?P<low>\d+(?:\.\d+)?)(?:\s*-\s*(?P<high>\d+(?:\.\d+)?))?\s*%")
BETWEEN = re.compile(r",\s+(?=[^,])")                               # the comma of `1,2-Hexanediol` has no blank behind it


def composition(lines: tuple[tree.Entry, ...]) -> tuple[tuple[str, Fraction], ...]:
    """Name and mass share [1] of each part, in the order written; the middle of a range; () where a part has no figure."""
    found = [PART.fullmatch(part.strip()) for line in lines for part in BETWEEN.split(line.text) if part.strip()]
    if not all(found):
        return ()
    return tuple((one["name"], (Fraction(one["low"]) + Fraction(one["high"] or one["low"])) / 200) for one in found if one)
