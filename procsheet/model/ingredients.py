"""The ingredient list a label declares, from the formula alone: INCI names merged over rows, solutions and blends, in descending order.

Salt formed on the way and water lost to the air are not reckoned; a perfume's allergens are not in the formula. The list is a draft for
whoever answers for the label, who checks it against the rules in force.
"""

from fractions import Fraction
from typing import NamedTuple

from procsheet.model.material import Material, fold
from procsheet.model.method import Method, Row

ANY_ORDER = Fraction(1, 100)            # below it ingredients may stand in any order: EU 1223/2009, article 19 (1) g


class Ingredient(NamedTuple):
    """A name of the list. share: of the batch by mass [1]; rows: the codes it comes from; split: a blend whose shares are not told brings it."""

    name: str
    share: Fraction
    rows: tuple[str, ...]
    split: bool = False
    named: bool = True                  # False where no INCI name is known and the material's own stands in its place

    @property
    def any_order(self) -> bool:
        return self.share < ANY_ORDER


class Brought(NamedTuple):
    """What a material brings of one name [1]."""

    name: str
    share: Fraction
    split: bool
    named: bool


def ingredients(method: Method) -> tuple[Ingredient, ...]:
    """Every ingredient, the largest share first; what comes to nothing, such as a corrector without a guide, last."""
    found: dict[str, Ingredient] = {}
    for row in method.rows:
        amount = _of_batch(row, method)
        for one in brought(row.material, row.name):
            key = fold(one.name)
            known = found.get(key, Ingredient(one.name, Fraction(0), (), False, one.named))
            found[key] = known._replace(share=known.share + amount * one.share, rows=tuple(dict.fromkeys((*known.rows, row.code))),
                                        split=known.split or one.split)
    return tuple(sorted(found.values(), key=lambda one: -one.share))


def _of_batch(row: Row, method: Method) -> Fraction:
    """Mass share of a row; of a corrector what is expected, else the most it may be."""
    kilograms = row.mass if row.mass is not None else row.guide if row.guide is not None else row.cap
    return Fraction(kilograms or 0) / Fraction(method.mass) if method.mass else Fraction(0)


def brought(material: Material, name: str) -> tuple[Brought, ...]:
    """The INCI names a material brings, with their shares."""
    if material.parts:
        return tuple(one._replace(share=one.share * Fraction(share)) for part, share in material.parts for one in _of_part(part))
    names = declared(material)
    if len(names) > 1:
        return _unsplit(names, material.assay)
    return (Brought(names[0] if names else name, Fraction(1), False, bool(names)),)


def _of_part(part: Material) -> tuple[Brought, ...]:
    """A part named in `composed of` stands under that name, which is INCI already; what another method makes stands under its own parts."""
    if part.parts and part.kind == "":
        return brought(part, part.name)
    names = declared(part)
    return (Brought(names[0], Fraction(1), False, True),) if len(names) == 1 else _unsplit(names, None) if names else (Brought(part.names[0], Fraction(1), False, not part.known),)


def declared(material: Material) -> tuple[str, ...]:
    """The names on its INCI lines."""
    return tuple(name.strip() for line in material.lines.get("INCI", ()) for name in line.text.replace(" (and) ", ", ").split(", ") if name.strip())


def _unsplit(names: tuple[str, ...], assay: Fraction | None) -> tuple[Brought, ...]:
    """A blend that only tells names: of a solution with a strength the first has that and water the rest; else each half of the one before, and said so."""
    if assay is not None and len(names) == 2 and fold(names[1]) in ("aqua", "water"):
        return (Brought(names[0], assay, False, True), Brought(names[1], 1 - assay, False, True))
    whole = 2 ** len(names) - 1
    return tuple(Brought(name, Fraction(2 ** (len(names) - 1 - at), whole), True, True) for at, name in enumerate(names))


def label(found: tuple[Ingredient, ...]) -> str:
    """The list as one line: descending, the ingredients below 1 % behind the others."""
    return ", ".join(one.name for one in found if one.share)
