"""The weighing lines, each as the sheet prints it and with what its label says beside that."""

from decimal import Decimal
from typing import NamedTuple

from procsheet.model.ingredients import declared
from procsheet.model.material import Material, shown
from procsheet.plan.plan import Line
from procsheet.sheet import places
from procsheet.sheet.figures import THIN
from procsheet.sheet.model import Sheet, WeighingRow
from procsheet.sheet.work import Job, Work


class Weighed(NamedTuple):
    """A weighing line. printed: the same on the weighing list, whose words and digits hold; vessel and bar: '' in the pack."""

    line: Line
    printed: WeighingRow
    phase: str                          # 'Phase A'
    goes: str                           # 'step 4', 'steps 4 or 6', 'in the pack'
    vessel: str
    bar: str
    grade: str
    inci: str
    hazards: tuple[str, ...]            # 'H302'

    @property
    def target(self) -> Decimal | None:
        """In the unit of the line; None where a hand fills it in."""
        return figure(self.printed.target)


def weighed(sheet: Sheet, work: Work) -> tuple[Weighed, ...]:
    """In the order of the weighing list."""
    lines = {str(line.number): line for line in work.plan.lines}
    jobs = {task.step.number: Job(work, task) for task in work.tasks}
    return tuple(_weighed(lines[row.number], row, phase.name, jobs, work.bars) for phase in sheet.weighing.phases for row in phase.rows)


def _weighed(line: Line, row: WeighingRow, phase: str, jobs: dict[int, Job], bars: dict[str, str]) -> Weighed:
    material = line.row.material
    vessel = jobs[line.step].vessel if line.step in jobs else ""
    goes = row.second_line.rpartition(" · ")[2]                     # the list ends its second line with the step
    return Weighed(line, row, phase, goes, places.shown(vessel), bars.get(vessel, ""), material.text("weigh as"), ", ".join(declared(material)), hazards(material))


def hazards(material: Material) -> tuple[str, ...]:
    """The codes as the data write them: `H361d`."""
    return tuple(" ".join(map(shown, group)) for entry in material.entries("hazard") if not entry.is_open for group in entry.groups)


def figure(printed: str) -> Decimal | None:
    """A printed figure as a number with the digits it has; None for a blank."""
    return Decimal(printed.replace(THIN, "")) if printed else None
