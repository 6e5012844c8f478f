"""Every portion accounted for: what each step takes of each row, and what is left.

The closing row is split beforehand: what is held back, what makes room for correctors (their caps where a `make up` follows,
else their guides), and the rest, which a plain charge takes. A `make up` takes whatever is still there.
"""

from fractions import Fraction

from procsheet.graph import checks
from procsheet.graph.graph import Portion
from procsheet.model.method import Method, Row, Step, Take

ZERO = Fraction(0)
CORRECTING = {"adjust"}
TO_THE_MARK = {"make up"}


class Accounts:
    """What is left of each row of a method, course by course."""

    def __init__(self, method: Method, steps: tuple[Step, ...]):
        self.method, self.findings = method, []
        self.made_up = {row.code for step in steps if step.verb in TO_THE_MARK for take in step.what for row in take.rows}
        self.full = {row.code: max(row.mass or ZERO, ZERO) for row in method.rows}     # a formula over 100 % leaves nothing to charge, not less than nothing
        self.room = self._room()
        self.held = {row.code: row.hold_back for row in method.rows if row.hold_back}
        self.free = {row.code: max(self.full[row.code] - self.held.get(row.code, ZERO) - (self.room if row.kind == "closing" else ZERO), ZERO) for row in method.rows}
        self.start = dict(self.free)
        self.first: dict[str, Step] = {}
        self.used: dict[str, list[Step]] = {}
        self.vessel = next((step.vessel for step in reversed(steps) if step.vessel in method.vessels), "main")     # where the batch ends up
        self.is_made_up, self.late = False, {}              # what is added after the make-up
        self.corrected = ZERO                               # kg of correctors counted so far

    def _room(self) -> Fraction:
        """kg of the closing row that is not charged, for the correctors."""
        closing = self.method.closing
        if closing is None:
            return ZERO
        follows = closing.code in self.made_up
        return sum(((row.cap or row.guide or ZERO) if follows else (row.guide or ZERO) for row in self.method.rows if row.kind == "corrector"), ZERO)

    def take(self, step: Step, take: Take) -> list[Portion]:
        """The portions that one item of a step takes."""
        if step.verb == "replace loss":                     # water that is no part of the formula
            return []
        if take.hold_back:
            return self._hold_back(step, take)
        rows = take.rows
        self.findings += [checks.in_pack(step, phase, take) for phase in self.method.phases if phase.in_pack and any(row in phase.rows for row in rows)]
        if not take.phase and len(rows) > 1:
            rows = self._which(step, take)
        return [portion for row in rows for portion in self._of_row(step, take, row)]

    def _which(self, step: Step, take: Take) -> tuple[Row, ...]:
        """Which of several rows of one material a step means."""
        if step.verb in TO_THE_MARK and (closing := [row for row in take.rows if row.kind == "closing"]):
            return tuple(closing)
        if step.verb in CORRECTING and (correctors := [row for row in take.rows if row.kind == "corrector"]):
            return tuple(correctors[:1])
        left = [row for row in take.rows if self._is_left(row) and (row.kind != "corrector")] or [row for row in take.rows if self._is_left(row)]
        if len(left) == 1:
            return tuple(left)
        self.findings.append(checks.which_row(step, take) if left else checks.used_twice(step, take.rows[0], self.first.get(take.rows[0].code), take))
        return tuple(left[:1])

    def _is_left(self, row: Row) -> bool:
        return row.code not in self.used or self.free[row.code] > 0

    def _hold_back(self, step: Step, take: Take) -> list[Portion]:
        rows = [row for row in take.rows if self.held.get(row.code)]
        if not rows:
            self.findings.append(checks.no_hold_back(step, take))
            return []
        out = []
        for row in rows:
            out.append(Portion(row, self.held[row.code], "hold-back"))
            self.held[row.code] = ZERO
            self.used.setdefault(row.code, []).append(step)
        return out

    def _of_row(self, step: Step, take: Take, row: Row) -> list[Portion]:
        seen = row.code in self.used
        self.used.setdefault(row.code, []).append(step)
        if row.kind == "corrector":
            if step.verb in ("make up",):
                return []
            if seen and step.verb not in CORRECTING:
                return self._twice(step, row, take)
            self.first.setdefault(row.code, step)
            if self.is_made_up and row.cap:
                self.late.setdefault(row.code, checks.after_make_up(row, step, row.cap / self.method.mass))
            return [self._corrector(row, seen)]
        if step.verb in TO_THE_MARK and row.kind == "closing":
            self.is_made_up = True
        if step.verb in TO_THE_MARK:                        # of any other row it only puts back what evaporated
            return [Portion(row, self._all_that_is_left(row) if row.kind == "closing" else ZERO, "make-up")]
        return self._plain(step, take, row, seen)

    def _corrector(self, row: Row, seen: bool) -> Portion:
        """What is expected of it: its guide, or its cap where no guide is given; a second correction counts no more."""
        amount = ZERO if seen else row.guide or row.cap or ZERO
        self.corrected += amount
        return Portion(row, amount, "corrector")

    def _all_that_is_left(self, row: Row) -> Fraction:
        """A make-up takes what is left: the room for correctors, what was not charged, a hold-back not used."""
        left = self.free[row.code] + self.held.get(row.code, ZERO) + (max(self.room - self.corrected, ZERO) if row.kind == "closing" else ZERO)
        self.free[row.code] = self.held[row.code] = ZERO
        return left

    def _plain(self, step: Step, take: Take, row: Row, seen: bool) -> list[Portion]:
        left, share = self.free[row.code], take.share
        if seen and left <= 0 and row.kind != "open":
            return self._twice(step, row, take)
        amount = left if share is None or share == "rest" else self.start[row.code] * share
        if amount > left:
            self.findings.append(checks.more_than_left(step, row, take, self.first.get(row.code)))
            amount = left
        self.free[row.code] = left - amount
        self.first.setdefault(row.code, step)
        return [Portion(row, amount, "part" if share is not None or seen else "")]

    def _twice(self, step: Step, row: Row, take: Take) -> list[Portion]:
        self.findings.append(checks.used_twice(step, row, self.first.get(row.code), take))
        return []

    def light_or_heavy(self) -> list:
        """Without a make up the batch ends off its weight by what the correctors take that day."""
        correctors = [row for row in self.method.rows if row.kind == "corrector" and row.code in self.used]
        closing = self.method.closing
        if closing is None or not correctors or closing.code in self.made_up or self.method.by_volume:
            return list(self.late.values())
        guides = sum((row.guide or ZERO for row in correctors), ZERO)
        caps = sum((row.cap or row.guide or ZERO for row in correctors), ZERO)
        return [checks.batch_weight(closing, guides / self.method.mass, (caps - guides) / self.method.mass)] if caps else []

    # ---- at the end

    def leftovers(self) -> list:
        """Phases and rows that were never added, and what is left of those that were."""
        out = []
        for phase in self.method.phases:
            if phase.in_pack or not phase.rows:
                continue
            never = [row for row in phase.rows if row.code not in self.used]
            if len(never) == len(phase.rows):
                out.append(checks.phase_never_added(phase, self.vessel))
            else:
                out += [checks.never_added(row, self.vessel) for row in never]
        for row in self.method.rows:
            if row.code in self.used and row.kind in ("figure", "closing") and self.free[row.code] > 0:
                out.append(checks.left_over(row, self.free[row.code] / (self.full[row.code] or 1), self.first.get(row.code), self.vessel))
            elif row.code in self.used and self.held.get(row.code):
                out.append(checks.hold_back_unused(row))
        return out
