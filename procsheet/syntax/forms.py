"""A step against its table row: what its form asks for goes into slots, the rest must be clauses it may have."""

import re
from functools import lru_cache
from typing import NamedTuple

from procsheet import units
from procsheet.findings import Finding
from procsheet.source import Span
from procsheet.syntax import clauses, slips, tree
from procsheet.syntax.build import Piece, RawStep
from procsheet.syntax.lines import Logical
from procsheet.syntax.properties import MEASURED_WORD
from procsheet.syntax.verbs import BY_WORD, Verb

MOVING_IN = ("into", "to", "in")
MISSING = {
    "X": "what is added", "V": "which vessel", "W": "into which vessel", "T": "the temperature", "t": "how long", "P": "the pressure",
    "Q": "how much", "MEASURE": "which property, and its value", "PLACE": "into what", "DEVICE": "through what", "text": "the words, in double quotes",
    "E": "the end point", "DOWN": "what brings it down",
}
ASKED = re.compile(r'\[|\]|up with|down with|into|to(?= )|in(?= [VW])|with(?= X)|through|for|at(?= T)|until|PROPERTY R|"text"|PLACE|DEVICE|[XVWTtPQE](?![a-z])|'
                   r"with nitrogen|top and bottom")


class Slot(NamedTuple):
    openers: tuple[str, ...]            # ('',) for what stands bare
    kind: str
    key: str                            # its name in Step.slots
    optional: bool


@lru_cache(maxsize=None)
def slots(form: str, verb: str) -> tuple[Slot, ...]:
    """The slots of a form: `charge X into V` asks for X bare and V behind into."""
    opener, optional, found = "", False, []
    for word in ASKED.findall(form.removeprefix(verb)):
        if word in "[]":
            optional = word == "["
        elif word in ("with nitrogen", "top and bottom"):
            opener = ""
        elif word in ("into", "to", "in", "with", "through", "for", "at", "until", "up with", "down with"):
            opener = word
        else:
            kind = "MEASURE" if word == "PROPERTY R" else word.strip('"')
            key = "DOWN" if opener == "down with" else "UP" if opener == "up with" else kind
            found.append(Slot(_openers(opener, kind), kind, key, optional))
            opener = ""
    return tuple(found)


def _openers(opener: str, kind: str) -> tuple[str, ...]:
    return MOVING_IN if opener in MOVING_IN and kind in "VW" or opener == "into" and kind == "PLACE" else (opener,)


# ---- what kind of thing a value is


def single(value) -> tree.Item | None:
    """The one thing of a list of one, taken whole."""
    if isinstance(value, tree.Objects) and len(value.items) == 1 and not value.items[0].share and not value.excepted:
        return value.items[0]
    return None


def _is_name(value) -> bool:
    item = single(value)
    return item is not None and isinstance(item.what, tree.Word)


def text_of(value) -> tree.Text | None:
    item = single(value)
    return item.what if item is not None and isinstance(item.what, tree.Text) and item.phase is None else None


def dimension(value) -> str:
    """What a quantity measures; 'open' for a bare `?`; '' where it is no quantity."""
    if isinstance(value, tree.Quantity):
        if value.unit == "room":
            return "temperature"
        if value.unit in ("ratio", "fraction", "date"):
            return value.unit
        return "open" if value.is_open and not value.unit else units.dimension(value.unit)
    if isinstance(value, tree.Setting):
        return "setting"
    item = single(value)
    return "open" if item is not None and isinstance(item.what, tree.Open) else ""


def _fits(value, kind: str) -> bool:
    if kind == "X":
        return isinstance(value, tree.Objects)
    if kind in "VW":
        return _is_name(value)
    if kind == "PLACE":
        return _is_name(value) or text_of(value) is not None
    if kind == "text":
        return text_of(value) is not None
    if kind == "MEASURE":
        return isinstance(value, tree.Measure)
    if kind == "E":
        return isinstance(value, (tree.States, tree.Measure)) or text_of(value) is not None
    if kind == "DEVICE":
        return text_of(value) is not None or dimension(value) in ("length", "open") or isinstance(value, tree.Tools)
    wanted = {"T": ("temperature",), "t": ("time",), "P": ("gauge pressure", "pressure"), "Q": ("mass", "volume", "share", "volume share")}[kind]
    return dimension(value) in (*wanted, "open")


# ---- a step


def fit(raw: RawStep, line: Logical) -> tuple[tree.Step | None, list[Finding]]:
    """The step, and what is wrong with it. None where the form itself is not met."""
    verb = BY_WORD[raw.verb]
    pieces = with_targets(list(raw.pieces))
    filled, left, missing, form = min((_try(form, verb, pieces) for form in verb.forms), key=lambda tried: (len(tried[2]), len(tried[1])))
    findings = [_missing(slot, verb, form, raw, left) for slot in missing[:1]]
    made, name, wrong = _clauses(left, verb, filled, bool(missing))
    findings += wrong if not missing else wrong[:0]
    findings += _needed(verb, made, raw) + _repeated(made)
    if missing:
        return None, findings
    values = {slot.key: piece.value for slot, piece in filled}
    step = tree.Step(verb.name, values, tuple(made), line.whole, raw.verb, name, raw.to_confirm, line.remark)
    return step, findings


def with_targets(pieces: list[Piece]) -> list[Piece]:
    """`pH 5.0-5.5`: the figure or words behind a property are its target."""
    out: list[Piece] = []
    for piece in pieces:
        last = out[-1].value if out else None
        if isinstance(last, tree.Measure) and last.target is None and not piece.either and (target := _target(piece)) is not None:
            out[-1] = out[-1]._replace(value=last._replace(target=target), span=out[-1].span)
        else:
            out.append(piece)
    return out


def _target(piece: Piece):
    if isinstance(piece.value, tree.Quantity) and (piece.opener == "" or piece.value.bound == piece.opener):
        return piece.value
    if piece.opener == "" and dimension(piece.value) == "open":
        return tree.Quantity("?", "?", "", "", False, piece.span)
    return text_of(piece.value) if piece.opener == "" else None


def _try(form: str, verb: Verb, pieces: list[Piece]):
    """Fill a form's slots in order. Returns what is filled, what is left, and the slots that are not met."""
    left, filled, missing = list(pieces), [], []
    for slot in slots(form, next((word for word in (verb.name, *verb.also) if form.startswith(word)), verb.name)):
        piece = next((piece for piece in left if piece.opener in slot.openers and _fits(piece.value, slot.kind)), None)
        if piece is not None:
            left.remove(piece)
            filled.append((slot, piece))
        elif not slot.optional:
            missing.append(slot)
    return filled, left, missing, form


def _missing(slot: Slot, verb: Verb, form: str, raw: RawStep, left: list[Piece]) -> Finding:
    shown = f"Write it as: {verb.example}"
    wrong = next((piece for piece in left if piece.opener in slot.openers), None)
    if wrong is not None:
        return slips.slip(wrong.span, f"a {verb.name} step needs {MISSING[slot.key if slot.key in MISSING else slot.kind]} here", shown, _what_it_is(wrong.value))
    stray = next((piece for piece in left if piece.opener == "" and _is_name(piece.value)), None)
    if stray is not None:
        word = single(stray.value).what.text
        guess = slips.near(word, [opener for opener in (*slot.openers, *clauses.BY_OPENER) if opener], 1)
        return slips.slip(stray.span, f"`{word}` does not fit in a {verb.name} step", (f"Did you mean {slips.either(guess)}? " if guess else "") + shown)
    return slips.slip(raw.verb_span, f"this {verb.name} step does not say {MISSING[slot.key if slot.key in MISSING else slot.kind]}", shown, "something is missing")


def _what_it_is(value) -> str:
    kinds = {"temperature": "this is a temperature", "time": "this is a time", "number": "this figure has no unit", "share": "this is a percentage",
             "mass": "this is a weight", "volume": "this is a volume", "speed": "this is a speed", "rotation": "this is a speed"}
    if isinstance(value, tree.Quantity):
        return kinds.get(dimension(value), "this is a figure")
    if text_of(value) is not None:
        return "these are words in quotes"
    if isinstance(value, tree.Objects):
        return "this is a vessel or material" if len(value.items) == 1 else "this is a list"
    return "this is something else"


# ---- clauses


def _clauses(pieces: list[Piece], verb: Verb, filled: list, broken: bool):
    """The clauses of a step, its name, and what does not fit."""
    made, name, wrong = [], "", []
    arrival = next((piece.span for slot, piece in filled if slot.openers == MOVING_IN), None)
    for piece in pieces:
        clause, finding = clause_of(piece, verb)
        if finding is not None:
            wrong.append(finding)
        elif clause.kind == "called":
            name, problem = _name(clause, piece)
            wrong += problem
        else:
            made.append(_of_what_is_added(clause, piece.span, arrival))
            wrong += _forbidden(clause, verb, piece.span)
    return made, name, wrong


def _name(clause: tree.Clause, piece: Piece):
    word = clause.value
    return (word, []) if not slips.reserved(word) else ("", [slips.key_word(piece.span, word)])


def _of_what_is_added(clause: tree.Clause, span: Span, arrival: Span | None) -> tree.Clause:
    """`add side at 60 °C to main`: a temperature that stands before `to main` is the one of the vessel that is added."""
    before = arrival is not None and (span.line, span.column) < (arrival.line, arrival.column)
    return clause._replace(kind=f"added {clause.kind}") if before and clause.kind in ("at", "below", "above", "at most", "at least") else clause


def _forbidden(clause: tree.Clause, verb: Verb, span: Span) -> list[Finding]:
    question = clauses.PHRASE_QUESTION.get(clause.kind) or (clauses.BY_KIND[clause.kind].question if clause.kind in clauses.BY_KIND else "")
    if question not in verb.forbids or clause.kind in ("slowly", "very slowly"):
        return []
    return [slips.slip(span, f"a {verb.name} step cannot say {question.rstrip('?')}", f"Leave it out, or put it with the step it belongs to. Example: {verb.example}")]


def _needed(verb: Verb, made: list, raw: RawStep) -> list[Finding]:
    if "for or until" in verb.needs and not any(clause.kind in ("for", "until", "added for", "within", "over") for clause in made):
        return [slips.slip(raw.verb_span, f"this {verb.name} step does not say how long", f"Write it as: {verb.example}; `for ? min` if it is not known yet")]
    return []


SEVERAL = {"tool", "speed", "setting", "until", "for", "through", "at", "added at", "if not", "in portions"}


def _repeated(made: list) -> list[Finding]:
    """Two clauses of one kind contradict each other, unless `or` stands before the second."""
    seen: dict[str, tree.Clause] = {}
    out = []
    for clause in made:
        if clause.kind in seen and not clause.either and clause.kind not in ("tool", "speed", "setting"):
            out.append(slips.slip(clause.span, "this is said twice in one step", "Keep one of the two, or write `or` before the second.", "the second time"))
        seen.setdefault(clause.kind, clause)
    return out


AT_KIND = {"temperature": "at", "rotation": "speed", "speed": "speed", "setting": "setting", "gauge pressure": "pressure", "pressure": "pressure",
           "mass rate": "rate", "volume rate": "rate", "temperature rate": "heat rate", "open": "at"}


def clause_of(piece: Piece, verb: Verb | None = None) -> tuple[tree.Clause | None, Finding | None]:
    """The clause a piece stands for, or why it stands for none."""
    opener, value, span, either = piece
    if opener == "phrase":
        return tree.Clause(clauses.PHRASE_KIND.get(value, {"with nitrogen": "nitrogen"}.get(value, value)), None, span, either), None
    if opener == "":
        return None, _stray(piece, verb)
    reader = READERS.get(opener)
    made = reader(value) if reader else None
    if made is None:
        return None, _wrong_value(piece, verb)
    return tree.Clause(made[0], made[1], span, either), None


def _stray(piece: Piece, verb: Verb | None) -> Finding:
    shown = f" Example: {verb.example}" if verb else ""
    if _is_name(piece.value):
        word = single(piece.value).what.text
        guess = slips.near(word, [*clauses.BY_OPENER, *clauses.PHRASE_KIND, *clauses.FORM_OPENERS], 2)
        return slips.slip(piece.span, f"`{word}` does not fit here", (f"Did you mean {slips.either(guess)}?" if guess else "It is no clause of the language.") + shown)
    if isinstance(piece.value, tree.Quantity):
        return slips.slip(piece.span, "this figure stands alone", f"Say what it is for, with a word before it: {_openers_for(piece.value)}." + shown)
    if isinstance(piece.value, tree.Measure):
        return slips.slip(piece.span, f"`{piece.value.name}` does not fit here", "A property stands behind check, until, or adjust V to." + shown)
    return slips.slip(piece.span, "this does not fit here", "If it belongs to the list before it, join the two with `and`." + shown)


def _openers_for(value: tree.Quantity) -> str:
    kind = dimension(value)
    return {"temperature": "to, at, below, above, keeping", "time": "for, over, within", "rotation": "at", "speed": "at", "share": "to, of",
            "number": "its unit is missing"}.get(kind, "for, at, to")


def _wrong_value(piece: Piece, verb: Verb | None) -> Finding:
    row = clauses.BY_OPENER.get(piece.opener)
    shown = f" Example: {verb.example}" if verb else ""
    if row is None:
        return slips.slip(piece.span, f"`{piece.opener} ...` does not fit in a {verb.name if verb else 'limit'} step", f"Leave it out, or use another step.{shown}")
    if isinstance(piece.value, tree.Quantity) and dimension(piece.value) == "number":
        return slips.slip(piece.span, "this figure has no unit", f"Write it like `{row.example}`.")
    if piece.opener in ("until", "each until") and _is_name(piece.value):
        word = single(piece.value).what.text
        words = [*clauses.STATE_WORD, *MEASURED_WORD]
        return slips.slip(piece.span, f"`{word}` is not an end point", slips.did_you_mean(word, words, f"Put it in double quotes: until \"{word}\"."))
    if piece.opener == "with" and _is_name(piece.value):
        word = single(piece.value).what.text
        fix = slips.did_you_mean(word, clauses.TOOL_WORD, f'A tool that is not in the list stands in double quotes: with "{word}".')
        return slips.slip(piece.span, f"`{word}` is not a tool", fix)
    return slips.slip(piece.span, f"`{piece.opener}` does not take this", f"Write it like `{row.example}`.{shown}", _what_it_is(piece.value))


def _temperature(kind: str):
    return lambda value: (kind, value) if dimension(value) in ("temperature", "open") else None


def _time(kind: str):
    return lambda value: (kind, value) if dimension(value) in ("time", "open") else None


def _text(kind: str):
    return lambda value: (kind, text_of(value).text) if text_of(value) is not None else None


def _ceiling(kind: str):
    return lambda value: (kind, value) if isinstance(value, tree.Point) or dimension(value) in ("temperature", "open") else None


def _named(kind: str):
    return lambda value: (kind, single(value).what.text) if _is_name(value) else None


def _at(value):
    kind = AT_KIND.get(dimension(value))
    return (kind, value) if kind else None


def _for(value):
    kind = {"time": "for", "passes": "passes", "times": "times", "cycles": "cycles", "portions": "in portions", "open": "for"}.get(dimension(value))
    return (kind, value) if kind else None


def _within(value):
    of = _time_of_step(value)
    if of is not None:
        return "within of", of
    if dimension(value) in ("time", "open"):
        return "within", value
    return ("tolerance", value) if isinstance(value, tree.Quantity) else None


def _time_of_step(value):
    """`30 min of cooling` was read as a portion of something: a time, and the step's name."""
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
    if isinstance(value, tree.Objects) and not value.excepted and all(isinstance(item.what, tree.Text) for item in value.items):
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


def _after(value):
    return _named("after")(value) or (("after time", value) if dimension(value) in ("time", "open") else None)


def _through(value):
    if text_of(value) is not None:
        return "through", text_of(value)
    return ("through", value) if dimension(value) in ("length", "cycles", "open") or isinstance(value, tree.Tools) else None


def _percent(kind: str):
    return lambda value: (kind, value) if dimension(value) in ("share", "volume share", "open") else None


def _before(value):
    return _text("before")(value) or _named("before step")(value)


def _when(value):
    return _text("when")(value) or _until("when")(value)


READERS = {
    "at": _at, "below": _temperature("below"), "above": _temperature("above"), "at most": _temperature("at most"), "at least": _temperature("at least"),
    "both at": _temperature("both at"), "both within": _temperature("both within"), "keeping": _temperature("keeping"),
    "never above": _ceiling("never above"), "never below": _ceiling("never below"),
    "over": _time("over"), "for": _for, "then for": _time("then for"), "each for": _time("each for"), "within": _within, "every": _time("every"),
    "with": _with, "until": _until("until"), "each until": _until("each until"),
    "during": _named("during"), "after": _after, "just before": _named("just before"), "in the last": _last,
    "when": _when, "before": _before, "if": _text("if"), "if not": _text("if not"), "because": _text("because"),
    "jacket not below": _temperature("jacket not below"), "jacket not above": _temperature("jacket not above"),
    "on": _percent("on dilution"), "plus": _percent("plus"), "through": _through, "called": _named("called"),
    "in": lambda value: ("in portions", value) if dimension(value) in ("portions",) else None,
}
