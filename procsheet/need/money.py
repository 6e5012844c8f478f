"""An amount of money in its currency. Two currencies are never added."""

from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction
from typing import Iterable, NamedTuple

SIGNS = {"€": "EUR", "£": "GBP"}        # `$` is said of several currencies, and stays as it was typed


class Money(NamedTuple):
    amount: Decimal
    currency: str

    def rounded(self, digits: int = 2) -> Decimal:
        """To the cent; half goes up."""
        return self.amount.quantize(Decimal(1).scaleb(-digits), ROUND_HALF_UP)


def money(amount: Fraction, currency: str) -> Money:
    """As near as 28 digits come to it."""
    return Money(Decimal(amount.numerator) / Decimal(amount.denominator), SIGNS.get(currency, currency))


def total(parts: Iterable[Money]) -> tuple[Money, ...]:
    """One sum for each currency, in the order of their names."""
    sums: dict[str, Decimal] = {}
    for one in parts:
        sums[one.currency] = sums.get(one.currency, Decimal(0)) + one.amount
    return tuple(Money(sums[currency], currency) for currency in sorted(sums))
