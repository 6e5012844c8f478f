"""Limits of use: how much of a material a regulation allows, carried as data with the date of the text.

They are no legal advice: the text in force decides, and whoever answers for the product reads it.
"""

import re
from fractions import Fraction
from functools import lru_cache
from typing import Iterator, NamedTuple

from procsheet.model import quantities
from procsheet.model.material import SOLID, Material
from procsheet.model.uses import ROW, fits
from procsheet.syntax import tree

OPENERS = ("as", "in", "for", "read", "state")
USE = re.compile("|".join(sorted(ROW, key=len, reverse=True)))


class Limit(NamedTuple):
    """One line of a material. share: of the finished batch [1], 0 where it is prohibited."""

    share: Fraction
    written: str                                    # 0.5 %
    expressed: str = ""                             # acid, zinc ...; '' for the material itself
    together: bool = False                          # with everything that stands in the same entry
    only: bool = False                              # the uses named are the only ones
    uses: tuple[frozenset[str], ...] = ()           # one of these; () for any
    outside: tuple[frozenset[str], ...] = ()        # none of these
    purpose: str = ""
    conditions: tuple[str, ...] = ()
    regulation: str = ""
    entry: str = ""
    state: str = ""                                 # `read 2026`, or `state 2021`: the date of the text
    source: str = ""                                # the copy that was read
    grade: str = "memory"
    prohibited: bool = False

    @property
    def was_read(self) -> bool:
        """Whether the text itself was read, and not only something about it."""
        return self.grade == "standard"

    @property
    def told(self) -> str:
        """`EU 1223/2009, annex V, entry 1, read 2026`"""
        copy = f"{self.source} ({self.grade})" if self.source else "from memory" if self.grade == "memory" else ""
        return ", ".join(filter(None, (self.regulation, self.entry, self.state, copy)))

    @property
    def where(self) -> str:
        """`only in leave-on face or rinse-off`, `not in spray`, `for preserving`"""
        within, without = (" or ".join(" ".join(sorted(use, key=(*ROW, *use).index)) for use in uses) for uses in (self.uses, self.outside))
        told = (f"{'only ' if self.only else ''}in {within}" if within else "", f"not in {without}" if without else "", f"for {self.purpose}" if self.purpose else "")
        return ", ".join(filter(None, told))

    def holds(self, known: frozenset[str]) -> bool | None:
        """Whether it is meant for a product of these uses; None where that is not known."""
        if any(fits(use, known) for use in self.outside):
            return False
        if not self.uses:
            return True
        found = [fits(use, known) for use in self.uses]
        return True if True in found else None if None in found else False


class Claim(NamedTuple):
    """A limit, the material that carries it, and that one's share [1] of what it was found in."""

    limit: Limit
    material: Material
    share: Fraction


def limits(material: Material) -> tuple[Limit, ...]:
    """What regulations allow of a material, in the order its lines are written."""
    return tuple(_read(entry) for key in ("limit", "prohibited") for entry in material.lines.get(key, ()))


def claims(material: Material, share: Fraction = Fraction(1)) -> Iterator[Claim]:
    """Every limit that a material or one of its parts carries; a part's entry counts once where the whole has it, too."""
    own = limits(material)
    yield from (Claim(limit, material, share * strength(material)) for limit in own)
    known = {(limit.regulation, limit.entry) for limit in own}
    for part, of in material.parts:
        yield from (claim for claim in claims(part, share * of) if (claim.limit.regulation, claim.limit.entry) not in known)


def strength(material: Material) -> Fraction:
    """A solution's share of what it is named after [1]; a solid counts whole."""
    return material.assay if material.assay is not None and material.text("form") not in SOLID else Fraction(1)


def reckoned(material: Material, what: str) -> Fraction | None:
    """The share of a material that counts as this [1]; None where its data do not say."""
    if not what:
        return Fraction(1)
    for entry in material.entries("reckon as"):
        figure = next((word for word in entry.words if isinstance(word, tree.Quantity)), None)
        if figure is not None and " ".join(word.text for word in entry.words if isinstance(word, tree.Word) and word.text not in ("in", "read")) == what:
            return quantities.middle(figure)
    return None


# ---- reading a line


@lru_cache(maxsize=4096)
def _read(entry: tree.Entry) -> Limit:
    parts, quoted, figure, state = _parted(entry.words)
    regulation, _, place = (quoted[0] if quoted else "").partition(", ")
    source = entry.evidence.source if entry.evidence else ""
    grade = entry.evidence.grade if entry.evidence else "standard" if state else "memory"
    uses, outside = ((), _uses(parts["in"])) if "not" in parts[""] else (_uses(parts["in"]), ())
    return Limit(quantities.middle(figure) if figure is not None else Fraction(0), quantities.shown(figure) if figure is not None else "", " ".join(parts["as"]),
                 "together" in parts[""], "only" in parts[""], uses, outside, " ".join(parts["for"]), tuple(quoted[1:]), regulation, place, state, source, grade,
                 entry.key == "prohibited")


def _parted(words) -> tuple[dict[str, list[str]], list[str], "tree.Quantity | None", str]:
    """The words behind each opener, what is quoted, the share and the date."""
    parts: dict[str, list[str]] = {"": [], **{opener: [] for opener in OPENERS}}
    quoted, figure, state, at = [], None, "", ""
    for word in words:
        if isinstance(word, tree.Quantity) and at in ("read", "state"):
            state = f"{at} {word.low}"
        elif isinstance(word, tree.Quantity):
            figure = figure or word
        elif isinstance(word, tree.Text) and (at == "for" and not parts["for"] or at == "in" and parts["in"][-1:] in ([], ["or"])):
            parts[at].append(word.text)
        elif isinstance(word, tree.Text):
            quoted.append(word.text)
        elif word.text in OPENERS:
            at = word.text
        elif word.text in ("only", "not", "together"):
            parts[""].append(word.text)
        else:
            parts[at].append(word.text)
    return parts, quoted, figure, state


def _uses(words: list[str]) -> tuple[frozenset[str], ...]:
    """`leave-on face or hands` as two uses, each of words that all must hold; what is no word of the list stays as it is written."""
    found = [" ".join(group.split()) for group in " ".join(words).split(" or ") if group.strip()]
    return tuple(frozenset(USE.findall(one)) if not USE.sub("", one).strip() else frozenset({one}) for one in found)
