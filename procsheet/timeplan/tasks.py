"""What is to be done, how long it lasts, and what it needs: one task a step, one a weighing."""

from typing import NamedTuple

from procsheet.intervals import INFINITY, Interval
from procsheet.rules.batch import Batch
from procsheet.trace.clock import WORDS

WEIGHING = 180.0                        # s for one weighing, label and all (common practice, no source)
BY_ITSELF = {"heat", "cool", "hold", "rest", "stir", "mix", "hydrate", "homogenise", "mill", "deaerate", "wait", "cure", "set aside", "melt", "dry"}    # nobody has to stand there


class Task(NamedTuple):
    """lasts [s]: None where nothing says; at: vessel or balance, '' for none; attended: somebody is at it all the time; needs: tasks that must be done."""

    index: int
    name: str
    step: int
    at: str
    lasts: Interval | None
    attended: bool
    needs: tuple[int, ...]
    weighing: bool = False

    @property
    def time(self) -> float:
        """s that are planned for it: the most its words allow, the least where that is open, nothing where nothing is said."""
        if self.lasts is None:
            return 0.0
        return self.lasts.high if self.lasts.high < INFINITY else self.lasts.low

    @property
    def is_open(self) -> bool:
        """Whether it only bounds the plan: it may take longer than any figure says."""
        return self.lasts is None or self.lasts.high == INFINITY


def tasks(batch: Batch) -> tuple[Task, ...]:
    """The weighings, then the steps, each with what it needs."""
    found: list[Task] = []
    weighed: dict[int, list[int]] = {}
    for line in batch.plan.lines:
        if line.balance and line.step and line.use not in ("make-up", "corrector"):
            weighed.setdefault(line.step, []).append(len(found))
            found.append(Task(len(found), f"weigh {line.row.code} {line.row.name}", line.step, line.balance, Interval(WEIGHING, WEIGHING), True, (), True))
    return (*found, *_steps(batch, len(found), weighed))


def _steps(batch: Batch, first: int, weighed: dict[int, list[int]]) -> list[Task]:
    lasting = {moment.node: moment.duration for moment in batch.trace.moments}
    out: list[Task] = []
    at: dict[int, int] = {}                                  # node -> task
    wait: int | None = None
    for node in batch.graph.nodes:
        step = node.step
        if step.verb in WORDS:
            continue
        index = first + len(out)
        needs = {at[one] for one in node.needs if one in at} | set(weighed.get(step.number, ()) if node.part == 0 else ()) | ({wait} if wait is not None else set())
        if step.verb == "wait":
            needs |= set(at.values())
            wait = index
        lasts = lasting.get(node.index, Interval(0.0, 0.0) if node.part else None)
        part = f" ({node.part + 1} of {node.parts})" if node.parts > 1 else ""
        out.append(Task(index, f"{step.number} {step.verb}{part}", step.number, node.place, lasts, step.verb not in BY_ITSELF, tuple(sorted(needs))))
        at[node.index] = index
    return out
