"""Words to nodes: the grammar's rules, one method each."""

from typing import NamedTuple

from lark import Transformer, UnexpectedInput

from procsheet.source import Span, covering
from procsheet.syntax import tree
from procsheet.syntax.figures import Token
from procsheet.syntax.grammar import parser
from procsheet.syntax.lines import Logical, unquoted

AS_UNIT = {"ROOM": "room", "RATIO": "ratio", "FRACTION": "fraction", "DATE": "date"}


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


class Builder(Transformer):
    """Makes the nodes of one logical line, which `line` holds while it is read. Each method takes the parts of its rule."""

    line: Logical

    def at(self, token) -> Span:
        return self.line.span(token.start_pos, token.end_pos)

    def spanned(self, tokens) -> Span:
        return self.from_to(tokens[0], self.at(tokens[-1]))

    def from_to(self, token, last: Span) -> Span:
        """From a word to the end of a span; on two lines, the word alone."""
        first = self.at(token)
        return Span(first.file, first.line, first.column, last.end) if first.line == last.line else first

    # ---- steps

    def step(self, parts):
        open_step, verb, *pieces = parts
        return RawStep(open_step is not None, verb.value, self.at(verb), tuple(pieces))

    def opened(self, parts):
        opener, value = parts
        return Piece(opener.value, value, self.from_to(opener, span_of(value)))

    def phrase(self, parts):
        return Piece("phrase", parts[0].value, self.at(parts[0]))

    def gate(self, parts):
        bound, figure = parts
        return Piece(bound.value, figure._replace(bound=bound.value), self.from_to(bound, figure.span))

    def either(self, parts):
        return self.opened(parts[1:])._replace(either=True)

    def either_phrase(self, parts):
        return self.phrase(parts[1:])._replace(either=True)

    def either_gate(self, parts):
        return self.gate(parts[1:])._replace(either=True)

    def bare(self, parts):
        return Piece("", parts[0], span_of(parts[0]))

    def opened_bound(self, parts):
        opener, bound, figure = parts
        return self.opened((opener, figure._replace(bound=bound.value, span=self.from_to(bound, figure.span))))

    def either_bound(self, parts):
        return self.opened_bound(parts[1:])._replace(either=True)

    def point(self, parts):
        name, *of = parts
        return tree.Point(name.value, of[-1].value if of and of[-1] is not None else "", self.at(name))

    def setting(self, parts):
        return tree.Setting(parts[0].value, self.at(parts[0]))

    # ---- what is added

    def objects(self, parts):
        items = [part for part in parts if isinstance(part, tree.Item)]
        excepted = tuple(tree.Text(part.value, self.at(part)) for part in parts if isinstance(part, Token) and part.type == "STRING")
        joined = "or" if "or" in parts else "and"
        return tree.Objects(_shared_phase(items), excepted, joined,
                            covering(span_of(items[0]), span_of(excepted[-1] if excepted else items[-1])))

    def join(self, parts):
        return "or" if parts[0].type == "OR" else "and"

    def portion(self, parts):
        return parts[2]._replace(share=parts[0].value)

    def percent(self, parts):
        return parts[2]._replace(share=self.quantity(parts[0]))

    def whole(self, parts):
        token, *phase = parts
        taken = tree.PhaseName(phase[-1].value, self.at(phase[-1])) if phase and phase[-1] is not None else None
        return tree.Item(self._what(token, self.at(token)), "", taken)

    def _what(self, token, span: Span):
        if token.type == "HOLD":
            return tree.HoldBack(span)
        if token.type == "OPEN":
            return tree.Open(span)
        return {"PHASE": tree.PhaseName, "NAME": tree.Word, "STRING": tree.Text}[token.type](token.value, span)

    # ---- tools, end points, properties

    def tools(self, parts):
        names = [part for part in parts if isinstance(part, Token)]
        return tree.Tools(tuple(name.value for name in names), "or" if "or" in parts else "and", self.spanned(names))

    def states(self, parts):
        names = [part for part in parts if isinstance(part, Token)]
        return tree.States(tuple(name.value for name in names), self.spanned(names))

    def measure(self, parts):
        name, *of = parts
        return tree.Measure(name.value, of[-1].value if of and of[-1] is not None else "", None, self.at(name))

    # ---- figures

    def figure(self, parts):
        about, relative, of, main, last = False, "", "", None, None
        for part in parts:
            if part is None:
                continue
            last = part
            if part.type == "ABOUT":
                about = True
            elif part.type == "REL":
                relative = part.value
            elif part.type == "STRING":
                of = part.value
            elif part.type not in ("OF", "FILLER"):
                main = part
        span = self.at(main) if main is last else self.from_to(main, self.at(last))
        if main.type == "QTY":
            number = main.value
            return tree.Quantity(number.low, number.high, number.unit, "", about, span, relative, of)
        return tree.Quantity(main.value, main.value, AS_UNIT[main.type], "", about, span)

    def quantity(self, token, about: bool = False):
        number = token.value
        return tree.Quantity(number.low, number.high, number.unit, "", about, self.at(token))

    # ---- the formula

    def amount(self, parts):
        return {"kind": "open" if parts[0].value.low == "?" else "figure", "amount": self.quantity(parts[0])}

    def amount_about(self, parts):
        return {"kind": "figure", "amount": self.quantity(parts[1], True)}

    def closing(self, parts):
        _, figure, _, guide = parts
        return {"kind": "closing", "amount": self.quantity(figure), "about": self.quantity(guide) if guide else None}

    def limits(self, parts):
        _, guide, _, cap = parts
        return {"about": self.quantity(guide) if guide else None, "at_most": self.quantity(cap) if cap else None}

    def corrector(self, parts):
        return {"kind": "corrector", **parts[1]}

    def as_read(self, parts):
        _, _, figure, limits = parts
        return {"kind": "closing" if figure else "q.s.", "amount": self.quantity(figure) if figure else None, **limits}

    def within(self, parts):
        return {"within": self.quantity(parts[1])}

    def as_pure(self, _parts):
        return {"as_pure": True}

    def optional(self, _parts):
        return {"optional": True}

    def row(self, parts):
        fields = {"kind": "figure", "amount": None, "about": None, "at_most": None, "within": None, "as_pure": False, "optional": False}
        for part in parts[:-1]:
            fields |= part
        name = parts[-1]
        return tree.Row(**fields, name=unquoted(name.value), name_span=self.at(name), span=self.line.whole, remark=self.line.remark)

    def alternative(self, parts):
        return ("or", self.row(parts[1:]))

    def hold_back(self, parts):
        return ("hold back", self.quantity(parts[1]))

    # ---- limits and blocks

    def limit(self, parts):
        return parts[0], tuple(parts[1:])

    def choose(self, _parts):
        return ("choose", "", ())

    def option(self, parts):
        return ("option", parts[1].value, ())

    def if_seen(self, parts):
        return ("if", parts[1].value, ())

    def otherwise(self, _parts):
        return ("otherwise", "", ())

    def where(self, parts):
        return ("where", parts[1].value, ())

    def repeat(self, parts):
        return ("repeat", "", tuple(parts[1:]))

    def end(self, _parts):
        return ("end", "", ())

    # ---- lines with a key

    def entry(self, parts):
        groups = tuple(part for part in parts if isinstance(part, tuple) and not isinstance(part, tree.Evidence))
        return groups, "", next((part for part in parts if isinstance(part, tree.Evidence)), None)

    def text_entry(self, parts):
        return (), unquoted(parts[0].value), parts[1]

    def group(self, parts):
        return tuple(self._atom(part) for part in parts)

    def _atom(self, token):
        if token.type in ("WORD", "BOUND"):
            return tree.Word(token.value, self.at(token))
        if token.type == "STRING":
            return tree.Text(token.value, self.at(token))
        return self.figure([token])

    def evidence(self, parts):
        grade = next((token.value for token in parts if token is not None and token.type == "GRADE"), "")
        words = next((token.value for token in parts if token is not None and token.type == "STRING"), "")
        return tree.Evidence(words, grade or "memory", self.at(parts[0]))


def span_of(value) -> Span:
    return value.what.span if isinstance(value, tree.Item) else value.span


def _shared_phase(items: list) -> tuple:
    """`"x" and "y" from B`: what stands before an item with a phase, without one of its own, comes from there too."""
    phase, out = None, []
    for item in reversed(items):
        phase = item.phase or phase
        out.append(item._replace(phase=phase) if isinstance(item.what, tree.Text) else item)
    return tuple(reversed(out))


BUILDER = Builder()


def build(tokens: list, line: Logical, start: str):
    """The node of a line. Raises UnexpectedInput where the words do not fit."""
    BUILDER.line = line
    return parser(BUILDER).parse(tokens, start=start)


__all__ = ["Piece", "RawStep", "UnexpectedInput", "build", "span_of"]
