"""How much of the front page's lists leaves it one Letter page; the rest has a page of its own. Heights in mm, widths in letters."""

from itertools import accumulate
from math import ceil

from procsheet.sheet.model import Front, Head

ONE_LINE = 30       # letters of a product's name in the largest type
SHOWN = 3           # findings on the front page at most
ROOM = 114          # for vessels, cautions and findings, below a title of one line, two lines about it, and facts of one line
BOLD = 1.08     # as wide as other letters
LETTERS = 104   # of all facts, beside each other
HEADING, NOTE = 10, 6       # `2 more on the findings page`


def cautions_here(page: Front, head: Head) -> int:
    """How many cautions stand on the front page: two a row, as many rows as leave room for the heading of what was found."""
    used = accumulate(_caution_row(page, n) for n in range(0, len(page.cautions), 2))
    left = _room(page, head) - HEADING - (NOTE if page.points else 0)
    return min(2 * sum(height <= left for height in used), len(page.cautions))


def points_here(page: Front, head: Head) -> int:
    """How many findings follow them."""
    left = _room(page, head) - HEADING - sum(_caution_row(page, n) for n in range(0, cautions_here(page, head), 2))
    heights = [*accumulate(max(13.2, 3 + 5 * ceil((BOLD * len(point.fact) + len(point.more)) / 61)) for point in page.points)]
    if len(heights) <= SHOWN and (not heights or heights[-1] <= left):
        return len(heights)
    return sum(used <= left - NOTE for used in heights[:SHOWN])


def _room(page: Front, head: Head) -> float:
    title = _name(head.product) + 4.9 * max(sum(lines(line, 64) for line in page.about) - 2, 0)
    facts = 4.7 * (max((lines(fact.text, LETTERS // len(page.facts)) for fact in page.facts), default=1) - 1)
    return ROOM - title - facts - sum(max(10.5, 5 * lines(each.vessel, 9), 5 * lines(each.must_be, 42)) for each in page.equipment)


def _name(product: str) -> float:
    """What the name takes beyond one line of the largest type."""
    return 12.4 * (lines(product, 20) - 1) if len(product) <= ONE_LINE else 9.3 * lines(product, 27) - 12.4


def _caution_row(page: Front, first: int) -> float:
    return max(9.7, max(4.6 * lines(f"{each.danger} {each.advice}", 48) + 0.6 for each in page.cautions[first:first + 2]))


def lines(string: str, letters: int) -> int:
    return max(ceil(len(string) / letters), 1)
