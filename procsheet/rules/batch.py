"""What a rule reads: the batch as it is written, planned and traced. It changes nothing."""

from typing import NamedTuple

from procsheet.findings import LOWER
from procsheet.graph.graph import Graph
from procsheet.intervals import BEYOND, STRADDLES, UNDECIDED
from procsheet.model import quantities
from procsheet.model.material import Figure, read_figure
from procsheet.model.method import Method, Row
from procsheet.plan.plan import Plan
from procsheet.syntax import tree
from procsheet.trace.trace import Trace

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
    def is_water_in_oil(self) -> bool:
        return self.type in ("water-in-oil emulsion", "water-in-silicone emulsion")

    # ---- what the product is made of

    def of_batch(self, row: Row, *groups: str) -> float:
        """The share of a row in the batch [1]: of its material as supplied, or of what in it belongs to these groups."""
        kilograms = row.mass or row.guide or row.cap or 0
        return float(kilograms / self.method.mass) * (row.material.share(*groups) if groups else 1.0)

    def is_joined(self, held: dict[str, float]) -> bool:
        """Whether a vessel of a water-in-oil product holds both phases, and not a trace of one in the other."""
        total = sum(held.values())
        return bool(total) and min(self.trace.weight(held, "water"), self.trace.weight(held, "oil", "silicone")) >= TRACE * total

    # ---- thresholds: from the plant's own rule blocks, else from the shipped ones

    def thresholds(self, rule: str, words: str = "") -> list[tree.Entry]:
        """The `limit` lines of a rule whose words contain `words`."""
        for blocks in ([block for block in self.plan.plant.rules if block.text == rule], self.method.library.rule(rule)):
            lines = [line for block in blocks for line in block.lines if line.key == "limit" and words in _words(line)]
            if lines:
                return lines
        return []

    def limit(self, rule: str, words: str = "", safest=min) -> float:
        """A threshold in SI; where sources disagree the safest of them. A temperature is absolute [K]."""
        return safest(figure.value.low for line in self.thresholds(rule, words) if (figure := read_figure(line)) is not None)

    def apart(self, rule: str, words: str = "", safest=min) -> float:
        """A threshold that is a difference of temperatures [K]."""
        figures = (word for line in self.thresholds(rule, words) for word in line.words if isinstance(word, tree.Quantity))
        return safest(quantities.difference(figure) for figure in figures)

    def source(self, rule: str, words: str = "") -> str:
        """Where a rule's threshold comes from, in words."""
        lines = self.thresholds(rule, words)
        return "; ".join(dict.fromkeys(f"{line.evidence.source} ({line.evidence.grade})" if line.evidence and line.evidence.source else "from memory" for line in lines))


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
