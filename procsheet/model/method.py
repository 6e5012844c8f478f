"""The method: materials resolved, shares closed to 100 %, quantities in SI, each with the span it came from."""

from fractions import Fraction
from typing import NamedTuple

from procsheet.model.material import Material
from procsheet.source import Span
from procsheet.syntax import tree


class Row(NamedTuple):
    """A row of the formula. Amounts are exact, for one basis batch.

    kind        'figure', 'closing', 'corrector' or 'open'
    measured    'mass' or 'volume': how it is weighed or measured out
    amount      kg or m³ as supplied (assay corrected), None for an open dose; for a closing row by volume what is expected
    mass        kg, None where it is a volume and no density is known
    guide, cap  of a corrector, in kg
    hold_back   kg of it kept apart for rinsing or quenching
    """

    code: str                           # A1
    phase: str
    material: Material
    kind: str
    measured: str
    amount: Fraction | None
    mass: Fraction | None
    guide: Fraction | None
    cap: Fraction | None
    hold_back: Fraction
    within: tuple[Fraction, Fraction] | None
    optional: bool
    name: str
    remark: str
    span: Span
    name_span: Span
    written: tree.Row
    assumed_density: bool = False


class Phase(NamedTuple):
    letter: str
    title: str
    in_pack: bool
    rows: tuple[Row, ...]
    span: Span


class Take(NamedTuple):
    """What one item of a step takes: rows of the formula, or a vessel. share: a fraction of it, 'rest', or None for all of it."""

    rows: tuple[Row, ...]
    vessel: str
    share: "Fraction | str | None"
    hold_back: bool
    span: Span
    phase: str = ""                     # the phase it was named by, '' where a material was named
    open: bool = False                  # written `?`


class Step(NamedTuple):
    """A step with its names resolved. number: as it is printed, 0 for notes and cautions."""

    number: int
    verb: str
    what: tuple[Take, ...]              # X
    down: tuple[Take, ...]              # what brings a value down
    joined: str                         # 'or' where the operator chooses among `what`
    vessel: str                         # V
    into: str                           # W, or the place it goes to
    written: tree.Step
    stage: str

    @property
    def name(self) -> str:
        return self.written.name

    @property
    def span(self) -> Span:
        return self.written.span

    def clause(self, *kinds: str) -> tree.Clause | None:
        return self.written.clause(*kinds)

    def has(self, *kinds: str) -> bool:
        return self.written.has(*kinds)

    def value(self, *kinds: str):
        found = self.written.clause(*kinds)
        return found.value if found else None


class Block(NamedTuple):
    """Either, or: kind 'choose', 'where', 'if' or 'repeat'; branches of (name, items)."""

    kind: str
    head: str
    branches: tuple[tuple[str, tuple], ...]
    written: tree.Block


class Header(NamedTuple):
    product: str = ""
    type: str = ""
    used_as: tuple[str, ...] = ()       # of properties.USES
    code: str = ""
    revision: str = ""
    revision_reason: str = ""
    revision_date: str = ""
    made_for: str = ""
    written_by: str = ""
    checked_by: str = ""
    proven_on: str = ""
    proven_at: Fraction | None = None
    materials: tuple[str, ...] = ()
    yields: tuple[tuple[str, Fraction, Fraction, str], ...] = ()    # what, low, high, as written
    keeps: str = ""


class Method(NamedTuple):
    """basis: kg or m³ of one batch as written, or the sum of its rows; `by_volume` says which; mass: kg of it, as far as known."""

    file: str
    header: Header
    basis: Fraction
    by_volume: bool
    basis_written: str
    mass: Fraction
    phases: tuple[Phase, ...]
    places: tuple[tree.Place, ...]
    items: tuple                        # tree.Stage, Step, Block
    limits: tuple[tree.Limit, ...]
    packs: tuple[tree.Pack, ...]
    accepts: tuple[tree.Accept, ...]
    as_material: tuple[tree.Entry, ...]
    library: object
    draft: bool                         # some `?` is left

    @property
    def rows(self) -> tuple[Row, ...]:
        return tuple(row for phase in self.phases for row in phase.rows)

    @property
    def closing(self) -> Row | None:
        return next((row for row in self.rows if row.kind == "closing"), None)

    @property
    def vessels(self) -> tuple[str, ...]:
        return tuple(place.name for place in self.places if place.kind == "vessel")

    def steps(self) -> list[Step]:
        """Every step in the order of the file, whatever block it stands in."""
        return list(_steps(self.items))


def _steps(items):
    for item in items:
        if isinstance(item, Step):
            yield item
        elif isinstance(item, Block):
            for _, branch in item.branches:
                yield from _steps(branch)
