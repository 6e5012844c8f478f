"""The trace: each vessel state a batch passes through, and what every portion of material lives through on the way."""

from math import log
from typing import Iterator, NamedTuple

from procsheet.graph.graph import Portion
from procsheet.intervals import BEYOND, SMALL, STRADDLES, UNDECIDED, WITHIN, Interval, above
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
    def is_high(self) -> bool:
        """A high-shear tool, for certain."""
        return self.rank.low >= HIGH

    def beyond(self, tip: float) -> str:
        """How it lies to a tip speed [m/s] that must not be passed: a high-shear tool passes any; a tool that is not known is undecided."""
        if self.is_high:
            return BEYOND
        if self.rank.high >= HIGH:
            return UNDECIDED if self.rank.missing else STRADDLES
        return above(self.tip, tip) if self.tip is not None else WITHIN

    @property
    def told(self) -> str:
        """`homogeniser at 12 m/s`, or the class in words."""
        words = " and ".join(self.tools) or SHEAR_WORDS[int(self.rank.high)]
        return f"{words} at {self.tip.high:.3g} m/s" if self.tip is not None and self.tools else words


class Running(NamedTuple):
    """A tool that turns: its name, '' for none, and as far as known its speed [1/s] and tip speed [m/s]."""

    tool: str = ""
    speed: Interval | None = None
    tip: Interval | None = None


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
    jacket         how long the jacket takes for the whole step, all its parts together [s]; None where it heats nothing or is not known
    turning        the tools of the step, and the stirrer that runs on beside them
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
    turning: tuple[Running, ...] = ()
    jacket: Interval | None = None

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
    def allowed(self) -> Interval:
        """The hottest that its own words allow: `below 60 °C` while the batch cools is done as soon as 60 °C shows."""
        met = [gate for gate in self.gates if gate.kind in ("below", "at most") and gate.which == "vessel" and gate.verdict == "met"]
        bounds = [gate.asked.high for gate in met if gate.found.high >= gate.asked.high]
        return max(Interval(min(bounds), min(bounds)) if bounds else self.start, self.peak, key=lambda one: (one.low, one.high))

    @property
    def mass(self) -> float:
        return sum(self.contents.values())

    @property
    def added(self) -> dict[str, float]:
        """Row code -> kg that this step brings into its vessel."""
        return {code: mass - self.before.get(code, 0.0) for code, mass in self.contents.items() if code not in self.before or mass > self.before[code]}


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
        return self.weight(held, *affinities) / total if total else 0.0

    def weight(self, held: dict[str, float], *affinities: str) -> float:
        """kg of these affinities in what a vessel holds, or in what a step adds."""
        return sum(mass for code, mass in held.items() if self.affinities.get(code) in affinities)

    def watery(self, held: dict[str, float]) -> float:
        """kg in a vessel that a gum swells in: water and what is mostly water, not the liquids and powders it is wetted or mixed in."""
        rows = self.plan.graph.rows
        return sum(mass for code, mass in held.items() if code in rows and self.affinities.get(code) == "water" and _is_watery(rows[code].material))

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

    # ---- heat along the way

    def cooled_to(self, start: Moment, limit: float) -> Moment | None:
        """The first moment after one that leaves its vessel at a temperature [K] or below, for certain."""
        return next((moment for moment in self.later(start) if moment.end.high <= limit + SMALL), None)

    def warmed_by(self, moment: Moment) -> Moment:
        """The step that last set the temperature of what a vessel holds; the moment itself where none did."""
        return next((one for one in reversed(self.history(moment)) if one.step.verb in ("heat", "cool", "melt") or one.step.has("keeping")), moment)

    def time_above(self, moment: Moment, limit: float) -> float | None:
        """Seconds that a step is hotter than a temperature [K], at least; None where nothing is known of its length."""
        low, high = sorted((moment.start.low, moment.end.low))
        if high <= limit + SMALL:
            return 0.0
        if moment.duration is None:
            return None
        if low >= limit or high - low < SMALL:
            return moment.duration.low
        return moment.duration.low * self._part_above(moment, limit)

    def _part_above(self, moment: Moment, limit: float) -> float:
        """Of the way from start to end, the part of the time above a temperature: by the jacket where it is known, else evenly."""
        start, end = moment.start.low, moment.end.low
        jacket = self.plan.plant.hot if end > start else self.plan.plant.cold
        hot, cold = max(start, end), min(start, end)
        if jacket is None or cold <= jacket <= hot:
            return (hot - limit) / (hot - cold)
        return log((jacket - limit) / (jacket - hot)) / log((jacket - cold) / (jacket - hot))

    def leaves(self, start: Moment) -> Moment:
        """Where what a moment holds goes into the pack, or the last that is done with it."""
        path = list(self.path(start))
        return next((moment for moment in path if moment.step.verb in ("fill", "pour", "discharge")), path[-1])


def _is_watery(material: Material) -> bool:
    return material.is_a("water", "surfactant", "extract") or material.text("form") in ("solution", "dispersion", "gel") or not material.known
