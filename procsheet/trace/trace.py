"""The trace: each vessel state a batch passes through, and what every portion of material lives through on the way."""

from typing import Iterator, NamedTuple

from procsheet.graph.graph import Portion
from procsheet.intervals import Interval
from procsheet.model.material import Material
from procsheet.model.method import Row, Step
from procsheet.plan.plan import Plan

NONE, LOW, MEDIUM, HIGH = 0, 1, 2, 3    # classes of shear
SHEAR_WORDS = {NONE: "unstirred", LOW: "low shear", MEDIUM: "medium shear", HIGH: "high shear"}


class Shear(NamedTuple):
    """rank: from NONE to HIGH; tip: the fastest tip speed known [m/s], None where no figure is known; tools: what turns."""

    rank: Interval
    tip: Interval | None = None
    tools: tuple[str, ...] = ()

    @property
    def told(self) -> str:
        """`homogeniser at 12 m/s`, or the class in words."""
        words = " and ".join(self.tools) or SHEAR_WORDS[int(self.rank.high)]
        return f"{words} at {self.tip.high:.3g} m/s" if self.tip is not None and self.tools else words


class Facts(NamedTuple):
    """What is true of a vessel's content. outside: 'water', 'oil' or '' while nothing is emulsified; met: the moment the phases met."""

    emulsified: bool = False
    outside: str = ""
    met: int | None = None
    neutralised: bool = False
    activated: bool = False
    thick: bool = False


class Gate(NamedTuple):
    """A temperature that must show before the step starts. verdict: 'met', 'straddles', 'undecided' or 'missed'."""

    asked: Interval
    found: Interval
    verdict: str
    which: str                          # 'vessel' or 'added'
    kind: str                           # the clause
    vessel: str


class Moment(NamedTuple):
    """One step, or a part of one, at work on one vessel. Temperatures in K, times in s, masses in kg of the planned batch.

    start, end     before and after; throughout: the whole range in between
    arriving       temperature of what is added, None where nothing is
    duration       None where nothing is known of it
    cover          'open', 'covered', 'vacuum' or 'nitrogen'; pressure [Pa abs] under vacuum
    contents       row code -> kg, at the end; before: at the start
    entering       portions added here; poured: moments whose vessel was emptied into this one
    before_facts, facts   what is true at the start and at the end
    parents, next  the moments it goes on from, and the one that goes on from it
    """

    index: int
    node: int
    step: Step
    part: int
    parts: int
    vessel: str
    start: Interval
    end: Interval
    throughout: Interval
    arriving: Interval | None
    shear: Shear
    duration: Interval | None
    cover: str
    pressure: float | None
    before: dict[str, float]
    contents: dict[str, float]
    entering: tuple[Portion, ...]
    poured: tuple[int, ...]
    before_facts: Facts
    facts: Facts
    gates: tuple[Gate, ...]
    parents: tuple[int, ...]
    closed: bool = False

    @property
    def span(self):
        return self.step.span

    @property
    def peak(self) -> Interval:
        """The hottest of the step: not the whole range passed through, but what it reaches for certain to at most."""
        return max(self.start, self.end, key=lambda one: (one.low, one.high))

    @property
    def trough(self) -> Interval:
        """The coldest of the step."""
        return min(self.start, self.end, key=lambda one: (one.high, one.low))

    @property
    def mass(self) -> float:
        return sum(self.contents.values())


class Exposure(NamedTuple):
    """A portion of a row and the moment it goes in; what it lives through is read along the trace from there."""

    row: Row
    moment: Moment
    use: str

    @property
    def material(self) -> Material:
        return self.row.material

    def __str__(self) -> str:
        return self.row.name


class Trace(NamedTuple):
    """following: moment -> the moment that goes on from it, or None. hottest, shear_after: for each moment the index of the moment, from it
    onward, with the highest temperature and the highest shear; both are made in one pass from the end."""

    plan: Plan
    moments: tuple[Moment, ...]
    following: tuple[int | None, ...]
    hottest: tuple[int, ...]
    strongest: tuple[int, ...]
    exposures: tuple[Exposure, ...]
    affinities: dict[str, str]          # row code -> 'water', 'oil', 'silicone', 'alcohol', 'powder' or ''

    def path(self, start: Moment) -> Iterator[Moment]:
        """The moments from one onward, to the product."""
        index: int | None = start.index
        while index is not None:
            yield self.moments[index]
            index = self.following[index]

    def later(self, start: Moment) -> Iterator[Moment]:
        """The moments after one."""
        path = self.path(start)
        next(path)
        yield from path

    def hottest_from(self, start: Moment) -> Moment:
        return self.moments[self.hottest[start.index]]

    def strongest_from(self, start: Moment) -> Moment:
        return self.moments[self.strongest[start.index]]

    def share(self, moment: Moment, *affinities: str, before: bool = False) -> float:
        """The share by mass of these affinities in a vessel."""
        held = moment.before if before else moment.contents
        total = sum(held.values())
        return sum(mass for code, mass in held.items() if self.affinities.get(code) in affinities) / total if total else 0.0

    def holds(self, moment: Moment, *groups: str, before: bool = False) -> list[Row]:
        """The rows in a vessel whose material is of one of these groups."""
        rows = self.plan.graph.rows
        return [rows[code] for code in (moment.before if before else moment.contents) if code in rows and rows[code].material.is_a(*groups)]

    def history(self, end: Moment) -> list[Moment]:
        """Every moment that led to one, in order, itself last."""
        seen, stack = set(), [end.index]
        while stack:
            index = stack.pop()
            if index not in seen:
                seen.add(index)
                stack += self.moments[index].parents
        return [self.moments[index] for index in sorted(seen)]
