"""Changes of the formula: materials, amounts, phases."""

from collections.abc import Iterator

from procsheet.changes.change import Change
from procsheet.model.material import fold
from procsheet.model.method import Method, Row

SAME = 5e-7                             # of the batch: rounding


def changed(old: Method, new: Method) -> Iterator[Change]:
    before, after = _by_name(old), _by_name(new)
    for key, row in before.items():
        if key not in after:
            yield Change("formula", row.name, _amount(row, old), "", f"{row.name}, {_amount(row, old)}, is left out")
    for key, row in after.items():
        if key not in before:
            yield Change("formula", row.name, "", _amount(row, new), f"{row.name} is new, {_amount(row, new)}", row.span.line)
        else:
            yield from _row(before[key], row, old, new)


def _row(one: Row, other: Row, old: Method, new: Method) -> Iterator[Change]:
    was, now, line = _amount(one, old), _amount(other, new), other.span.line
    if abs(_share(one, old) - _share(other, new)) > SAME or was != now and one.kind != "closing":
        why = "as what is left to 100 %" if other.kind == "closing" else ""
        yield Change("formula", other.name, was, now, f"{other.name}: {was} becomes {now}{f', {why}' if why else ''}", line)
    for word, was, now in (("phase", one.phase, other.phase), ("cap", _share_of(one.cap, old), _share_of(other.cap, new)), ("hold-back", _share_of(one.hold_back, old), _share_of(other.hold_back, new)),
                           ("range", _range(one, old), _range(other, new)), ("optional", "optional" * one.optional, "optional" * other.optional)):
        if was != now:
            yield Change("formula", other.name, was, now, f"{other.name}: {word} {was or 'not written'} becomes {now or 'not written'}", line)


def _by_name(method: Method) -> dict[tuple[str, int], Row]:
    """A material that stands twice is told apart by its order."""
    out: dict[tuple[str, int], Row] = {}
    for row in method.rows:
        name = fold(row.name)
        out[name, sum(key[0] == name for key in out)] = row
    return out


def _share(row: Row, method: Method) -> float:
    kilograms = row.mass if row.mass is not None else row.guide if row.guide is not None else row.cap
    return float(kilograms or 0) / float(method.mass) if method.mass else 0.0


def _amount(row: Row, method: Method) -> str:
    about = "about " if row.kind in ("closing", "corrector") else ""
    return f"{about}{100 * _share(row, method):.4g}\u00a0%" if row.kind != "open" else "an open dose"


def _share_of(mass, method: Method) -> str:
    return f"{100 * float(mass) / float(method.mass):.4g}\u00a0%" if mass else ""


def _range(row: Row, method: Method) -> str:
    return "–".join(_share_of(end, method) for end in row.within) if row.within else ""
