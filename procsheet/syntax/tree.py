"""The tree: what was written, word for word, each node with its span. It looks no name up and converts no unit."""

from typing import NamedTuple

from procsheet.source import NOWHERE, Span


class Quantity(NamedTuple):
    """A figure or range as typed. `low` and `high` are the digits of the text; `?` is an open figure; no range: the same twice.

    bound: '', 'below', 'above', 'at most', 'at least'.  relative: '', 'above flash point', 'below set point' ...; `of` names the material.
    """

    low: str
    high: str
    unit: str
    bound: str
    about: bool
    span: Span
    relative: str = ""
    of: str = ""

    @property
    def is_open(self) -> bool:
        return self.low == "?"


class Point(NamedTuple):
    """`flash point of "x"`, used as a ceiling."""

    name: str
    of: str
    span: Span


class Text(NamedTuple):
    """Words in double quotes: a material, a device, anything a person reads."""

    text: str
    span: Span


class Word(NamedTuple):
    """A vessel, a step's name, or a word of a property."""

    text: str
    span: Span


class PhaseName(NamedTuple):
    letter: str
    span: Span


class Open(NamedTuple):
    """A `?` that stands for a material, tool or step."""

    span: Span


class HoldBack(NamedTuple):
    span: Span


class Item(NamedTuple):
    """One thing that is added: a phase, vessel, material or the hold-back.

    share: '' all of it, 'rest', a fraction '1/3', or a Quantity such as 20 %.  phase: the phase it is taken from, if said.
    """

    what: "PhaseName | Word | Text | HoldBack | Open"
    share: "str | Quantity" = ""
    phase: PhaseName | None = None


class Objects(NamedTuple):
    """A list of what is added. joined: 'and', or 'or' where the operator chooses."""

    items: tuple[Item, ...]
    excepted: tuple[Text, ...]
    joined: str
    span: Span


class Tools(NamedTuple):
    """Tools named together; names are plain names of the table, or quoted words. joined: 'and' or 'or'."""

    names: tuple[str, ...]
    joined: str
    span: Span


class States(NamedTuple):
    names: tuple[str, ...]
    span: Span


class Setting(NamedTuple):
    """A dial setting with no unit, printed as it stands."""

    text: str
    span: Span


class Measure(NamedTuple):
    """A property and the value it must have. target is a Quantity, a Text, or None where nothing is said."""

    name: str
    of: str
    target: "Quantity | Text | None"
    span: Span


class Clause(NamedTuple):
    """What follows a verb: its kind (clauses.py), its value or None for a phrase; either: it came after `or`."""

    kind: str
    value: object
    span: Span
    either: bool = False


class Remark(NamedTuple):
    text: str
    span: Span


class Step(NamedTuple):
    """A step: the verb's plain name, what its form asks for by slot (X, V, W, T, R, Q, P, text, DEVICE, PLACE, DOWN), and its clauses."""

    verb: str
    slots: dict
    clauses: tuple[Clause, ...]
    span: Span                          # the whole step, as far as its first line goes
    said: str                           # the verb as it was written
    name: str = ""
    to_confirm: bool = False            # written with a leading `?`
    remark: Remark | None = None

    def clause(self, *kinds: str) -> Clause | None:
        return next((clause for clause in self.clauses if clause.kind in kinds), None)

    def has(self, *kinds: str) -> bool:
        return self.clause(*kinds) is not None


class Stage(NamedTuple):
    title: str
    span: Span


class Branch(NamedTuple):
    name: str                           # the option's name, or '' and 'otherwise'
    items: tuple
    span: Span


class Block(NamedTuple):
    """kind: 'choose', 'where' (head: what the plant has), 'if' (head: what is seen), 'repeat' (head: times, until: end point)."""

    kind: str
    head: str
    branches: tuple[Branch, ...]
    span: Span
    times: "Quantity | None" = None
    until: object = None


class Row(NamedTuple):
    """A line of the formula. kind: 'figure', 'closing', 'corrector', 'open', 'q.s.'."""

    kind: str
    amount: Quantity | None             # the figure, or what the closing row closes to
    about: Quantity | None
    at_most: Quantity | None
    within: Quantity | None
    as_pure: bool
    optional: bool
    name: str
    name_span: Span
    span: Span
    remark: Remark | None = None
    hold_back: tuple[Quantity, ...] = ()
    alternatives: tuple["Row", ...] = ()


class Phase(NamedTuple):
    letter: str
    title: str
    in_pack: bool
    rows: tuple[Row, ...]
    span: Span


class Place(NamedTuple):
    """kind: 'vessel', 'mould' or 'container'."""

    kind: str
    name: str
    text: str
    span: Span


class Evidence(NamedTuple):
    source: str
    grade: str                          # one of properties.GRADES
    span: Span = NOWHERE


class Entry(NamedTuple):
    """A line of a header, material, plant or pack: its key, its groups of words and figures between commas, or its text."""

    key: str
    groups: tuple[tuple, ...]
    text: str
    evidence: Evidence | None
    span: Span
    key_span: Span
    lines: tuple["Entry", ...] = ()     # a block's own lines
    remark: Remark | None = None

    @property
    def words(self) -> tuple:
        return tuple(word for group in self.groups for word in group)

    @property
    def is_open(self) -> bool:
        """Whether its figure is written `?`: looked for, and not known."""
        return any(getattr(word, "is_open", False) for word in self.words)


class Limit(NamedTuple):
    measure: Measure
    clauses: tuple[Clause, ...]
    remark: Remark | None
    span: Span


class Accept(NamedTuple):
    name: str
    material: str
    step: str
    reason: str
    by: str
    span: Span


class Override(NamedTuple):
    material: str
    entry: Entry
    span: Span


class Pack(NamedTuple):
    title: str
    lines: tuple[Entry, ...]
    span: Span


class MethodTree(NamedTuple):
    file: str
    header: tuple[Entry, ...]
    phases: tuple[Phase, ...]
    overrides: tuple[Override, ...]
    places: tuple[Place, ...]
    items: tuple                        # Stage, Step and Block, as written
    limits: tuple[Limit, ...]
    as_material: tuple[Entry, ...]
    packs: tuple[Pack, ...]
    accepts: tuple[Accept, ...]
    has_method: bool = False
    broken: tuple[Span, ...] = ()       # lines below `method` that could not be read as a step


class DataTree(NamedTuple):
    """A materials or plant file: its blocks, each an Entry with lines of its own."""

    file: str
    blocks: tuple[Entry, ...]
