"""Method to graph, for one course: the steps in order, each vessel's content from state to state."""

from fractions import Fraction

from procsheet.graph import checks
from procsheet.graph.accounts import Accounts
from procsheet.graph.courses import Course
from procsheet.graph.graph import Graph, Node, Portion, State
from procsheet.graph.order import Placed, order
from procsheet.model import quantities
from procsheet.model.method import Method, Step, Take

RECEIVES = {"charge", "add", "disperse", "dissolve", "emulsify", "neutralise", "activate", "adjust", "make up", "replace loss"}
MAY_BE_EMPTY = RECEIVES | {"prepare", "close", "open", "evacuate", "vent", "blanket", "wait", "note", "caution", "do", "set aside", "stop stirring", "stop heating",
                           "cut", "cure", "unmould", "press", "crimp"}
MOVES = {"transfer", "pass", "strain", "discharge", "fill", "pour", "rinse"}
LEAVES = {"fill", "pour", "discharge"}


def connect(method: Method, course: Course) -> Graph:
    """The graph of one course, and what is wrong with its structure."""
    placed, findings = order(course.steps)
    builder = Builder(method, course)
    for one in placed:
        builder.put(one)
    findings = [*findings, *builder.findings, *builder.accounts.findings]
    if not course.left_out:
        findings += [*builder.accounts.leftovers(), *builder.accounts.light_or_heavy()]
    product, lost = builder.product()
    findings += lost
    rows = {row.code: row for row in method.rows}
    return Graph(method, course, tuple(builder.nodes), tuple(builder.states), product, rows, tuple(findings))


class Builder:
    """Walks the steps once and keeps what each vessel holds."""

    def __init__(self, method: Method, course: Course):
        self.method, self.course = method, course
        self.accounts = Accounts(method, course.steps)
        self.nodes: list[Node] = []
        self.states: list[State] = []
        self.now: dict[str, int] = {}                       # vessel -> its state
        self.last_at: dict[str, int] = {}                   # vessel -> the node that worked on it last
        self.by_name: dict[str, int] = {}
        self.left: list[int] = []                           # states that left as product
        self.findings: list = []

    def put(self, placed: Placed) -> None:
        step = placed.step
        entering, poured, sources = self._what(step) if placed.part == 0 else ([], [], [])
        vessel = self._receiver(step)
        if step.verb in MOVES and step.vessel and placed.part == 0:
            poured, sources, vessel = self._move(step, poured, sources)
        before = self.now.get(vessel) if vessel else None
        if vessel and before is None and not entering and not poured and step.verb not in MAY_BE_EMPTY and not any(take.open for take in step.what):
            self.findings.append(checks.empty_vessel(step, vessel))
        index = len(self.nodes)
        after = self._after(step, vessel, before, entering, poured, index) if vessel else None
        needs = self._needs(step, vessel, sources)
        self.nodes.append(Node(index, step, placed.part, placed.parts, tuple(entering), tuple(poured), before, after, vessel, placed.inside, needs))
        for one in (vessel, *sources):
            self.last_at[one] = index
        if step.name:
            self.by_name[step.name] = index
        if after is not None and step.verb in LEAVES:
            self.left.append(after)

    # ---- what goes in

    def _what(self, step: Step):
        entering: list[Portion] = []
        poured: list[tuple[int, Fraction]] = []
        sources: list[str] = []
        for take in (*step.what, *step.down):
            if take.vessel:
                self._pour(step, take, poured, sources)
            else:
                entering += self.accounts.take(step, take)
        return entering, poured, sources

    def _pour(self, step: Step, take: Take, poured: list, sources: list) -> None:
        state = self.now.get(take.vessel)
        if state is None:
            self.findings.append(checks.empty_vessel(step, take.vessel, take.span))
            return
        if take.vessel == self._receiver(step):
            self.findings.append(checks.into_itself(step, take))
            return
        share = take.share if isinstance(take.share, Fraction) else Fraction(1)
        poured.append((state, share))
        sources.append(take.vessel)
        self._take_from(take.vessel, state, share)

    def _take_from(self, vessel: str, state: int, share: Fraction) -> None:
        if share >= 1:
            self.now.pop(vessel, None)
            return
        old = self.states[state]
        rest = {code: mass * (1 - share) for code, mass in old.contents.items()}
        self.states.append(State(len(self.states), vessel, old.made_by, rest, (state,)))
        self.now[vessel] = len(self.states) - 1

    def _receiver(self, step: Step) -> str:
        """The vessel a step works on, or puts things into."""
        return step.into if step.verb == "rinse" or (step.verb in ("transfer", "pass") and step.into) else step.vessel or (
            step.into if step.verb in ("cut", "cure", "unmould", "press", "crimp") else "")

    def _move(self, step: Step, poured: list, sources: list):
        """A vessel's whole content goes on: into another vessel, or out as product."""
        target = step.into or ("" if step.verb in ("strain",) else f"{step.verb}ed")
        if step.verb == "strain" and not step.into:
            return poured, sources, step.vessel
        if step.verb == "rinse":
            state = self.now.get(step.vessel)
            if state is not None:                           # not quite empty before: the rinse carries it along
                poured = [*poured, (state, Fraction(1))]
                self.now.pop(step.vessel, None)
            return poured, [*sources, step.vessel], step.into
        state = self.now.pop(step.vessel, None)
        if state is None:
            self.findings.append(checks.empty_vessel(step, step.vessel))
            return poured, sources, target
        return [*poured, (state, Fraction(1))], [*sources, step.vessel], target

    def _after(self, step: Step, vessel: str, before: int | None, entering, poured, index: int) -> int | None:
        if before is None and not entering and not poured:
            return None
        if before is not None and not entering and not poured:
            contents, parents = self._dried(step, self.states[before].contents), (before,)
        else:
            contents = dict(self.states[before].contents) if before is not None else {}
            for state, share in poured:
                for code, mass in self.states[state].contents.items():
                    contents[code] = contents.get(code, Fraction(0)) + mass * share
            for portion in entering:
                contents[portion.row.code] = contents.get(portion.row.code, Fraction(0)) + portion.mass
            parents = tuple(([before] if before is not None else []) + [state for state, _ in poured])
        self.states.append(State(len(self.states), vessel, index, contents, parents))
        self.now[vessel] = len(self.states) - 1
        return len(self.states) - 1

    def _dried(self, step: Step, contents: dict[str, Fraction]) -> dict[str, Fraction]:
        """`dry` drives water off: down to the amount it names, or all of it."""
        if step.verb != "dry":
            return contents
        water = {row.code for row in self.method.rows if row.material.is_a("water")} & contents.keys()
        wet, total = sum((contents[code] for code in water), Fraction(0)), sum(contents.values(), Fraction(0))
        goes = min(wet, max(total - (self._dry_to(step) or Fraction(0)), Fraction(0)))
        return {code: mass * (wet - goes) / wet if code in water and wet else mass for code, mass in contents.items()}

    def _dry_to(self, step: Step) -> Fraction | None:
        """kg of one basis batch that are to be left."""
        written = step.written.slots.get("Q")
        amount = quantities.middle(written) if written is not None else None
        if amount is None:
            return None
        return amount * self.method.mass if quantities.dimension(written) == "share" else amount if quantities.dimension(written) == "mass" else None

    def _needs(self, step: Step, vessel: str, sources: list[str]) -> tuple[int, ...]:
        needed = [self.last_at[one] for one in (vessel, *sources) if one in self.last_at]
        needed += [self.by_name[step.value(kind)] for kind in ("after",) if step.has(kind) and step.value(kind) in self.by_name]
        return tuple(dict.fromkeys(needed))

    # ---- what comes out

    def product(self) -> tuple[tuple[int, ...], list]:
        """The states that leave as product, and findings for content that never joins them."""
        left = dict(self.now)
        delivered = [vessel for vessel, state in left.items() if state in self._delivered()]
        if delivered:
            out = tuple(left[vessel] for vessel in delivered)
            rest = [vessel for vessel in left if vessel not in delivered]
        else:
            last = self._last_kettle(left)
            out = (left[last],) if last else ()
            rest = [vessel for vessel in left if vessel != last]
        return out, [checks.content_lost(self.states[left[vessel]], self.nodes[self.states[left[vessel]].made_by].step, self.method, self.accounts.vessel)
                     for vessel in rest if checks.holds(self.states[left[vessel]], self.method)]

    def _delivered(self) -> set[int]:
        """States that descend from what was filled, poured or discharged."""
        out = set(self.left)
        for state in self.states:
            if any(parent in out for parent in state.parents) and not any(self.nodes[state.made_by].step.verb == verb for verb in ("add", "charge")):
                out.add(state.index)
        return out

    def _last_kettle(self, left: dict[str, int]) -> str:
        return max(left, key=lambda vessel: self.last_at.get(vessel, -1), default="")
