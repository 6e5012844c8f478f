"""A good method as it is written, with what a planter must know of it: its steps and rows, where each line stands, what each vessel holds.

Nothing here comes from the rule book: text, tree and resolved method only.
"""

import re
from pathlib import Path

from procsheet.model.files import Files
from procsheet.model.method import Row, Step
from procsheet.model.resolve import resolve
from procsheet.source import source
from procsheet.syntax.parse import parse_method

DEGREES = re.compile(r"(\d+(?:\.\d+)?)(?:-(\d+(?:\.\d+)?))? °C")
HARD = re.compile(r"homogeniser|rotor-stator|dissolver|high-shear mixer|blender|mill\b")
PERFUME = ("fragrance", "perfume", "essential oil", "isolate")
SILENT = ("note", "caution", "sample", "wait", "check", "compare", "prepare")


class Written:
    """A method and its lines."""

    def __init__(self, file: Path, text: str | None = None):
        self.file = file
        self.text = source(file.name, text if text is not None else file.read_text(encoding="utf-8")).text
        self.lines = self.text.split("\n")
        tree = parse_method(source(file.name, self.text)).tree
        library, made = Files(file.parent).library(tree)
        self.method = resolve(tree, library, made=made).method
        self.type = self.method.header.type
        self.steps = [step for step in self.method.steps() if step.number]
        self.rows = self.method.rows

    # ---- rows

    def of(self, *groups: str) -> list[Row]:
        return [row for row in self.rows if row.material.is_a(*groups)]

    def share(self, row: Row) -> float:
        return float((row.mass or row.guide or 0) / self.method.mass) if self.method.mass else 0.0

    def percent(self, *groups: str) -> float:
        return 100 * sum(self.share(row) for row in self.of(*groups))

    def row_line(self, row: Row) -> int:
        return row.span.line

    # ---- steps

    def end(self, step: Step) -> int:
        """The last line of a step: deeper lines go on with it."""
        line = step.span.line
        indent = _indent(self.lines[line - 1])
        while line < len(self.lines) and self.lines[line].strip() and _indent(self.lines[line]) > indent:
            line += 1
        return line

    def said(self, step: Step) -> str:
        return " ".join(line.split("--")[0].strip() for line in self.lines[step.span.line - 1:self.end(step)])

    def is_in_block(self, step: Step) -> bool:
        return _indent(self.lines[step.span.line - 1]) > 4

    def brings(self, step: Step) -> list[Row]:
        return [row for take in step.what for row in take.rows]

    def entering(self, row: Row) -> Step | None:
        """The step a row goes in with, where it is a step of its own right and no correction."""
        found = [step for step in self.steps if row in self.brings(step) and step.verb not in ("adjust", "make up", "rinse", "check")]
        return found[0] if len(found) == 1 and not self.is_in_block(found[0]) else None

    def into(self, step: Step) -> str:
        """The vessel a step brings something into, or works on."""
        return step.into or step.vessel

    def held(self, before: Step) -> dict[str, list[Row]]:
        """What each vessel holds when a step begins."""
        held: dict[str, list[Row]] = {}
        for step in self.steps[:self.steps.index(before)]:
            self._do(step, held)
        return held

    def _do(self, step: Step, held: dict[str, list[Row]]) -> None:
        target = held.setdefault(self.into(step), [])
        target += self.brings(step)
        for take in step.what:
            if take.vessel and take.vessel != self.into(step):
                target += held.pop(take.vessel, [])

    def joining(self) -> Step | None:
        """The step at which water and oil first come into one vessel."""
        for step in self.steps:
            held = {name: list(rows) for name, rows in self.held(step).items()}
            before = _two(held.get(self.into(step), []))
            self._do(step, held)
            if not before and _two(held.get(self.into(step), [])):
                return step if not self.is_in_block(step) else None
        return None

    def heats(self, vessel: str = "", least: float = 60) -> list[tuple[Step, float]]:
        """Heating steps to a written temperature in °C, with the lower end of it."""
        out = []
        for step in self.steps:
            match = DEGREES.search(self.said(step))
            if step.verb in ("heat", "melt") and match and float(match[1]) >= least and vessel in ("", self.into(step)) and not self.is_in_block(step):
                out.append((step, float(match[1])))
        return out

    def after(self, step: Step) -> list[Step]:
        return self.steps[self.steps.index(step) + 1:]

    def before(self, step: Step) -> list[Step]:
        return self.steps[:self.steps.index(step)]

    def last(self, vessel: str) -> Step | None:
        """The step before which something may still be put into the batch: filling, or the first sample or check near the end."""
        ends = [step for step in self.steps if step.verb in ("fill", "pour", "discharge") and vessel in (step.vessel, *(take.vessel for take in step.what))]
        return ends[0] if ends and not self.is_in_block(ends[0]) else None

    @property
    def main(self) -> str:
        """The vessel the product is filled from."""
        for step in reversed(self.steps):
            if step.verb in ("fill", "pour", "discharge"):
                return next((take.vessel for take in step.what if take.vessel), step.vessel)
        return self.into(self.steps[-1]) if self.steps else ""

    def whole(self, *groups: str) -> tuple[str, Step] | None:
        """A phase that one step takes whole and that has a row of these groups: a new row in it goes where that step goes."""
        for step in self.steps:
            for take in step.what:
                rows = next((phase.rows for phase in self.method.phases if phase.letter == take.phase), ()) if take.phase else ()
                whole = rows and codes(rows) == codes(take.rows) and " except " not in self.said(step) and step.verb in ("charge", "add", "melt", "dissolve", "disperse")
                if whole and not self.is_in_block(step) and (not groups or any(row.material.is_a(*groups) for row in rows)) and any(row.kind == "figure" for row in rows):
                    return take.phase, step
        return None


def codes(rows) -> set[str]:
    return {row.code for row in rows}


def _indent(line: str) -> int:
    return len(line) - len(line.lstrip(" "))


def _two(rows: list[Row]) -> bool:
    return any(row.material.is_a("water") for row in rows) and any(row.material.is_a("oil phase", "silicone phase") and not row.material.is_a(*PERFUME, "polar activator") for row in rows)


class Draft:
    """The lines while a mistake is planted: each keeps its identity, so that its number is known afterwards."""

    def __init__(self, good: Written):
        self.good = good
        self.lines: list[list] = [[text, number] for number, text in enumerate(good.lines, 1)]

    def line(self, number: int) -> list:
        return next(line for line in self.lines if line[1] == number)

    def _block(self, step: Step) -> list[list]:
        return [self.line(number) for number in range(step.span.line, self.good.end(step) + 1)]

    def drop(self, step: Step) -> None:
        gone = [id(line) for line in self._block(step)]
        self.lines = [line for line in self.lines if id(line) not in gone]
        if step.name:
            self.forget(step.name)

    def forget(self, name: str) -> None:
        """Take the name of a step out of the others."""
        for line in self.lines:
            line[0] = re.sub(rf" (?:during|after) {re.escape(name)}\b", "", line[0])

    def drop_row(self, row: Row) -> None:
        self.drop_line(row.span.line)

    def drop_line(self, number: int) -> None:
        self.lines.remove(self.line(number))

    def say(self, step: Step, text: str) -> list:
        """Put other words in place of a step."""
        first, *rest = self._block(step)
        for line in rest:
            self.lines.remove(line)
        first[0] = " " * _indent(first[0]) + text
        return first

    def swap(self, number: int, old: str, new: str) -> list:
        line = self.line(number)
        line[0] = line[0].replace(old, new)
        return line

    def put(self, text: str, *, before: Step | None = None, after: Step | None = None, below: int = 0) -> list:
        """A new line: before or after a step, or below a line."""
        new = ["    " + text, None]
        if below:
            at = self.lines.index(self.line(below)) + 1
        elif before is not None:
            at = self.lines.index(self.line(before.span.line))
        else:
            at = self.lines.index(self.line(self.good.end(after))) + 1
        self.lines.insert(at, new)
        return new

    def room(self, percent: float) -> None:
        """Room for a new row: the row that closes takes it up, else the largest row gives way."""
        closing = self.good.method.closing
        if closing is not None:
            line = self.line(closing.span.line)
            line[0] = re.sub(r", about [\d.]+ %", "", line[0])
            return
        for row in sorted(self.good.rows, key=self.good.share, reverse=True):
            line = self.line(row.span.line)
            match = re.match(r"(\s*)(\d+(?:\.\d+)?) %", line[0])
            if match and float(match[2]) > 2 * percent:
                line[0] = line[0].replace(f"{match[2]} %", f"{float(match[2]) - percent:g} %", 1)
                return

    def row(self, rows: str, below: int) -> list:
        """A new row behind a row of a phase."""
        self.room(float(rows.split(" %")[0]))
        return self.put(rows, below=below)

    def phase(self, letter: str, rows: str) -> list:
        """A new phase behind the last; returns its row."""
        self.room(float(rows.split(" %")[0]))
        last = max(row.span.line for row in self.good.rows)
        while last < len(self.good.lines) and self.good.lines[last].startswith("        "):
            last += 1
        self.put("", below=last)
        head = self.lines[self.lines.index(self.line(last)) + 1]
        head[0] = f"phase {letter}: planted"
        row = ["    " + rows, None]
        self.lines.insert(self.lines.index(head) + 1, row)
        return row

    @property
    def text(self) -> str:
        return "\n".join(line[0] for line in self.lines)

    def number(self, line: list) -> int:
        return next(at for at, one in enumerate(self.lines, 1) if one is line)

    def now(self, number: int) -> int:
        """Where a line of the good method stands now; 0 where it is gone."""
        return next((at for at, one in enumerate(self.lines, 1) if one[1] == number), 0)
