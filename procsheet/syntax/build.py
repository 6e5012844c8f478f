"""Tokens to nodes: the grammar's rules, one method each. The only importer of lark besides tokens.py."""

import hashlib
import os
from functools import lru_cache
from pathlib import Path
from typing import NamedTuple

from lark import Lark, Transformer, UnexpectedInput, v_args
from lark.lexer import Lexer

from procsheet.source import Span, covering
from procsheet.syntax import tree
from procsheet.syntax.lines import Logical

STARTS = ["step", "row", "limit", "block", "entry"]


class Piece(NamedTuple):
    """An opener and what stands behind it, before the table says what it means. opener '': bare; 'phrase': a phrase."""

    opener: str
    value: object
    span: Span
    either: bool = False


class RawStep(NamedTuple):
    to_confirm: bool
    verb: str
    verb_span: Span
    pieces: tuple[Piece, ...]


class Nothing(Lexer):
    """The tokens are made by tokens.py; lark is handed them ready."""

    def __init__(self, conf):
        pass

    def lex(self, data):
        return iter(data)


@v_args(inline=True)
class Builder(Transformer):
    """Makes the nodes of one logical line, which `line` holds while it is read."""

    line: Logical

    def at(self, token) -> Span:
        return self.line.span(token.start_pos, token.end_pos)

    # ---- steps

    def step(self, open_step, verb, *pieces):
        return RawStep(open_step is not None, str(verb), self.at(verb), pieces)

    def opened(self, opener, value):
        return Piece(str(opener), value, covering(self.at(opener), _span(value)))

    def either(self, _or, opener, value):
        return Piece(str(opener), value, covering(self.at(opener), _span(value)), True)

    def phrase(self, token):
        return Piece("phrase", str(token), self.at(token))

    def either_phrase(self, _or, token):
        return Piece("phrase", str(token), self.at(token), True)

    def gate(self, bound, figure):
        return Piece(str(bound), figure._replace(bound=str(bound)), covering(self.at(bound), figure.span))

    def either_gate(self, _or, bound, figure):
        return self.gate(bound, figure)._replace(either=True)

    def bare(self, value):
        return Piece("", value, _span(value))

    def bounded(self, bound, figure):
        return figure._replace(bound=str(bound), span=covering(self.at(bound), figure.span))

    def point(self, name, _of=None, of=None):
        return tree.Point(str(name), str(of or ""), self.at(name))

    def setting(self, token):
        return tree.Setting(str(token), self.at(token))

    # ---- what is added

    def objects(self, first, *rest):
        items, excepted, joined, dropping = [first], [], "and", False
        for part in rest:
            if part is None:
                continue
            if isinstance(part, tree.Item):
                items.append(part)
            elif isinstance(part, str) and not hasattr(part, "type"):
                joined = part if part == "or" else joined
            elif part.type == "EXCEPT":
                dropping = True
            elif part.type == "STRING" and dropping:
                excepted.append(tree.Text(str(part), self.at(part)))
        return tree.Objects(_shared_phase(items), tuple(excepted), joined, covering(_span(items[0]), _span(excepted[-1] if excepted else items[-1])))

    def join(self, token):
        return "or" if token.type == "OR" else "and"

    def portion(self, share, _of, item):
        return item._replace(share=str(share))

    def percent(self, figure, _of, item):
        return item._replace(share=self.figure(None, figure, None, None, None, None))

    def whole(self, token, _from=None, phase=None):
        taken = tree.PhaseName(str(phase), self.at(phase)) if phase is not None else None
        span = self.at(token)
        made = {"PHASE": lambda: tree.PhaseName(str(token), span), "NAME": lambda: tree.Word(str(token), span),
                "STRING": lambda: tree.Text(str(token), span), "HOLD": lambda: tree.HoldBack(span), "OPEN": lambda: tree.Open(span)}
        return tree.Item(made[token.type](), "", taken)

    # ---- tools, end points, properties

    def tools(self, *parts):
        names = [part for part in parts if hasattr(part, "type")]
        joined = "or" if "or" in [part for part in parts if not hasattr(part, "type")] else "and"
        return tree.Tools(tuple(str(name) for name in names), joined, covering(self.at(names[0]), self.at(names[-1])))

    def states(self, *parts):
        names = [part for part in parts if hasattr(part, "type")]
        return tree.States(tuple(str(name) for name in names), covering(self.at(names[0]), self.at(names[-1])))

    def measure(self, name, _of=None, of=None):
        return tree.Measure(str(name), str(of or ""), None, self.at(name))

    # ---- figures

    def figure(self, *parts):
        about, relative, of, main, last = False, "", "", None, None
        for part in parts:
            if part is None or not hasattr(part, "type"):
                continue
            last = part
            if part.type == "ABOUT":
                about = True
            elif part.type == "REL":
                relative = str(part)
            elif part.type == "STRING":
                of = str(part)
            elif part.type not in ("OF", "FILLER"):
                main = part
        span = covering(self.at(main), self.at(last))
        if main.type == "QTY":
            number = main.value
            return tree.Quantity(number.low, number.high, number.unit, "", about, span, relative, of)
        return tree.Quantity(str(main), str(main), {"ROOM": "room", "RATIO": "ratio", "FRACTION": "fraction", "DATE": "date"}[main.type], "", about, span)

    # ---- the formula

    def quantity(self, token):
        return self.figure(token)

    def amount(self, figure):
        return {"kind": "figure" if figure.value.low != "?" else "open", "amount": self.figure(figure)}

    def amount_about(self, about, figure):
        return {"kind": "figure", "amount": self.figure(about, figure)}

    def closing(self, _to, figure, about, guide):
        return {"kind": "closing", "amount": self.figure(figure), "about": self.figure(guide) if guide else None}

    def limits(self, about, guide, _at_most, cap):
        return {"about": self.figure(guide) if guide else None, "at_most": self.figure(cap) if cap else None}

    def corrector(self, _needed, limits):
        return {"kind": "corrector", **limits}

    def as_read(self, _qs, _to, figure, limits):
        return {"kind": "q.s." if figure is None else "closing", "amount": self.figure(figure) if figure else None, **limits}

    def within(self, _word, figure):
        return {"within": self.figure(figure)}

    def as_pure(self, _token):
        return {"as_pure": True}

    def optional(self, _token):
        return {"optional": True}

    def row(self, amount, *rest):
        fields = {"kind": "figure", "amount": None, "about": None, "at_most": None, "within": None, "as_pure": False, "optional": False}
        for part in (amount, *rest[:-1]):
            fields |= part
        name = rest[-1]
        return tree.Row(**fields, name=str(name).strip('"'), name_span=self.at(name), span=self.line.whole, remark=self.line.remark)

    def alternative(self, _or, amount, *rest):
        return ("or", self.row(amount, *rest))

    def hold_back(self, _word, figure):
        return ("hold back", self.figure(figure))

    # ---- limits and blocks

    def limit(self, measure, *pieces):
        return measure, pieces

    def choose(self, _token):
        return ("choose", "", None)

    def option(self, _token, name):
        return ("option", str(name), None)

    def if_seen(self, _token, words):
        return ("if", str(words), None)

    def otherwise(self, _token):
        return ("otherwise", "", None)

    def where(self, _token, words):
        return ("where", str(words), None)

    def repeat(self, _token, *pieces):
        return ("repeat", "", pieces)

    def end(self, _token):
        return ("end", "", None)

    # ---- lines with a key

    def entry(self, *parts):
        groups = tuple(part for part in parts if isinstance(part, tuple) and not isinstance(part, tree.Evidence))
        return groups, "", next((part for part in parts if isinstance(part, tree.Evidence)), None)

    def text_entry(self, words, evidence):
        return (), str(words), evidence

    def group(self, *atoms):
        return tuple(self._atom(atom) for atom in atoms)

    def _atom(self, token):
        if token.type in ("WORD", "BOUND"):
            return tree.Word(str(token), self.at(token))
        if token.type == "STRING":
            return tree.Text(str(token), self.at(token))
        return self.figure(token)

    def evidence(self, *tokens):
        grade = next((str(token) for token in tokens if token is not None and token.type == "GRADE"), "")
        words = next((str(token) for token in tokens if token is not None and token.type == "STRING"), "")
        return tree.Evidence(words, grade or "memory", self.at(tokens[0]))


def _span(value) -> Span:
    if isinstance(value, tree.Item):
        return value.what.span
    return value.span


def _shared_phase(items: list) -> tuple:
    """`"x" and "y" from B`: what stands before an item with a phase, without one of its own, comes from there too."""
    phase, out = None, []
    for item in reversed(items):
        phase = item.phase or phase
        out.append(item._replace(phase=phase) if isinstance(item.what, tree.Text) else item)
    return tuple(reversed(out))


def grammar_dir() -> Path:
    """Where the grammar and its pages lie, in a checkout or in an installed copy."""
    here = Path(__file__).resolve().parents[1]
    return here / "grammar" if (here / "grammar").is_dir() else here.parent / "grammar"


BUILDER = Builder()


@lru_cache(maxsize=1)
def parser() -> Lark:
    """The parser, built in about 70 ms, or in a tenth of that from the user's cache."""
    text = (grammar_dir() / "procsheet.lark").read_text(encoding="utf-8")
    return Lark(text, parser="lalr", lexer=Nothing, start=STARTS, transformer=BUILDER, cache=_cache_file(text))


def _cache_file(text: str) -> str | bool:
    """A file of its own for each grammar and user; False where there is no place to keep it."""
    folder = Path(os.environ.get("XDG_CACHE_HOME") or Path.home() / ".cache") / "procsheet"
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError:
        return False
    return str(folder / f"grammar-{hashlib.sha256(text.encode()).hexdigest()[:16]}.lark")


def build(tokens: list, line: Logical, start: str):
    """The node of a line. Raises UnexpectedInput where the tokens do not fit."""
    BUILDER.line = line
    return parser().parse(tokens, start=start)


__all__ = ["Piece", "RawStep", "UnexpectedInput", "build", "grammar_dir", "parser"]
