"""What a pack may hold less than its label says, and what the mean of a sample must reach."""

from fractions import Fraction
from math import ceil

# nominal content, g or mL: from just above the first, up to the second; the share of it [%], or the amount
TABLE = ((5, 50, 9, None), (50, 100, None, Fraction(9, 2)), (100, 200, Fraction(9, 2), None), (200, 300, None, 9), (300, 500, 3, None), (500, 1000, None, 15),
         (1000, 10000, Fraction(3, 2), None))
MEAN = {30: 0.503, 50: 0.379, 20: 0.640}
DEFECTS = ((100, 500, 50, 3), (501, 3200, 80, 5), (3201, None, 125, 7))


def fill_tolerance(*, nominal: "Fraction | float") -> Fraction:
    """Return the tolerable negative error of a pack.

    a share of the nominal content, or an amount, by the table; a share is rounded up to the next 0.1

    nominal  [g] or [mL]  from 5 to 10 000
    returns  [g] or [mL]

    Valid for packs of one nominal content, filled by weight or volume at 20 °C.

    Example: a bottle of 125 mL.
    >>> float(fill_tolerance(nominal=125))
    5.7

    Source: Directive 76/211/EEC, annex I 2.4; rounding: the German pre-packaging ordinance, section 9 (3).
    """
    content = Fraction(nominal).limit_denominator(10 ** 6)
    if not 5 <= content <= 10000:
        raise ValueError("the table is for 5 to 10 000 g or mL")
    share, amount = next((share, amount) for low, high, share, amount in TABLE if content <= high)
    return Fraction(amount) if amount is not None else Fraction(ceil(content * share / 100 * 10), 10)


def least_mean(*, nominal: float, deviation: float, sample: int) -> float:
    """Return what the mean of a sample must reach.

    Qn - k s, k = 0.640, 0.503 or 0.379 for samples of 20 (destructive), 30 or 50

    nominal    [g] or [mL]
    deviation  [g] or [mL]  standard deviation of the sample
    sample     20, 30 or 50 packs
    returns    [g] or [mL]

    Valid for batches of 100 packs or more.

    Example: twenty bottles of 200 mL that scatter by 0.9757 mL.
    >>> round(least_mean(nominal=200, deviation=0.9757, sample=20), 4)
    199.3756

    Source: UK SI 2006/659, schedule 2, paragraph 4; Directive 76/211/EEC, annex II.
    """
    if sample not in MEAN or deviation < 0:
        raise ValueError("the sample is 20, 30 or 50 packs, the deviation not below 0")
    return nominal - MEAN[sample] * deviation


def most_defective(*, batch: int, destructive: bool = False) -> tuple[int, int]:
    """Return how many packs are taken, and how many of them may be short by more than the tolerance.

    batch        [1]  packs, 100 or more
    destructive  whether a pack is lost by the test
    returns      sample, most that may be short

    Valid for one nominal content, at most an hour of a line's output or 10 000 packs.

    Example: 1000 packs.
    >>> most_defective(batch=1000)
    (80, 5)

    Source: UK SI 2006/659, schedule 2, paragraph 3; Directive 76/211/EEC, annex II 2.2.
    """
    if batch < 100:
        raise ValueError("batches below 100 packs are tested whole")
    if destructive:
        return 20, 1
    return next((sample, most) for low, high, sample, most in DEFECTS if high is None or batch <= high)
