"""What a rule reads: the batch as it is written, planned and traced. It changes nothing."""

from functools import lru_cache
from typing import NamedTuple

from procsheet.findings import LEVELS, LOWER, Finding, Label
from procsheet.graph.graph import Graph
from procsheet.intervals import BEYOND, SMALL, STRADDLES, UNDECIDED, WITHIN, Interval, above
from procsheet.model import quantities
from procsheet.model.index import Index
from procsheet.model.library import Library
from procsheet.model.material import Figure, read_figure
from procsheet.model.method import Method, Row
from procsheet.plan.plan import Plan
from procsheet.syntax import tree
from procsheet.trace.facts import two_phases
from procsheet.trace.flash import Flash
from procsheet.trace.trace import Moment, Trace

MEMORY_KELVIN = 10.0                    # how far a remembered temperature may be off
MEMORY_FACTOR = 2.0                     # how far any other remembered figure may be off
TRACE = 0.1                             # of a vessel: less of a phase is a trace of it (common practice, no source)


class Batch(NamedTuple):
    """One course of a method, in one size, in one plant."""

    method: Method
    graph: Graph
    plan: Plan
    trace: Trace

    @property
    def type(self) -> str:
        return self.method.header.type

    @property
    def is_emulsion(self) -> bool:
        return "emulsion" in self.type

    @property
    def makes_water_in_oil(self) -> bool:
        """Whether water in oil is made on the way: the product itself, or the first stage of a multiple emulsion."""
        return self.is_water_in_oil or self.type == "multiple emulsion" and any(row.material.is_a("w/o emulsifier") for row in self.method.rows)

    @property
    def is_water_in_oil(self) -> bool:
        return self.type in ("water-in-oil emulsion", "water-in-silicone emulsion")

    # ---- what the product is made of

    def both_phases(self, held: dict[str, float]) -> bool:
        """Whether a vessel holds a water phase and an oil phase, stirred together or not."""
        rows = [(self.graph.rows[code], mass) for code, mass in held.items() if code in self.graph.rows]
        total = sum(mass for _, mass in rows)
        return total > 0 and two_phases(rows, self.trace.affinities, total, self.type)

    def of_batch(self, row: Row, *groups: str) -> float:
        """The share of a row in the batch [1]: of its material as supplied, or of what in it belongs to these groups."""
        kilograms = row.mass or row.guide or row.cap or 0
        return float(kilograms / self.method.mass) * (row.material.share(*groups) if groups else 1.0)

    def is_joined(self, held: dict[str, float]) -> bool:
        """Whether a vessel of a water-in-oil product holds both phases, and not a trace of one in the other."""
        total = sum(held.values())
        return bool(total) and min(self.trace.weight(held, "water"), self.trace.weight(held, "oil", "silicone")) >= TRACE * total

    def watery(self, held: dict[str, float]) -> float:
        """kg in a vessel that a gum swells in."""
        return self.trace.watery(held)

    def hotter(self, value: Interval, limit: float) -> str:
        """How a temperature lies to a limit [K] it must not pass. What a range passes it by within the plant's tolerance makes no finding."""
        verdict = above(value, limit)
        return WITHIN if verdict == STRADDLES and value.high - limit <= self.plan.plant.temperature_tolerance + SMALL else verdict

    def fire(self, moment: Moment, flash: Flash, margin: float) -> str | None:
        """The level at which vapour is told of: above the flash limit, or within a margin [K] of it in an open vessel.

        Nitrogen and an inerted vessel are fine; a lid takes away the margin and one level. What the room alone makes as warm is left to
        the caution beside the step: there is nothing to cool.
        """
        if moment.cover == "nitrogen" or moment.closed:
            return None
        lid, room, hot = moment.cover != "open", self.plan.plant.room.high, moment.allowed
        lit = judge("WARN" if lid else "STOP", self.hotter(hot, max(flash.limit, room)), flash.figure, hot.high - flash.limit)
        near = judge("WARN", self.hotter(hot, max(flash.limit - margin, room))) if not lid else None
        return min(filter(None, (lit, near)), key=LEVELS.index, default=None)

    # ---- thresholds: from the plant's own rule blocks, else from the shipped ones

    def thresholds(self, rule: str, words: str = "") -> list[tree.Entry]:
        """The `limit` lines of a rule whose words contain `words`: the plant's, which may leave plain words away, else the shipped ones."""
        shipped = _limits(self.method.library.rule(rule))
        asked = [line for line in shipped if words in _words(line)]
        nearest = next((block for block in (*self.plan.plant.rules, *self.method.library.own_rules()) if block.text == rule and _limits([block])), None)
        of_plant = _limits([nearest] if nearest is not None else [])
        plain = not any(line not in asked and _measure(line) == _measure(asked[0]) for line in shipped) if asked else False
        own = [line for line in of_plant if words in _words(line) or plain and not _words(line) and asked and _measure(line) == _measure(asked[0])]
        return own or asked

    def limit(self, rule: str, words: str = "", safest=min) -> float:
        """A threshold in SI; where sources disagree the safest of them. A temperature is absolute [K]."""
        if self._own_rules():
            return safest(figure.value.low for line in self.thresholds(rule, words) if (figure := read_figure(line)) is not None)
        return _shipped_limit(self.method.library.indexes[-1], rule, words, safest)

    def apart(self, rule: str, words: str = "", safest=min) -> float:
        """A threshold that is a difference of temperatures [K]."""
        if self._own_rules():
            return safest(_differences(self.thresholds(rule, words)))
        return _shipped_difference(self.method.library.indexes[-1], rule, words, safest)

    def _own_rules(self) -> bool:
        """Whether a plant or a house sets limits of its own."""
        return bool(self.plan.plant.rules or self.method.library.own_rules())

    def source(self, rule: str, words: str = "") -> str:
        """Where a rule's threshold comes from, in words."""
        lines = self.thresholds(rule, words)
        return "; ".join(dict.fromkeys(f"{line.evidence.source} ({line.evidence.grade})" if line.evidence and line.evidence.source else "from memory" for line in lines))


@lru_cache(maxsize=4096)
def _shipped_limit(index: Index, rule: str, words: str, safest) -> float:
    """A shipped threshold, read once."""
    return safest(figure.value.low for line in _shipped_lines(index, rule, words) if (figure := read_figure(line)) is not None)


@lru_cache(maxsize=1024)
def _shipped_difference(index: Index, rule: str, words: str, safest) -> float:
    return safest(_differences(_shipped_lines(index, rule, words)))


def _shipped_lines(index: Index, rule: str, words: str) -> list[tree.Entry]:
    return [line for line in _limits(Library((index,)).rule(rule)) if words in _words(line)]


def _differences(lines: list[tree.Entry]) -> list[float]:
    return [quantities.difference(word) for line in lines for word in line.words if isinstance(word, tree.Quantity)]


def _limits(blocks) -> list[tree.Entry]:
    return [line for block in blocks for line in block.lines if line.key == "limit"]


def _measure(line: tree.Entry) -> str:
    """What a limit is in: a temperature, a time, a share."""
    return next((quantities.dimension(word) for word in line.words if isinstance(word, tree.Quantity)), "")


def _words(line: tree.Entry) -> str:
    return " ".join(word.text for word in line.words if isinstance(word, tree.Word))


def judge(level: str, verdict: str, figure: Figure | None = None, over: float = 0.0, *, factor: float | None = None) -> str | None:
    """The level a rule speaks at, or None to stay silent.

    verdict  how the state lies to the limit: beyond it, straddling it (a written range), or undecided (something is missing)
    figure   the material's figure the limit rests on; one from memory grounds a STOP only when it is passed by more than its spread
    over     by how much a temperature passes it at most [K]; factor: how many times another figure passes it
    """
    if verdict == UNDECIDED:
        return "OPEN"
    if verdict not in (BEYOND, STRADDLES):
        return None
    spoken = LOWER[level] if verdict == STRADDLES else level
    if figure is not None and figure.from_memory and spoken == "STOP":
        far = factor > MEMORY_FACTOR if factor is not None else over > MEMORY_KELVIN
        return "STOP" if far else "WARN"
    return spoken


def gravest(findings) -> Finding | None:
    """The gravest of them, the earliest where several are as grave; None for none."""
    return min(filter(None, findings), key=lambda finding: LEVELS.index(finding.level), default=None)


LACKING = {"add below": "heat limit", "melts": "melting point"}


def not_checked(name: str, row: Row, lacking: str, unchecked: str) -> Finding:
    """The open point of a check that lacks a figure of a material. lacking: the property that would decide it."""
    return Finding("OPEN", name, f"the {LACKING.get(lacking, lacking)} of {row.name} is not known, so {unchecked} was not checked", Label(row.span),
                   fix=f"Write it in the data of {row.material.name}, from its own sheet: `{lacking} ...`", material=row.name)
