"""What a formula holds of limited materials: through solutions, blends and premixes, as the limit counts it, together where several count as one."""

from fractions import Fraction
from typing import NamedTuple

from procsheet.model.limits import Claim, Limit, claims, reckoned
from procsheet.model.method import Row
from procsheet.syntax.properties import USES

NEARLY = Fraction(1001, 1000)           # molar masses are rounded: 0.804 % of potassium sorbate is 0.6 % as acid


class Share(NamedTuple):
    """What a row, of_batch [1], brings of a limited material. amount: of the batch, as the limit counts it [1]; None where that is not known."""

    row: Row
    of_batch: Fraction
    claim: Claim
    amount: Fraction | None


class Held(NamedTuple):
    """A limit and all that counts towards it. fits: whether it is meant for this product, None where that is not known."""

    limit: Limit
    shares: tuple[Share, ...]
    fits: bool | None

    @property
    def total(self) -> Fraction:
        return sum((one.amount for one in self.shares if one.amount is not None), Fraction(0))

    @property
    def exceeded(self) -> bool:
        return self.total > self.limit.share * NEARLY

    def heaviest(self, high: dict[str, Fraction]) -> Fraction:
        """The total where every row is weighed at the upper end of its range. high: row code -> upper end over what is asked for [1]."""
        return sum((one.amount * high.get(one.row.code, Fraction(1)) for one in self.shares if one.amount is not None), Fraction(0))

    @property
    def largest(self) -> Share:
        return max(self.shares, key=lambda one: one.amount or 0)

    @property
    def at_most(self) -> Fraction:
        """The total, where what is not known counts whole."""
        return sum((one.claim.share if one.amount is None else one.amount for one in self.shares), Fraction(0))

    @property
    def may_be_exceeded(self) -> bool:
        return not self.exceeded and self.at_most > self.limit.share * NEARLY


def families(batch, known) -> list[list[Held]]:
    """Limits that stand in the same entry for the same material, or for several together; those of different purposes are one family."""
    kept: dict = {}
    for share in _shares(batch):
        limit, name = share.claim.limit, share.claim.material.name
        who = "" if limit.together else name
        family = (limit.regulation, "" if limit.purpose else limit.entry, who, limit.prohibited)
        case = (limit.entry, limit.share, limit.uses, limit.outside, limit.purpose)
        kept.setdefault(family, {}).setdefault(case, []).append(share)
    return [[_fit(held, family) for held in family] for family in
            ([Held(shares[0].claim.limit, tuple(shares), shares[0].claim.limit.holds(known)) for shares in cases.values()] for cases in kept.values())]


def _fit(held: Held, family: list[Held]) -> Held:
    """The line without a use is meant for what the others of its entry leave."""
    if held.limit.uses:
        return held
    others = [other for other in family if other.limit.uses and other.limit.entry == held.limit.entry]
    if any(other.fits for other in others):
        return held._replace(fits=False)
    return held._replace(fits=None) if any(other.fits is None and other.limit.share > held.limit.share for other in others) else held


def _shares(batch):
    for row in batch.method.rows:
        kilograms = row.mass or row.guide or row.cap
        if kilograms and batch.method.mass:
            of_batch = Fraction(kilograms) / Fraction(batch.method.mass)
            for claim in claims(row.material, of_batch):
                counts = reckoned(claim.material, claim.limit.expressed)
                yield Share(row, of_batch, claim, None if counts is None else claim.share * counts)


def heaviest_weighings(batch) -> dict[str, Fraction]:
    """Row code -> the upper end of its weighing ranges over what is asked for [1]; only where the plant's balances are known."""
    lines = [line for line in batch.plan.lines if batch.plan.plant.balances and line.high is not None and line.exact and line.use in ("", "part", "hold-back")]
    exact, high = {}, {}
    for line in lines:
        exact[line.row.code] = exact.get(line.row.code, Fraction(0)) + line.exact
        high[line.row.code] = high.get(line.row.code, Fraction(0)) + line.high
    return {code: high[code] / exact[code] for code in exact}


def leaves_no_use(family: list[Held]) -> bool:
    """Whether the lines of a family leave no use open: what fits none of them, or is above all, is not allowed."""
    limits = [held.limit for held in family]
    every = {use for limit in limits for use in limit.uses}
    rest = any(not limit.uses for limit in limits)
    return any(limit.only or limit.outside or limit.purpose for limit in limits) or rest and bool(every) or {frozenset({way}) for way in USES["way"]} <= every
