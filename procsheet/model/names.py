"""The names in the steps: vessels, phases, materials, and steps that others speak of."""

from fractions import Fraction

from procsheet.findings import Finding
from procsheet.model import quantities
from procsheet.model.material import fold
from procsheet.model.method import Block, Phase, Row, Step, Take
from procsheet.source import Span
from procsheet.syntax import tree
from procsheet.syntax.slips import did_you_mean, either, near, slip

UNNUMBERED = {"note", "caution"}
OUTSIDE_THE_FORMULA = {"replace loss"}


class Names:
    """Resolves the steps of one method and gathers what does not resolve."""

    def __init__(self, phases: tuple[Phase, ...], places: tuple[tree.Place, ...], alternatives: dict[str, str] | None = None, absent: set[str] = frozenset()):
        """alternatives: the name of a row or of its alternative -> the name of the one that is used. absent: optional rows left out."""
        self.absent = absent
        self.phases = {phase.letter: phase for phase in phases}
        self.rows = [row for phase in phases for row in phase.rows]
        self.vessels = {place.name for place in places if place.kind == "vessel"}
        self.places = {place.name for place in places}
        self.by_name: dict[str, list[Row]] = {}
        for row in self.rows:
            for name in dict.fromkeys(fold(one) for one in (row.name, *row.material.names)):
                self.by_name.setdefault(name, []).append(row)
        for name, used in (alternatives or {}).items():
            self.by_name.setdefault(name, self.by_name.get(used, []))
        self.findings: list[Finding] = []
        self.number = 0
        self.stage = ""
        self.called: dict[str, Span] = {}

    def items(self, items: tuple) -> tuple:
        """The steps with every name resolved, in the same order and blocks."""
        made = tuple(resolved for item in items for resolved in self._item(item))
        self._check_spoken_of(items)
        return made

    def _item(self, item) -> list:
        if isinstance(item, tree.Stage):
            self.stage = item.title
            return [item]
        if isinstance(item, tree.Block):
            branches = tuple((branch.name, tuple(made for inner in branch.items for made in self._item(inner))) for branch in item.branches)
            return [Block(item.kind, item.head, branches, item)]
        return [self._step(item)]

    def _step(self, step: tree.Step) -> Step:
        if step.verb not in UNNUMBERED:
            self.number += 1
        if step.name:
            self._name(step)
        what = [take for slot in ("X", "UP") if slot in step.slots for take in self._takes(step.slots[slot], step)]
        down = [take for take in self._takes(step.slots["DOWN"], step)] if "DOWN" in step.slots else []
        joined = step.slots["X"].joined if "X" in step.slots else "and"
        return Step(self.number if step.verb not in UNNUMBERED else 0, step.verb, tuple(what), tuple(down), joined, self._vessel(step, "V"),
                    self._vessel(step, "W") or self._place(step), step, self.stage)

    def _name(self, step: tree.Step) -> None:
        if step.name in self.called and self.called[step.name] != step.span:
            self.findings.append(slip(step.span, f"two steps are called `{step.name}`", "Give one of them another name."))
        if step.name in self.places:
            self.findings.append(slip(step.span, f"`{step.name}` is a vessel and cannot be the name of a step too", f"Call the step {step.name}-step, for example."))
        self.called.setdefault(step.name, step.span)

    # ---- vessels and places

    def _vessel(self, step: tree.Step, slot: str) -> str:
        if slot not in step.slots:
            return ""
        word = step.slots[slot].items[0].what
        if word.text not in self.places:
            self.findings.append(self._no_vessel(word))
        return word.text

    def _place(self, step: tree.Step) -> str:
        if "PLACE" not in step.slots:
            return ""
        what = step.slots["PLACE"].items[0].what
        if isinstance(what, tree.Word) and what.text not in self.places:
            self.findings.append(self._no_vessel(what))
        return what.text

    def _no_vessel(self, word: tree.Word) -> Finding:
        known = did_you_mean(word.text, self.places)
        return slip(word.span, f"there is no vessel `{word.text}`", known or f"Put a line `vessel {word.text}` above `method`.")

    # ---- what is added

    def _takes(self, objects: tree.Objects, step: tree.Step) -> list[Take]:
        excepted = {row.code for text in objects.excepted for row in self._rows(text, None, step)}
        self._check_excepted(objects, excepted)
        takes = [self._take(item, step) for item in objects.items]
        return [take._replace(rows=tuple(row for row in take.rows if row.code not in excepted)) if take.phase else take for take in takes]

    def _check_excepted(self, objects: tree.Objects, excepted: set[str]) -> None:
        inside = {row.code for item in objects.items if isinstance(item.what, tree.PhaseName) for row in self._phase_rows(item.what.letter)}
        for text in objects.excepted:
            rows = self.by_name.get(fold(text.text), [])
            if rows and not any(row.code in inside for row in rows):
                self.findings.append(slip(text.span, f"`{text.text}` is not in this phase, so there is nothing to except", "Leave it out, or name the right phase."))

    def _phase_rows(self, letter: str) -> tuple[Row, ...]:
        return self.phases[letter].rows if letter in self.phases else ()

    def _take(self, item: tree.Item, step: tree.Step) -> Take:
        what, share = item.what, _share(item.share)
        if isinstance(item.share, tree.Quantity) and share is None and not item.share.is_open:
            self.findings.append(slip(item.share.span, "an amount of a material stands in the formula, not in a step",
                                      'Write a share of the row, such as 20 % of "purified water", or split the row in two.'))
        if isinstance(item.share, tree.Quantity) and item.share.is_open:
            share = Fraction(0)                             # `? %` of it: nothing known is taken
        if isinstance(what, tree.Open):
            return Take((), "", share, False, what.span, open=True)
        if isinstance(what, tree.HoldBack):
            return Take(tuple(row for row in self.rows if row.hold_back), "", None, True, what.span)
        if isinstance(what, tree.PhaseName):
            if what.letter not in self.phases:
                self.findings.append(self._no_phase(what))
            return Take(self._phase_rows(what.letter), "", share, False, what.span, what.letter)
        if isinstance(what, tree.Word):
            return self._named(what, share)
        return Take(tuple(self._rows(what, item.phase, step)), "", share, False, what.span)

    def _named(self, word: tree.Word, share) -> Take:
        if word.text in self.places:
            return Take((), word.text, share, False, word.span)
        if fold(word.text) in self.by_name:
            self.findings.append(slip(word.span, f"`{word.text}` is a material and stands in double quotes here", f'Write "{word.text}".'))
            return Take(tuple(self.by_name[fold(word.text)]), "", share, False, word.span)
        materials = near(word.text, self.by_name, 1)
        fix = did_you_mean(word.text, self.places) or (f'If you mean the material, write "{materials[0]}" in double quotes.' if materials else
                                                       f"Put a line `vessel {word.text}` above `method`; a material stands in double quotes.")
        self.findings.append(slip(word.span, f"there is no vessel `{word.text}`", fix))
        return Take((), "", share, False, word.span)

    def _no_phase(self, name: tree.PhaseName) -> Finding:
        return slip(name.span, f"there is no phase {name.letter} in the formula", f"The formula has {either(self.phases)}." if self.phases else "The formula has no phase.")

    def _rows(self, text: tree.Text, phase: tree.PhaseName | None, step: tree.Step) -> list[Row]:
        rows = self.by_name.get(fold(text.text), [])
        if phase is not None:
            if phase.letter not in self.phases:
                self.findings.append(self._no_phase(phase))
            inside = [row for row in rows if row.phase == phase.letter]
            if rows and not inside:
                self.findings.append(slip(text.span, f"`{text.text}` is not in phase {phase.letter}", f"It stands in {either({row.phase for row in rows})}."))
            return inside
        if not rows and fold(text.text) not in self.absent and step.verb not in OUTSIDE_THE_FORMULA:
            fix = did_you_mean(text.text, [name for row in self.rows for name in (row.name, *row.material.names)],
                               f"Give it a row in the formula: with its figure, `as needed, at most ... %`, or `? %  {text.text}`.")
            self.findings.append(slip(text.span, f"`{text.text}` is not in the formula", fix))
        return rows

    # ---- steps that others speak of

    def _check_spoken_of(self, items: tuple) -> None:
        for step in walk_steps(items):
            for clause in step.clauses:
                name = _spoken(clause)
                if name and name not in self.called:
                    fix = did_you_mean(name, self.called, f"Name a step by writing `called {name}` behind it.")
                    self.findings.append(slip(clause.span, f"no step is called `{name}`", fix))


def _spoken(clause: tree.Clause) -> str:
    if clause.kind in ("during", "after", "just before", "before step"):
        return clause.value
    return clause.value[1] if clause.kind in ("within of", "last of") else ""


def walk_steps(items):
    """Every written step, whatever block it stands in."""
    for item in items:
        if isinstance(item, tree.Step):
            yield item
        elif isinstance(item, tree.Block):
            for branch in item.branches:
                yield from walk_steps(branch.items)


def _share(share) -> "Fraction | str | None":
    """A written share: '', 'rest', 'half', '1/3' or a Quantity in per cent."""
    if share == "" or share is None:
        return None
    if share == "rest":
        return "rest"
    if share == "half":
        return Fraction(1, 2)
    if isinstance(share, tree.Quantity):
        ends = quantities.exact(share)
        return ends[0] if ends is not None and share.unit.startswith("%") else None
    top, _, bottom = str(share).partition("/")
    return Fraction(int(top), int(bottom)) if int(bottom or 0) else None
