"""A material and what is known of it, each figure with its source."""

import re
from fractions import Fraction
from functools import lru_cache
from typing import NamedTuple

from procsheet import units
from procsheet.intervals import Interval
from procsheet.model import quantities
from procsheet.source import NOWHERE, Span
from procsheet.syntax import tree

# how else a word is spelt -> how it is compared
SPELLINGS = {"sulph": "sulf", "aluminium": "aluminum", "colour": "color", "odour": "odor", "flavour": "flavor", "fibre": "fiber", "liquorice": "licorice",
             "glycerine": "glycerin", "dimeticone": "dimethicone", "simeticone": "simethicone",
             "ised": "ized", "iser": "izer", "ising": "izing", "isation": "ization", "lysed": "lyzed"}
SPELT = re.compile("|".join(SPELLINGS))
BESIDE = str.maketrans(dict.fromkeys("()[]/;&+*·", " ") | dict.fromkeys("\u2010\u2011\u2012\u2013\u2014\u2212", "-") | {"%": "% "})
JOINING = re.compile(r"(?<!\d)[-,]|[-,](?!\d)")                     # says nothing; that of `1,2-diol` and of `C12-15` does
FULL_STOP = re.compile(r"\.(?!\d)")
STRENGTH = re.compile(r"(?<![\w.,-])(\d[\d.]*(?:-\d[\d.]*)?)%(?: (?:w w|active|matter|aqueous|aq)\b)*")
DISSOLVED = re.compile(r" (?:solution|soln|in water)\b")
BOOKS = re.compile(r"(?: (?:bpc?|ep|ph ?eur|usp|nf|jp|fcc))+$")
BY_THE_BOOK = {"emulsifying wax", "alcohol", "ethanol", "ethyl alcohol", "acetic acid"}     # each pharmacopoeia means another article

HIGHEST_IS_SAFE = {"melts", "sets", "hydrates for", "never below", "strainer"}      # elsewhere the lowest figure is the cautious one
SOLID = {"powder", "crystals", "flakes", "solid", "pellets", "granules"}            # forms whose assay is purity or a hydrate's salt, not the strength of a solution


class Figure(NamedTuple):
    """A known figure in SI, with its source and how good that is."""

    name: str
    value: Interval
    written: str
    source: str
    grade: str
    span: Span = NOWHERE
    at: float | None = None             # the temperature it holds at [K]
    words: tuple[str, ...] = ()         # what stood around the figure

    @property
    def from_memory(self) -> bool:
        return self.grade == "memory"

    @property
    def told(self) -> str:
        """`73 °C (handbook: table 4)`"""
        return f"{self.written} (from memory)" if self.from_memory else f"{self.written} ({self.source}, {self.grade})"


class Material(NamedTuple):
    """A material as the checks see it. `known` is False for a name no data was found for: it goes on as a blank one."""

    name: str
    names: tuple[str, ...] = ()
    kind: str = ""
    groups: frozenset[str] = frozenset()
    lines: dict[str, tuple[tree.Entry, ...]] = {}
    defaults: dict[str, tuple[tree.Entry, ...]] = {}    # of its kind
    known: bool = False
    span: Span = NOWHERE
    parts: tuple[tuple["Material", Fraction], ...] = ()  # what it is made from, as mass shares
    decisive: tuple[str, ...] = ()

    def is_a(self, *groups: str) -> bool:
        """Whether it is of one of these kinds, or counts as one of these groups."""
        return self.kind in groups or not self.groups.isdisjoint(groups)

    def entries(self, name: str) -> tuple[tree.Entry, ...]:
        return self.lines.get(name) or self.defaults.get(name) or ()

    def has(self, name: str) -> bool:
        """Whether anything is known of it. `?` says that nothing is."""
        return any(not entry.is_open for entry in self.entries(name))

    def text(self, name: str) -> str:
        """The words of a property, '' where nothing is said."""
        found = self.entries(name)
        return (found[0].text or " ".join(shown(word) for word in found[0].words)) if found else ""

    def words(self, name: str) -> tuple[str, ...]:
        """The words of a property that lists several, in lower case."""
        return tuple(" ".join(shown(word) for word in group).lower() for entry in self.entries(name) for group in (entry.groups or ((tree.Text(entry.text, NOWHERE),),)))

    def figures(self, name: str) -> tuple[Figure, ...]:
        return tuple(figure for entry in self.entries(name) if (figure := read_figure(entry)) is not None)

    def figure(self, name: str) -> Figure | None:
        """The cautious one of the figures known, or None. Sourced figures come before remembered ones."""
        known = self.figures(name)
        sourced = [figure for figure in known if not figure.from_memory] or list(known)
        if not sourced:
            return None
        return max(sourced, key=lambda figure: figure.value.high) if name in HIGHEST_IS_SAFE else min(sourced, key=lambda figure: figure.value.low)

    @property
    def density(self) -> Fraction | None:
        """kg/m³, exactly as written, or None."""
        found = self.entries("density")
        figure = next((word for entry in found for word in entry.words if isinstance(word, tree.Quantity)), None)
        return quantities.middle(figure) if figure is not None else None

    @property
    def assay(self) -> Fraction | None:
        """The strength as written [1]; None where nothing is said, or what is said cannot be a strength."""
        found = self.entries("assay")
        figure = next((word for entry in found for word in entry.words if isinstance(word, tree.Quantity)), None)
        value = quantities.middle(figure) if figure is not None else None
        return value if value is not None and 0 < value <= 1 else None

    def share(self, *groups: str) -> float:
        """How much of it is of these groups [1]: all of it, a solution's strength, or what its parts bring."""
        if self.is_a(*groups):
            return float(self.assay) if self.assay is not None and self.text("form") not in SOLID else 1.0
        return sum(float(share) * part.share(*groups) for part, share in self.parts)

    def heat_capacity(self) -> tuple[float, bool]:
        """J/(kg K), and whether it is assumed."""
        figure = self.figure("heat capacity")
        if figure is not None:
            return (figure.value.low + figure.value.high) / 2, not self.lines.get("heat capacity")
        return 3000.0, True


def shown(word) -> str:
    return quantities.shown(word) if isinstance(word, tree.Quantity) else word.text


def read_figure(entry: tree.Entry) -> Figure | None:
    """The figure of a property's line; a bound before it counts: `at most 5 m/s`."""
    value, written, bound, at = None, "", "", None
    others = []
    for word in entry.words:
        if isinstance(word, tree.Quantity) and value is None and word.unit != "ratio":
            ends = quantities.interval(word._replace(bound=bound))
            value, written = ends, quantities.shown(word)
        elif isinstance(word, tree.Quantity) and word.unit != "ratio" and units.dimension(word.unit) == "temperature" and at is None:
            at = float(quantities.middle(word) or 0) or None
        elif isinstance(word, tree.Word) and word.text in ("below", "above", "at most", "at least") and value is None:
            bound = word.text
        else:
            others.append(shown(word))
    if value is None:
        return None
    evidence = entry.evidence or tree.Evidence("", "memory")
    return Figure(entry.key, value, written, evidence.source, evidence.grade, entry.span, at, tuple(others))


def fold(name: str) -> str:
    """What a name is compared by: its words in their order, however they are spelt, joined or set apart, and its strength last.

    `Cetearyl Alcohol (and) Ceteareth-20` is `cetearyl alcohol, ceteareth 20`; `10% NaOH` is `NaOH (10 % solution)`; `talc USP` is `talc`.
    Every word counts: `glyceryl stearate SE` is not `glyceryl stearate`.
    """
    spelt = map(_spelt, JOINING.sub(" ", name.lower().translate(BESIDE)).split())
    words = " ".join(word for word in spelt if word and word != "and")
    if "%" not in words and "cent" not in words:
        return _by_no_book(words)
    last = _strength_last(words.replace(" per cent", "%").replace(" percent", "%").replace(" %", "%"))
    return last if last == name else fold(last)


@lru_cache(maxsize=None)
def _spelt(word: str) -> str:
    plain = SPELT.sub(lambda found: SPELLINGS[found[0]], FULL_STOP.sub("", word))
    return plain if plain == word else _spelt(plain)


def _by_no_book(name: str) -> str:
    plain = BOOKS.sub("", name)
    return name if plain in BY_THE_BOOK else plain


def _strength_last(name: str) -> str:
    strengths = STRENGTH.findall(name)
    if len(strengths) != 1:
        return _by_no_book(name)
    rest = BOOKS.sub("", DISSOLVED.sub("", " ".join(STRENGTH.sub(" ", name).split())))
    return f"{rest} {strengths[0]}%".strip()
