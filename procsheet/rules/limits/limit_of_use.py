"""A material is above the share a regulation allows, or is not allowed at all.

Why it matters
    What is above its entry cannot be sold where that regulation holds, however well it was made. The entries are data with a date, not
    legal advice: the text in force decides, and whoever answers for the product reads it.

Wrong
    product Day Cream
    type oil-in-water emulsion
    basis 1 kg
    phase A
        to 100 %  purified water
        0.7 %  sodium benzoate
    vessel main
    method
        charge A into main
        fill main

Wrong
    product Mild Wash
    type surfactant solution
    used as leave-on
    basis 1 kg
    phase A
        to 100 %  purified water
        0.02 %  methylisothiazolinone 10 %
    vessel main
    method
        charge A into main
        fill main

Right
    product Day Cream
    type oil-in-water emulsion
    basis 1 kg
    phase A
        to 100 %  purified water
        0.5 %  sodium benzoate
    vessel main
    method
        charge A into main
        fill main

Limits
    The share in the formula, through solutions, blends and premixes; as acid, zinc ... where the entry says so; together where it counts
    several as one. How the product is used follows from `used as`, else from its name and type; where that is not clear, the entry is told
    as a note, and so is an entry from memory or known from notices only. Conditions in words are told and not judged. It is never a stop:
    whether a product may be sold is not for a kettle to judge, and a maker elsewhere signs for it.

Exceptions
    Whatever is `used as medicine`, `biocide` or `household`: other rules hold for these.

Needs
    limit, prohibited, reckon as

Source
    the materials' data: regulation, entry, and the date of the text that was read
"""

from fractions import Fraction
from math import floor, log10

from procsheet.findings import Finding, Label
from procsheet.model.limits import Limit, strength
from procsheet.model.uses import NO_COSMETIC, uses
from procsheet.rules.limited import NEARLY, Held, families, heaviest_weighings, leaves_no_use
from procsheet.rules.words import listed, share
from procsheet.syntax.properties import USES

NAME = "limit-of-use"
LEVEL = "WARN"                          # never a stop: whether it may be sold is not for a kettle to judge
UNSURE = "NOTE"                         # an entry whose own text was not read
WORDS = {use for row in USES.values() for use in row}
WHY = "What is above its entry cannot be sold where that regulation holds. This is data with a date, not legal advice: check it against the text in force."


def check(batch):
    known = uses(batch.method.header)
    high = heaviest_weighings(batch)
    if not known & set(NO_COSMETIC):
        for family in families(batch, known):
            possible = [held for held in family if held.fits is not False]
            found = list(_judged(possible, family))
            yield from found or _when_weighed_high(possible, high)


# ---- the verdict


def _judged(possible: list[Held], family: list[Held]):
    whole = leaves_no_use(family)
    over = [held for held in possible if held.exceeded]
    sure = [held for held in over if held.fits and not held.limit.purpose]
    unclear = [held for held in possible if held.fits is None and (held.exceeded or held.limit.only)]
    unknown = [held for held in possible if held.fits and held.may_be_exceeded]
    if whole and not possible:
        yield _not_for_this(family)
    elif sure or whole and over and len(over) == len(possible):
        yield _over(min(sure, key=lambda held: held.limit.share) if sure else max(over, key=lambda held: held.limit.share))
    elif unclear:
        yield _unclear(min(unclear, key=lambda held: held.limit.share))
    elif unknown:
        yield _not_reckoned(unknown[0])


def _when_weighed_high(possible: list[Held], high) -> list[Finding]:
    """The formula is inside, and the upper end of a weighing range is not."""
    over = [held for held in possible if held.fits and not held.limit.purpose and held.heaviest(high) > held.limit.share * NEARLY]
    return [_finding("NOTE", held, f"weighed at the upper end of its range, {_name(held)} comes to {float(held.heaviest(high)) * 100:.4g}\u00a0%: more than the {held.limit.written} that the entry allows"
                     f"{_where(held.limit)}", "at its upper end", "Write a little less of it, or weigh it to a narrower range.") for held in over[:1]]


def _level(limit: Limit) -> str:
    return LEVEL if limit.was_read or limit.prohibited else UNSURE


def _over(held: Held) -> Finding:
    limit, row = held.limit, held.largest.row
    title = f"{_name(held)} is prohibited{_where(limit)}" if limit.prohibited else f"{_amount(held)}: more than the {limit.written} that the entry allows{_where(limit)}"
    if limit.prohibited:
        return _finding(_level(limit), held, title, "not allowed", f"Leave {row.name} out{_or_else(held)}.")
    return _finding(_level(limit), held, title, "too much of it", f"{_less(held)}{_or_else(held)}.")


def _not_for_this(family: list[Held]) -> Finding:
    held = family[0]
    where = listed(one.limit.where for one in family if one.limit.where)
    return _finding(_level(held.limit), held, f"{_amount(held)}: not allowed in this use; the entry says {where}", "not in this",
                    f"Leave {held.largest.row.name} out{_or_else(held)}.")


def _unclear(held: Held) -> Finding:
    what = ", which is prohibited" if held.limit.prohibited else f": at most {held.limit.written} is allowed"
    told = all(use in WORDS for uses in held.limit.uses for use in uses)
    return _finding("NOTE", held, f"{_amount(held)}{what} {held.limit.where or 'where no other line of the entry fits'}", "depends on the use",
                    "Say in the header how the product is used: used as leave-on, face ..." if told else "Check whether the product is one of these.")


def _not_reckoned(held: Held) -> Finding:
    one = next(one for one in held.shares if one.amount is None)
    return Finding("OPEN", NAME, f"the share of {one.row.name} that counts as {one.claim.limit.expressed} is not known, so its limit of {held.limit.written} was not checked",
                   Label(one.row.span), fix=f"Write it in the data of {one.claim.material.name}: `reckon as {one.claim.limit.expressed} ...`",
                   source=held.limit.told, material=one.row.name)


# ---- its words


def _finding(level: str, held: Held, title: str, label: str, fix: str) -> Finding:
    row, limit = held.largest.row, held.limit
    others = {one.row.code: one.row for one in held.shares if one.row is not row}
    said = f" The entry says: {'; '.join(limit.conditions)}." if limit.conditions else ""
    return Finding(level, NAME, title, Label(row.span, label),
                   tuple(Label(other.span, "counts, too") for other in others.values()), WHY + said, fix, limit.told, material=row.name)


def _name(held: Held) -> str:
    """What is limited; of a solution the substance in it."""
    materials = [one.claim.material for one in held.shares]
    return listed(material.text("INCI").lower() if strength(material) < 1 and material.has("INCI") else material.name for material in materials)


def _amount(held: Held) -> str:
    expressed = next((one.claim.limit.expressed for one in held.shares if one.claim.limit.expressed), "")
    return f"{share(float(held.total))} of {_name(held)}{f' as {expressed}' if expressed else ''}"


def _where(limit: Limit) -> str:
    return f" {limit.where}" if limit.where else ""


def _less(held: Held) -> str:
    """The most of the largest row that fits beside the others, rounded down."""
    row = held.largest.row
    own = [one for one in held.shares if one.row is row]
    beside = listed(one.row.name for one in held.shares if one.row is not row)
    counted = sum(one.amount or 0 for one in own)
    most = own[0].of_batch * (held.limit.share - (held.total - counted)) / counted
    if most <= 0:
        return f"Leave {row.name} out, and take less of {beside}"
    return f"Bring {row.name} to {_rounded_down(most)} of the batch or less{f' beside {beside}' if beside else ''}"


def _or_else(held: Held) -> str:
    return "; or, if the product is used otherwise, say so in its header with `used as`" if held.limit.uses else ""


def _rounded_down(value: Fraction) -> str:
    """`0.589 %`: three digits, never above the value."""
    step = Fraction(10) ** (floor(log10(value)) - 2)
    return share(float(floor(value / step) * step))
