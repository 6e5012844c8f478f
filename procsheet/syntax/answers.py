"""Pieces to clauses: what stands behind an opener says which question it answers (`at 75 °C`, `at 30 rpm`, `at -0.5 bar`)."""

from procsheet.findings import Finding
from procsheet.syntax import clauses, misfits, tree
from procsheet.syntax.build import Piece
from procsheet.syntax.values import dimension, figured, is_name, name_of, text_of
from procsheet.syntax.verbs import Verb

AT_KIND = {"temperature": "at", "rotation": "speed", "speed": "speed", "setting": "setting", "gauge pressure": "pressure",
           "pressure": "pressure",
           "mass rate": "rate", "volume rate": "rate", "temperature rate": "heat rate", "open": "at"}
FOR_KIND = {"time": "for", "passes": "passes", "times": "times", "cycles": "cycles", "portions": "in portions", "open": "for"}


def clause_of(piece: Piece, verb: Verb | None = None, before: Piece | None = None) -> tuple[tree.Clause | None, Finding | None]:
    """The clause a piece stands for, or why it stands for none."""
    opener, value, span, either = piece
    if opener == "phrase":
        return tree.Clause(clauses.PHRASE_KIND.get(value, {"with nitrogen": "nitrogen"}.get(value, value)), None, span, either), None
    if opener == "":
        kind = FOR_KIND.get(dimension(value), "for")
        return (tree.Clause(kind, value, span, either), None) if kind in ("passes", "times") else (None, misfits.stray(piece, verb, before))
    made = READERS[opener](value) if opener in READERS else None
    if made is None:
        return None, misfits.wrong_value(piece, verb)
    return tree.Clause(made[0], made[1], span, either), None


def with_targets(pieces: list[Piece]) -> list[Piece]:
    """`pH 5.0-5.5`: the figure or words behind a property are its target; `at 25 °C` behind it says how it is measured."""
    out: list[Piece] = []
    measured = False
    for piece in pieces:
        last = out[-1].value if out else None
        if isinstance(last, tree.Measure) and last.target is None and not piece.either and (target := _target(piece,
                                                                                                              last.name)) is not None:
            out[-1] = out[-1]._replace(value=last._replace(target=target))
            measured = True
        elif measured and piece.opener == "at" and not piece.either and dimension(piece.value) == "temperature":
            out.append(piece._replace(opener="measured at"))
        else:
            measured = isinstance(piece.value, tree.Measure) or measured and piece.opener in ("on", "after")
            out.append(piece)
    return out


def _target(piece: Piece, name: str):
    value = piece.value
    if isinstance(value, tree.Quantity) and (piece.opener in ("", "to") or value.bound == piece.opener):
        return value
    if name == "stable" and piece.opener == "for" and dimension(value) == "time":
        return value
    if piece.opener == "" and dimension(value) == "open":
        return tree.Quantity("?", "?", "", "", False, piece.span)
    return text_of(value) if piece.opener == "" else None


# ---- one reader an opener: the clause's kind and value, or None where it does not take this

def _figure(kind: str, *dimensions: str):
    return lambda value: (kind, figured(value)) if dimension(value) in (*dimensions, "open") else None


def _bound(kind: str):
    """`below 40 °C`; `at least 10 min` alone is how long."""
    def read(value):
        if dimension(value) in ("temperature", "open"):
            return kind, figured(value)
        return ("for", value) if dimension(value) == "time" and kind in ("at most", "at least") else None
    return read


def _ceiling(kind: str):
    return lambda value: (kind, figured(value)) if isinstance(value, tree.Point) or dimension(value) in ("temperature", "open") else None


def _text(kind: str):
    return lambda value: (kind, text_of(value).text) if text_of(value) is not None else None


def _named(kind: str):
    return lambda value: (kind, name_of(value)) if is_name(value) else None


def _by_dimension(kinds: dict[str, str]):
    return lambda value: (kinds[dimension(value)], figured(value)) if dimension(value) in kinds else None


def _within(value):
    of = _time_of_step(value)
    if of is not None:
        return "within of", of
    if dimension(value) in ("time", "open"):
        return "within", figured(value)
    return ("tolerance", value) if isinstance(value, tree.Quantity) else None


def _time_of_step(value):
    """`30 min of cooling` was read as a part of something: a time, and the step's name."""
    if isinstance(value, tree.Objects) and len(value.items) == 1 and isinstance(value.items[0].share, tree.Quantity):
        item = value.items[0]
        if dimension(item.share) == "time" and isinstance(item.what, tree.Word):
            return item.share, item.what.text
    return None


def _last(value):
    of = _time_of_step(value)
    return ("last of", of) if of is not None else None


def _with(value):
    if isinstance(value, tree.Tools):
        return "tool", value
    if isinstance(value, tree.Objects) and not value.excepted and all(isinstance(item.what,
                                                                                 tree.Text) and not item.share for item in value.items):
        return "tool", tree.Tools(tuple(item.what.text for item in value.items), value.joined, value.span)
    return ("tool", tree.Tools(("?",), "and", value.span)) if dimension(value) == "open" else None


def _until(kind: str):
    def read(value):
        if isinstance(value, tree.Measure):
            return (kind, value) if value.target is not None else None
        if isinstance(value, tree.States):
            return kind, value
        if dimension(value) == "temperature":
            return kind, tree.Measure("temperature", "", value, value.span)
        return (kind, text_of(value)) if text_of(value) is not None else None
    return read


def _to(value):
    """`neutralise main with D to pH 6.5` is until."""
    return ("until", value) if isinstance(value, tree.Measure) and value.target is not None else None


def _after(value):
    return _named("after")(value) or _figure("after time", "time")(value)


def _through(value):
    if text_of(value) is not None:
        return "through", text_of(value)
    return ("through", value) if dimension(value) in ("length", "cycles", "open") or isinstance(value, tree.Tools) else None


def _before(value):
    return _text("before")(value) or _named("before step")(value)


def _when(value):
    return _text("when")(value) or _until("when")(value)


READERS = {
    "at": _by_dimension(AT_KIND), "measured at": _figure("measured at", "temperature"),
    **{bound: _bound(bound) for bound in ("below", "above", "at most", "at least")},
    **{opener: _figure(opener, "temperature") for opener in ("both at", "both within", "keeping", "jacket not below", "jacket not above")},
    **{opener: _ceiling(opener) for opener in ("never above", "never below")},
    **{opener: _figure(opener, "time") for opener in ("over", "then for", "each for", "every")},
    "for": _by_dimension(FOR_KIND), "within": _within, "in": _figure("in portions", "portions"),
    "with": _with, "until": _until("until"), "each until": _until("each until"), "to": _to,
    "during": _named("during"), "after": _after, "just before": _named("just before"), "in the last": _last, "when": _when,
    "before": _before,
    "if": _text("if"), "if not": _text("if not"), "because": _text("because"), "called": _named("called"),
    "on": _figure("on dilution", "share", "volume share"), "plus": _figure("plus", "share", "volume share"), "through": _through,
}
