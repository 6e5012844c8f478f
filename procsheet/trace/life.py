"""What a portion of a material lives through, from where it goes in to the pack."""

from typing import NamedTuple

from procsheet.intervals import INFINITY, Interval, hull
from procsheet.trace.acidity import acidity
from procsheet.trace.clock import between
from procsheet.trace.trace import Exposure, Moment, Trace


class Life(NamedTuple):
    """One portion along its path.

    path               every moment, in order
    hottest, coldest   the moments of the highest and the lowest temperature
    strongest          the moment of the highest shear
    pH                 all that it meets, as far as known
    lasts              from going in to the pack [s]
    meets              row code -> the first moment in one vessel with it
    """

    exposure: Exposure
    path: tuple[Moment, ...]
    hottest: Moment
    coldest: Moment
    strongest: Moment
    pH: Interval
    lasts: Interval
    meets: dict[str, Moment]

    def above(self, limit: float) -> Interval:
        """How long it is hotter than a temperature [K], in s: certainly, and at most."""
        sure = possible = 0.0
        missing = ""
        for moment in self.path:
            if moment.throughout.high <= limit:
                continue
            if moment.duration is None:
                missing, possible = missing or f"how long line {moment.span.line} takes", INFINITY
                continue
            possible += moment.duration.high
            sure += moment.duration.low if moment.throughout.low > limit else 0.0
        return Interval(sure, possible, missing)

    def sheared_after(self, fact: str) -> Moment | None:
        """The moment of the highest shear once something is true of its vessel: 'emulsified', 'neutralised', 'activated'."""
        after = [moment for moment in self.path if getattr(moment.before_facts, fact)]
        return max(after, key=lambda moment: (moment.shear.rank.low, moment.shear.rank.high, moment.shear.tip.high if moment.shear.tip else 0.0), default=None)


def life(trace: Trace, exposure: Exposure, known: tuple[Interval, ...] | None = None) -> Life:
    """The life of one portion. known: the pH of every moment, where it has been asked for already."""
    path = tuple(trace.path(exposure.moment))
    known = known if known is not None else acidity(trace)
    meets: dict[str, Moment] = {}
    for moment in path:
        for code in moment.contents:
            meets.setdefault(code, moment)
    meets.pop(exposure.row.code, None)
    return Life(exposure, path, max(path, key=lambda one: (one.throughout.high, one.throughout.low)), min(path, key=lambda one: (one.throughout.low, one.throughout.high)),
                max(path, key=lambda one: (one.shear.rank.low, one.shear.rank.high, one.shear.tip.high if one.shear.tip else 0.0)),
                hull(known[moment.index] for moment in path), between(trace, path[0], path[-1]), meets)
