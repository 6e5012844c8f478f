"""How a material is bought: its `pack` lines read as packs with a price, and how many of them a need takes."""

import re
from fractions import Fraction
from math import ceil
from typing import NamedTuple

from procsheet import units
from procsheet.model import quantities
from procsheet.model.material import Material
from procsheet.need.money import SIGNS, Money, money
from procsheet.syntax import tree

PER = re.compile(r"(\S+) (?:per|a) (kg|g|L|lb|gal|unit)")
CURRENCY = re.compile(r"[A-Z]{3}|[€$£]")


class Pack(NamedTuple):
    """size: kg; price: of one kg, exactly, None where none is written; currency: as it was typed."""

    size: Fraction
    price: Fraction | None = None
    currency: str = ""

    def cost(self, mass: Fraction) -> Money | None:
        """What so many kg of it cost."""
        return money(mass * self.price, self.currency) if self.price is not None else None


class Purchase(NamedTuple):
    pack: Pack
    count: int

    @property
    def mass(self) -> Fraction:
        return self.count * self.pack.size

    @property
    def cost(self) -> Money | None:
        return self.pack.cost(self.mass)


def packs(material: Material) -> tuple[Pack, ...]:
    """The packs a material is sold in. One whose weight cannot be told is left out; a price that is a range or open is none."""
    return tuple(pack for entry in material.entries("pack") if entry.groups and (pack := _pack(entry.groups[0], material.density)) is not None)


def purchase(mass: Fraction, sold: tuple[Pack, ...]) -> Purchase | None:
    """Whole packs of one size for a need: those that cost least, and of these what leaves least over; where prices cannot be compared, the first written.

    Nothing is bought where nothing is needed. None where no pack is known.
    """
    if not sold:
        return None
    ways = [Purchase(pack, ceil(mass / pack.size)) for pack in sold]
    comparable = all(pack.price is not None for pack in sold) and len({SIGNS.get(pack.currency, pack.currency) for pack in sold}) == 1
    return min(ways, key=lambda way: (way.mass * way.pack.price, way.mass)) if comparable else ways[0]


def _pack(words: tuple, density: Fraction | None) -> Pack | None:
    figures = [word for word in words if isinstance(word, tree.Quantity)]
    size = _mass(figures[0], density) if figures else None
    if not size or size <= 0:
        return None
    price, currency = _price(figures[1], size, density, words) if len(figures) > 1 else (None, "")
    return Pack(size, price, currency) if price is not None and price >= 0 and currency else Pack(size)


def _mass(figure: tree.Quantity, density: Fraction | None) -> Fraction | None:
    amount, kind = quantities.middle(figure), units.dimension(figure.unit)
    if amount is None or kind == "mass":
        return amount
    return amount * density if kind == "volume" and density else None


def _price(figure: tree.Quantity, size: Fraction, density: Fraction | None, words: tuple) -> tuple[Fraction | None, str]:
    """Per kg, and its currency: `4.10 EUR per kg`, or for the whole pack, `30 EUR` or `30 EUR a unit`."""
    if figure.is_open or figure.low != figure.high:
        return None, ""
    amount, per = Fraction(figure.low), PER.fullmatch(figure.unit)
    if per is None:
        named = [word.text for word in words if isinstance(word, tree.Word) and CURRENCY.fullmatch(word.text)]
        return (amount / size, named[0]) if named and not figure.unit else (None, "")
    if per[2] == "unit":
        return amount / size, per[1]
    one = units.to_si("1", per[2])
    mass = one if units.dimension(per[2]) == "mass" else one * density if density else None
    return (amount / mass, per[1]) if mass else (None, "")
