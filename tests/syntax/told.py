"""A tree in plain lines, so that a test can say what a sentence was read as."""

from procsheet.source import Span
from procsheet.syntax import tree


def told(value) -> str:
    """One line for a node: `add X=[side] V=main | below 40 °C; during=cooling`."""
    for kind, write in WRITERS:
        if isinstance(value, kind):
            return write(value)
    return str(value)


def _quantity(value) -> str:
    digits = value.low if value.low == value.high else f"{value.low}..{value.high}"
    words = [value.bound, "about" if value.about else "", digits, value.unit, value.relative, f"of '{value.of}'" if value.of else ""]
    return " ".join(word for word in words if word)


def _item(value) -> str:
    share = f"{told(value.share)} of " if value.share else ""
    return share + told(value.what) + (f" from {value.phase.letter}" if value.phase else "")


def _objects(value) -> str:
    items = f" {value.joined} ".join(_item(item) for item in value.items)
    return f"[{items}{' except ' + ', '.join(text.text for text in value.excepted) if value.excepted else ''}]"


def _step(value) -> str:
    slots = " ".join(f"{key}={told(slot)}" for key, slot in value.slots.items())
    clauses = "; ".join(told(clause) for clause in value.clauses)
    name = f" | called {value.name}" if value.name else ""
    return f"{'? ' if value.to_confirm else ''}{value.verb} {slots} | {clauses}{name}".replace("  |", " |").strip()


def _block(value) -> str:
    times, until = (f" {told(part)}" if part is not None else "" for part in (value.times, value.until))
    return f"{value.kind} {value.head}{times}{until}: " + " / ".join(f"{branch.name or '-'} {len(branch.items)}" for branch in value.branches)


WRITERS = (
    (tree.Quantity, _quantity), (tree.Item, _item), (tree.Objects, _objects), (tree.Step, _step), (tree.Block, _block),
    (tree.Point, lambda value: f"<{value.name}{' of ' + value.of if value.of else ''}>"),
    (tree.Text, lambda value: f"'{value.text}'"), (tree.Word, lambda value: value.text),
    (tree.PhaseName, lambda value: f"phase {value.letter}"),
    (tree.Open, lambda value: "?"), (tree.HoldBack, lambda value: "hold-back"), (tree.Setting, lambda value: f"dial {value.text}"),
    (tree.Tools, lambda value: "{" + f" {value.joined} ".join(value.names) + "}"),
    (tree.States, lambda value: "<" + ", ".join(value.names) + ">"),
    (tree.Measure, lambda value: f"{value.name}{' of ' + value.of if value.of else ''}={told(value.target)}"),
    (tree.Clause, lambda value: ("or " if value.either else "") + value.kind + ("" if value.value is None else f"={told(value.value)}")),
    (tree.Stage, lambda value: f"stage {value.title}"),
    (tree.Evidence, lambda value: f"from '{value.source}' ({value.grade})"),
    (tree.Limit, lambda value: told(value.measure) + "".join(f"; {told(clause)}" for clause in value.clauses)),
    (tuple, lambda value: "(" + ", ".join(told(part) for part in value) + ")"),
)


def entry(value: tree.Entry) -> str:
    """`melts: 49..56 °C from 'handbook' (handbook)`"""
    said = value.text or ", ".join(" ".join(told(word) for word in group) for group in value.groups)
    return f"{value.key}: {said}{' ' + told(value.evidence) if value.evidence else ''}".strip()


def row(value: tree.Row) -> str:
    """`corrector about 0.1 % at most 0.3 % | citric acid`"""
    parts = [value.kind, told(value.amount) if value.amount else "", f"guide {told(value.about)}" if value.about else "",
             f"cap {told(value.at_most)}" if value.at_most else "",
             f"within {told(value.within)}" if value.within else "", "pure" if value.as_pure else "", "optional" if value.optional else ""]
    under = [f"hold back {told(figure)}" for figure in value.hold_back] + [f"or {row(other)}" for other in value.alternatives]
    return " ".join([part for part in parts if part] + ["|", value.name]) + "".join(f" / {one}" for one in under)


def without_places(value):
    """The same tree with every span left out."""
    if isinstance(value, Span):
        return None
    if isinstance(value, dict):
        return {key: without_places(part) for key, part in value.items()}
    if isinstance(value, tuple):
        return (type(value).__name__, *(without_places(part) for part in value))
    return value
