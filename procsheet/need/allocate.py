"""Which lots a need is taken from: what expires first goes first; what has expired or is not released never."""

from datetime import date
from fractions import Fraction
from typing import NamedTuple

from procsheet.findings import Finding, Label
from procsheet.model.material import fold
from procsheet.need.demands import Demand, assay_kind
from procsheet.need.lots import Lot

FAR = 2                                 # a strength more than so many times off the one reckoned with is a slip of the pen (common practice, no source)


class Take(NamedTuple):
    """amount: kg out of the lot; stands_for: kg of the strength the method reckons with."""

    demand: Demand
    lot: Lot
    amount: Fraction
    stands_for: Fraction


class Allocation(NamedTuple):
    """demands: as they are once the lots' strengths are known, [kg] as taken and still to buy; short: what no lot gives, one figure a demand."""

    demands: tuple[Demand, ...]
    takes: tuple[Take, ...]
    short: tuple[Fraction, ...]
    findings: tuple[Finding, ...]


def allocate(demands: tuple[Demand, ...], lots: tuple[Lot, ...], on: date) -> Allocation:
    """First expired, first out. A lot keeps to and with its last day; one that does not expire goes last.

    A lot stronger than reckoned gives less, a weaker one more, exactly; the closing row of the product bears the difference.
    """
    good, findings = _good(demands, lots, on)
    left = {id(lot): mass for lot, mass in good.items()}
    extra: dict[int, Fraction] = {}
    made: dict[int, tuple[Demand, list[Take], Fraction]] = {}
    for at, demand in sorted(enumerate(demands), key=lambda pair: pair[1].closing):
        wanted = demand
        if demand.closing:
            wanted = demand._replace(amount=max(demand.amount - extra.get(demand.product, Fraction(0)), Fraction(0)))
            findings += [_nothing_left(demand)] if wanted.amount == 0 < demand.amount else []
        takes, short = _take(wanted, good, left)
        needed = sum((take.amount for take in takes), short)
        extra[demand.product] = extra.get(demand.product, Fraction(0)) + needed - wanted.amount
        made[at] = wanted._replace(amount=needed), takes, short
    findings += _unborne(demands, extra)
    in_order = [made[at] for at in range(len(demands))]
    return Allocation(tuple(one[0] for one in in_order), tuple(take for one in in_order for take in one[1]), tuple(one[2] for one in in_order), tuple(findings))


def _take(demand: Demand, good: dict[Lot, Fraction], left: dict[int, Fraction]) -> tuple[list[Take], Fraction]:
    """The takes of one demand, and what they leave open [kg of the strength reckoned with]."""
    takes, open_ = [], demand.amount
    for lot in good:
        factor = demand.assay / lot.assay if demand.assay and lot.assay else Fraction(1)
        amount = min(left[id(lot)], open_ * factor) if fits(lot, demand) else 0
        if amount > 0:
            left[id(lot)] -= amount
            takes.append(Take(demand, lot, amount, amount / factor))
            open_ -= amount / factor
    return takes, open_


def fits(lot: Lot, demand: Demand) -> bool:
    return fold(lot.material) in demand.names


def _good(demands: tuple[Demand, ...], lots: tuple[Lot, ...], on: date) -> tuple[dict[Lot, Fraction], list[Finding]]:
    """The lots that may be used and kg of each, what expires first first; and what keeps the others out."""
    good, findings = {}, []
    for lot in sorted(lots, key=lambda lot: (lot.expires or date.max, lot.lot, lot.at.line)):
        asked = [demand for demand in demands if fits(lot, demand)]
        if not asked:
            continue
        wrong = _kept_out(lot, asked, on)
        if wrong is None:
            good[lot] = lot.amount * asked[0].material.density if lot.by_volume else lot.amount
        else:
            findings.append(wrong)
    return good, findings


def _kept_out(lot: Lot, asked: list[Demand], on: date) -> Finding | None:
    called = f"lot {lot.lot} of {lot.material}"
    if not lot.is_good(on):
        if lot.expires is not None and lot.expires < on:
            return _finding("lot-expired", lot, f"{called} expired on {lot.expires.isoformat()}", "What has expired may have lost its strength or its keeping.",
                            "Set it apart; have it tested again, and its new day written, if your procedures allow that.")
        return _finding("lot-not-released", lot, f"{called} is not released: {lot.status}", "Nobody has said yet that it is what its label says, or somebody has said it is not.",
                        "Wait for its release, or use another.")
    if lot.by_volume and asked[0].material.density is None:
        return _finding("stock-row", lot, f"{called} is kept by volume, and its density is not known", "Its weight cannot be told, so nothing is taken from it.",
                        "Write its amount in kg, or the material's density.")
    return _strength(lot, asked, called)


def _strength(lot: Lot, asked: list[Demand], called: str) -> Finding | None:
    for demand in asked:
        if lot.assay is None or demand.assay is None:
            continue
        why, fix = "The amount is corrected by the strength; a wrong one would be weighed in.", "Correct the lot's assay, or the material's."
        if lot.assay_kind != assay_kind(demand.material):
            return _finding("lot-assay", lot, f"the strength of {called} is no {assay_kind(demand.material)} like the one the method reckons with", why, fix)
        if not 1 <= FAR * lot.assay / demand.assay <= FAR * FAR:
            return _finding("lot-assay", lot, f"the strength of {called} is {float(lot.assay / demand.assay):.3g} times the one the method reckons with", why, fix)
    return None


def _finding(name: str, lot: Lot, title: str, why: str, fix: str) -> Finding:
    return Finding("WARN", name, f"{title}; nothing is taken from it", Label(lot.at), why=why, fix=fix, material=lot.material)


def _nothing_left(closing: Demand) -> Finding:
    return Finding("STOP", "lot-strength", f"weaker lots take more than all {closing.material.name} that closes to 100 %", why="The batch would come out too heavy and too weak.",
                   fix="Take stronger lots.", material=closing.material.name)


def _unborne(demands: tuple[Demand, ...], extra: dict[int, Fraction]) -> list[Finding]:
    """Products whose amounts a lot's strength changes, and which have no closing row to bear it."""
    bearing = {demand.product for demand in demands if demand.closing}
    return [Finding("WARN", "lot-strength", f"lots of another strength change product {product + 1} by {float(kilograms) * 1000:+.4g} g, and no row closes it to 100 %",
                    why="The batch weighs more or less than the formula, and all its shares shift.", fix="Give the method a closing row: to 100 %  purified water")
            for product, kilograms in extra.items() if kilograms and product not in bearing]
