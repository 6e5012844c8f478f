"""The rows of a formula to exact amounts, closed to the batch."""

from fractions import Fraction
from typing import NamedTuple

from procsheet import units
from procsheet.findings import Finding, Label
from procsheet.model import quantities
from procsheet.model.material import Material, fold
from procsheet.model.method import Phase, Row
from procsheet.syntax import tree
from procsheet.syntax.slips import slip

WATER = Fraction(1000)                  # kg/m³, taken where no density is known, and said so


class Basis(NamedTuple):
    """What one batch is: kg, m³, or nothing said ('the sum')."""

    amount: Fraction | None
    dimension: str                      # 'mass', 'volume' or 'sum'
    written: str


class Draft(NamedTuple):
    """A row on its way: the figure in SI where it stands on its own feet, or a share that waits for the batch."""

    written: tree.Row
    phase: str
    code: str
    material: Material
    kind: str
    dimension: str                      # of the written figure
    figure: Fraction | None


def read_basis(entry: tree.Entry | None) -> tuple[Basis, list[Finding]]:
    if entry is None:
        return Basis(Fraction(1), "mass", "1 kg"), []
    figure = next((word for word in entry.words if isinstance(word, tree.Quantity)), None)
    if figure is None:
        words = " ".join(word.text for word in entry.words if hasattr(word, "text"))
        if words.lower().endswith("sum"):
            return Basis(None, "sum", "the sum"), []
        return Basis(Fraction(1), "mass", "1 kg"), [slip(entry.span, "this basis is not understood", "Write it as: basis 1 kg, basis 10 L, or basis the sum")]
    kind = units.dimension(figure.unit)
    amount = quantities.middle(figure)
    if kind == "parts" and amount:
        return Basis(amount / 1000, "mass", quantities.shown(figure)), []
    if kind not in ("mass", "volume") or not amount or amount <= 0:
        return Basis(Fraction(1), "mass", "1 kg"), [slip(entry.span, "a basis is a weight or a volume", "Write it as: basis 1 kg, basis 10 L, or basis the sum")]
    return Basis(amount, kind, quantities.shown(figure)), []


def close(phases: list[tuple[tree.Phase, list[Draft]]], basis: Basis, product_density: Fraction | None) -> tuple[tuple[Phase, ...], Fraction, Fraction]:
    """The phases with every amount, the basis, and the mass of one batch [kg]."""
    drafts = [draft for _, rows in phases for draft in rows]
    total = _total(drafts, basis, product_density)
    made = {id(draft): _row(draft, basis, total) for draft in drafts}
    closing = next((draft for draft in drafts if draft.kind == "closing"), None)
    if closing is not None:
        made[id(closing)] = _closing_row(made[id(closing)], closing, list(made.values()), basis, total)
    out = tuple(Phase(phase.letter, phase.title, phase.in_pack, tuple(made[id(draft)] for draft in rows), phase.span) for phase, rows in phases)
    mass = total if basis.dimension != "volume" else sum((row.mass or Fraction(0) for row in made.values() if row.kind != "corrector"), Fraction(0))
    return out, basis.amount if basis.amount is not None else total, mass or Fraction(1)


def _total(drafts: list[Draft], basis: Basis, product_density: Fraction | None) -> Fraction:
    """kg of one batch: written, or the sum of the rows."""
    if basis.dimension == "mass":
        return basis.amount
    if basis.dimension == "volume":
        return basis.amount * (product_density or WATER)
    rows = [draft for draft in drafts if draft.kind == "figure" and draft.figure is not None]
    solid = sum((_standing_mass(draft) or Fraction(0) for draft in rows), Fraction(0))
    shares = sum((draft.figure for draft in rows if draft.dimension == "share"), Fraction(0))
    if solid == 0:
        return Fraction(1)
    return solid / (1 - shares) if shares < 1 else solid


def _standing_mass(draft: Draft) -> Fraction | None:
    """kg of a row written as a weight, volume, parts or drops; None for a share."""
    if draft.figure is None:
        return None
    if draft.dimension == "mass":
        return draft.figure
    if draft.dimension == "parts":
        return draft.figure / 1000
    if draft.dimension == "volume":
        return draft.figure * (draft.material.density or WATER)
    if draft.dimension == "drops":
        drop = draft.material.figure("mass of a drop")
        return draft.figure * (Fraction(drop.value.low).limit_denominator(10**9) if drop else Fraction(5, 100000))
    return None


def _amount(draft: Draft, figure: Fraction | None, dimension: str, basis: Basis, total: Fraction) -> tuple[str, Fraction | None]:
    """How a figure is measured out, and how much: kg or m³."""
    if figure is None:
        return "mass", None
    if dimension == "volume":
        return "volume", figure
    if dimension == "volume share" and basis.dimension == "volume":
        return "volume", figure * basis.amount
    if dimension in ("share", "volume share"):
        return "mass", figure * total
    if dimension == "density" and basis.dimension == "volume":
        return "mass", figure * basis.amount                # % w/v
    return "mass", _standing_mass(draft._replace(figure=figure, dimension=dimension))


def _row(draft: Draft, basis: Basis, total: Fraction) -> Row:
    written = draft.written
    measured, amount = _amount(draft, draft.figure, draft.dimension, basis, total)
    if written.as_pure and amount is not None and draft.material.assay:
        amount = amount / draft.material.assay
    density = draft.material.density
    mass = amount if measured == "mass" else amount * (density or WATER) if amount is not None else None
    return Row(draft.code, draft.phase, draft.material, draft.kind, measured, amount, mass, _mass_of(written.about, draft, basis, total),
               _mass_of(written.at_most, draft, basis, total), sum((_mass_of(one, draft, basis, total) or Fraction(0) for one in written.hold_back), Fraction(0)),
               _within(written.within, draft, basis, total), written.optional, written.name, written.remark.text if written.remark else "", written.span,
               written.name_span, written, measured == "volume" and density is None)


def _mass_of(figure: tree.Quantity | None, draft: Draft, basis: Basis, total: Fraction) -> Fraction | None:
    """kg of a guide, cap or hold-back."""
    if figure is None or figure.is_open:
        return None
    measured, amount = _amount(draft, quantities.middle(figure), units.dimension(figure.unit), basis, total)
    return amount * (draft.material.density or WATER) if measured == "volume" and amount is not None else amount


def _within(figure: tree.Quantity | None, draft: Draft, basis: Basis, total: Fraction):
    ends = quantities.exact(figure) if figure is not None else None
    if ends is None:
        return None
    low, high = (_amount(draft, end, units.dimension(figure.unit), basis, total)[1] for end in ends)
    return (low, high) if low is not None and high is not None else None


def _closing_row(row: Row, draft: Draft, rows: list[Row], basis: Basis, total: Fraction) -> Row:
    """What is left for the closing row: by weight exactly, to the mark of a volume only as a guess."""
    others = [one for one in rows if one.kind == "figure"]
    if basis.dimension != "volume":
        rest = total - sum((one.mass or Fraction(0) for one in others), Fraction(0))
        return row._replace(measured="mass", amount=rest, mass=rest)
    taken = sum((one.amount if one.measured == "volume" else (one.mass or 0) / (one.material.density or WATER) for one in others if one.amount is not None), Fraction(0))
    rest = basis.amount - taken
    return row._replace(measured="volume", amount=rest, mass=rest * (draft.material.density or WATER))


# ---- reading one row


def read_row(written: tree.Row, phase: str, number: int, material: Material, kind: str) -> Draft:
    dimension = units.dimension(written.amount.unit) if written.amount is not None else "share"
    figure = quantities.middle(written.amount) if written.amount is not None and kind == "figure" else None
    return Draft(written, phase, f"{phase if phase != 'all' else ''}{number}", material, kind, dimension, figure)


def kind_of_qs(written: tree.Row, material: Material, adjusting: set[str], has_closing: bool) -> str:
    """Plain `q.s.`: in an adjust step a corrector; water without a figure the closing row; else an open dose."""
    if fold(written.name) in adjusting or any(fold(name) in adjusting for name in material.names):
        return "corrector"
    return "closing" if not has_closing and material.is_a("water") else "open"


def ranged(written: tree.Row) -> bool:
    return written.kind == "figure" and written.amount is not None and written.amount.low != written.amount.high


def told_as(draft: Draft) -> str:
    return {"corrector": "what the adjust step uses that day", "closing": "the row that closes to 100 %", "open": "an open dose, left out until it has a figure"}[draft.kind]


def note(name: str, title: str, row: tree.Row, fix: str = "", level: str = "NOTE", **more) -> Finding:
    return Finding(level, name, title, Label(row.span), fix=fix, material=row.name, **more)
