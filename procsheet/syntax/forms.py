"""A step against its table row: what its form asks for goes into slots, the rest must be clauses it may have."""

import re
from functools import lru_cache
from typing import NamedTuple

from procsheet.findings import Finding
from procsheet.source import Span, covering
from procsheet.syntax import answers, clauses, misfits, missing, slips, tree
from procsheet.syntax.build import Piece, RawStep
from procsheet.syntax.lines import Logical
from procsheet.syntax.values import dimension, figured, is_name, name_of, text_of
from procsheet.syntax.verbs import BY_WORD, Verb
from procsheet.syntax.words import RESERVED

MOVING_IN = ("into", "to", "in")
ASKED = re.compile(r'\[|\]|up with|down with|into|to(?= )|in(?= [VW])|with(?= X)|through|for|at(?= T)|until|PROPERTY R|"text"|'
                   r"PLACE|DEVICE|[XVWTtPQE](?![a-z])|with nitrogen|top and bottom")
OPENERS = ("into", "to", "in", "with", "through", "for", "at", "until", "up with", "down with")
FIGURES = {"T": ("temperature",), "t": ("time",), "P": ("gauge pressure", "pressure"),
           "Q": ("mass", "volume", "share", "volume share", "parts")}


class Slot(NamedTuple):
    openers: tuple[str, ...]            # ('',) for what stands bare
    kind: str
    key: str                            # its name in Step.slots
    optional: bool


@lru_cache(maxsize=None)
def slots(form: str) -> tuple[Slot, ...]:
    """The slots of a form: `charge X into V` asks for X bare and V behind into."""
    opener, optional, found = "", False, []
    for word in ASKED.findall(form):
        if word in "[]":
            optional = word == "["
        elif word in ("with nitrogen", "top and bottom"):
            opener = ""
        elif word in OPENERS:
            opener = word
        else:
            kind = "MEASURE" if word == "PROPERTY R" else word.strip('"')
            key = {"down with": "DOWN", "up with": "UP"}.get(opener, kind)
            found.append(Slot(_openers(opener, kind), kind, key, optional))
            opener = ""
    return tuple(found)


def _openers(opener: str, kind: str) -> tuple[str, ...]:
    return MOVING_IN if opener in MOVING_IN and kind in "VW" or opener == "into" and kind == "PLACE" else (opener,)


@lru_cache(maxsize=None)
def _forms(verb: Verb) -> tuple[tuple[Slot, ...], ...]:
    return tuple(slots(form.removeprefix(verb.name)) for form in verb.forms)


def fits(value, kind: str) -> bool:
    """Whether a value can fill a slot of this kind."""
    if kind == "X":
        return isinstance(value, tree.Objects)
    if kind in "VW":
        return is_name(value)
    if kind == "PLACE":
        return is_name(value) or text_of(value) is not None
    if kind == "text":
        return text_of(value) is not None
    if kind == "MEASURE":
        return isinstance(value, tree.Measure)
    if kind == "E":
        return isinstance(value, (tree.States, tree.Measure)) or text_of(value) is not None
    if kind == "DEVICE":
        return text_of(value) is not None or dimension(value) in ("length", "open") or isinstance(value, tree.Tools)
    return dimension(value) in (*FIGURES[kind], "open")


# ---- a step


def fit(raw: RawStep, line: Logical) -> tuple[tree.Step | None, list[Finding]]:
    """The step, and the first thing that is wrong with it. None where the form itself is not met."""
    verb = BY_WORD[raw.verb]
    pieces = answers.with_targets(_property_first(_words_together(list(raw.pieces)), verb))
    filled, left, lacking, form = min((_try(form, pieces) for form in _forms(verb)), key=lambda tried: (len(tried[2]), len(tried[1])))
    made, name, wrong = _clauses(left, verb, filled)
    wrong = _meant_for_a_slot(form, left, filled, verb) + wrong
    if lacking:
        return None, [missing.slot(lacking[0], verb, raw, left)]
    values = {slot.key: figured(piece.value) if slot.kind in FIGURES else piece.value for slot, piece in filled}
    wrong += _values(verb, values, made) + _needed(verb, made, raw) + _repeated(made)
    step = tree.Step(verb.name, values, tuple(made), line.whole, raw.verb, name, raw.to_confirm, line.remark)
    return step, wrong[:1]


WORDY = ("with", "until", "each until", "through", "if", "if not", "for", "when", "because")


def _words_together(pieces: list[Piece]) -> list[Piece]:
    """`with planetary mixer`: words that lack their quotes, told as one."""
    out: list[Piece] = []
    for piece in pieces:
        if out and out[-1].opener in WORDY and is_name(out[-1].value) and piece.opener == "" and is_name(piece.value):
            span = covering(out[-1].span, piece.span)
            word = tree.Word(f"{name_of(out[-1].value)} {name_of(piece.value)}", span)
            out[-1] = out[-1]._replace(value=tree.Objects((tree.Item(word),), (), "and", span), span=span)
        else:
            out.append(piece)
    return out


def _property_first(pieces: list[Piece], verb: Verb) -> list[Piece]:
    """`adjust main pH to 5.5` says the same as `adjust main to pH 5.5`."""
    if verb.name != "adjust":
        return pieces
    return [piece._replace(opener="to") if piece.opener == "" and isinstance(piece.value, tree.Measure) else piece for piece in pieces]


def _try(form: tuple[Slot, ...], pieces: list[Piece]):
    """Fill a form's slots in order. Returns what is filled, what is left, and the slots that are not met."""
    left, filled, lacking = list(pieces), [], []
    for slot in form:
        piece = next((piece for piece in left if piece.opener in slot.openers and fits(piece.value, slot.kind)), None)
        if piece is not None:
            left.remove(piece)
            filled.append((slot, piece))
        elif not slot.optional:
            lacking.append(slot)
    return filled, left, lacking, form


def _meant_for_a_slot(form: tuple[Slot, ...], left: list[Piece], filled: list, verb: Verb) -> list[Finding]:
    """`dry main to 5`: what may be left out is there, but of another kind."""
    empty = {opener: slot for slot in form if slot.optional and all(slot is not other for other,
                                                                    _ in filled) for opener in slot.openers if opener in ("to", "into",
                                                                                                                          "in")}
    return [missing.not_that(piece, empty[piece.opener].kind,
                             verb) for piece in left if piece.opener in empty and not fits(piece.value, empty[piece.opener].kind)]


# ---- clauses


def _clauses(pieces: list[Piece], verb: Verb, filled: list):
    """The clauses of a step, its name, and what does not fit."""
    made, name, wrong = [], "", []
    arrival = next((piece.span for slot, piece in filled if slot.openers == MOVING_IN), None)
    for before, piece in zip([None, *pieces], pieces):
        clause, finding = answers.clause_of(piece, verb, before)
        if finding is not None:
            wrong.append(finding)
        elif clause.kind == "called":
            name, problem = _name(clause, piece)
            wrong += problem
        else:
            made.append(_of_what_is_added(clause, piece.span, arrival))
            wrong += _forbidden(clause, verb, piece)
    return made, name, wrong


def _name(clause: tree.Clause, piece: Piece):
    word = clause.value
    return (word, []) if word not in RESERVED else ("", [slips.key_word(piece.span, word, "cooling, milling or joining")])


def _of_what_is_added(clause: tree.Clause, span: Span, arrival: Span | None) -> tree.Clause:
    """`add side at 60 °C to main`: a temperature that stands before `to main` is the one of the vessel that is added."""
    before = arrival is not None and (span.line, span.column) < (arrival.line, arrival.column)
    return clause._replace(kind=f"added {clause.kind}") if before and clause.kind in ("at", "below", "above", "at most",
                                                                                      "at least") else clause


def _question(kind: str) -> str:
    return clauses.PHRASE_QUESTION.get(kind) or (clauses.BY_KIND[kind].question if kind in clauses.BY_KIND else "")


def _forbidden(clause: tree.Clause, verb: Verb, piece: Piece) -> list[Finding]:
    question = _question(clause.kind)
    if question not in verb.forbids or clause.kind in ("slowly", "very slowly"):
        return []
    return [misfits.not_of_this_step(piece, question, verb)]


def _values(verb: Verb, values: dict, made: list) -> list[Finding]:
    """Properties without a value or with one of another kind; a vacuum that can be read two ways; parts of more than all."""
    out = []
    for value in (*values.values(), *(clause.value for clause in made)):
        if isinstance(value, tree.Measure):
            if value.target is None and not any(clause.kind in ("through", "cycles") for clause in made):
                out.append(misfits.no_target(value, "for example "))
            out += [finding] if (finding := misfits.wrong_target(value)) else []
        elif isinstance(value, tree.Objects):
            out += missing.too_large_parts(value)
    return out + missing.unclear_vacuum(verb, values, made) + missing.unclear_target(verb, values, made)


def _needed(verb: Verb, made: list, raw: RawStep) -> list[Finding]:
    if "for or until" in verb.needs and not any(clause.kind in ("for", "until", "within", "over", "during", "twice", "last of",
                                                                "when") for clause in made):
        return [slips.slip(raw.verb_span, f"this {verb.name} step does not say how long",
                           f"Write it like: {verb.example}; or `for ? min` while it is not known")]
    return []


def _repeated(made: list) -> list[Finding]:
    """Two clauses of one kind contradict each other, unless `or` stands before the second; each tool may have a speed of its own."""
    seen: set[str] = set()
    out = []
    for clause in made:
        if clause.kind == "tool":
            seen -= {"speed", "setting"}
        elif clause.kind in seen and not clause.either:
            out.append(slips.slip(clause.span, f"{_said_twice(clause.kind)} twice in one step",
                                  "Keep one of the two, write `or` before the second where either will do, or make two steps.",
                                  "the second time"))
        seen.add(clause.kind)
    return out


def _said_twice(kind: str) -> str:
    named = {"at": "a temperature stands here", "below": "a temperature stands here", "for": "a time stands here",
             "over": "a time stands here", "speed": "a speed stands here"}
    return named.get(kind, "this is said")
