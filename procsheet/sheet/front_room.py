"""How much of the front page's lists leaves it one Letter page; the rest has a page of its own. Heights in mm, widths in letters."""

from itertools import accumulate
from math import ceil

from procsheet.sheet.model import Front, Head

SHOWN = 3           # findings on the front page at most
ROOM = 109          # for vessels, cautions and findings, below a title of one line, two lines about it, and facts of one line
HEADING = 10


def cautions_here(page: Front, head: Head) -> int:
    """How many cautions stand on the front page: two a row, as many rows as leave room for the heading of what was found."""
    used = accumulate(_caution_row(page, n) for n in range(0, len(page.cautions), 2))
    return min(2 * sum(height <= _room(page, head) - HEADING for height in used), len(page.cautions))


def points_here(page: Front, head: Head) -> int:
    """How many findings follow them."""
    left = _room(page, head) - sum(_caution_row(page, n) for n in range(0, cautions_here(page, head), 2))
    heights = accumulate(3 + 5 * lines(f"{point.fact} {point.more}", 62) for point in page.points[:SHOWN])
    return sum(used <= left for used in heights)


def _room(page: Front, head: Head) -> float:
    title = 9 * lines(head.product, 26) - 9 + 4.9 * max(sum(lines(line, 62) for line in page.about) - 2, 0)
    facts = 4.7 * (max((lines(fact.text, 26) for fact in page.facts), default=1) - 1)
    return ROOM - title - facts - sum(max(10.5, 5 * lines(each.vessel, 9), 5 * lines(each.must_be, 50)) for each in page.equipment)


def _caution_row(page: Front, first: int) -> float:
    return max(9.7, max(4.6 * lines(f"{each.danger} {each.advice}", 48) + 0.6 for each in page.cautions[first:first + 2]))


def lines(string: str, letters: int) -> int:
    return max(ceil(len(string) / letters), 1)
