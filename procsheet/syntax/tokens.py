"""The words of a step, release limit or block line as the grammar wants them. What a word may be depends on the word before it.

Nearly every word stays free as a vessel's name, since tools are looked for only behind `with`, end points only behind `until`,
properties only where one can stand, and verbs only at the start. A slip that leaves no doubt is told and read as what was meant.
"""

import re

from procsheet.findings import Finding
from procsheet.syntax import clauses, properties, slips, words
from procsheet.syntax.figures import NUMBER, Badly, Number, Token, figure
from procsheet.syntax.joins import settle
from procsheet.syntax.lines import Logical, unquoted
from procsheet.syntax.verbs import BY_WORD
from procsheet.syntax.words import NOTHING, Known, plain

BLOCK = re.compile(r"(choose\s+one|otherwise|else|end|option|where\s+the\s+plant\s+has|if|repeat)(?![\w-])", re.IGNORECASE)
BLOCK_KIND = {"choose one": "CHOOSE", "otherwise": "OTHERWISE", "else": "OTHERWISE", "end": "END", "option": "OPTION",
              "where the plant has": "WHERE", "if": "IF", "repeat": "REPEAT"}
SEEN = ("until", "each until", "when")          # openers with an end point behind them
NAMED = ("called", "during", "after", "just before", "before")      # openers with a step's name behind them
STEP_NAME = re.compile(r"(?:the\s+)?(\w+(?:-\w+)*)")
VESSEL_IS = re.compile(rf"(?:the\s+)?({words.NAME.pattern})(?:\s+is(?=\s))?")
FIGURE_BEGINS = "0123456789?-."
DROPPED = ("THE", "BREATH")


def skip(text: str, at: int) -> int:
    while at < len(text) and text[at] == " ":
        at += 1
    return at


def step(line: Logical, known: Known = NOTHING) -> tuple[list[Token], list[Finding]]:
    """The words of a step; the first is a VERB, or an OPEN_STEP and a VERB, where there is one."""
    reader = Reader(line, known)
    at = skip(line.text, 0)
    if line.text.startswith("?", at):
        reader.out.append(Token("OPEN_STEP", "?", at, at + 1))
        at = skip(line.text, at + 1)
    if match := words.VERB.match(line.text, at):
        reader.verb = plain(match.group())
        reader.out.append(Token("VERB", reader.verb, at, match.end()))
        at = match.end()
    return reader.read(at)


def limit(line: Logical) -> tuple[list[Token], list[Finding]]:
    """The words of a release limit; the first is a PROPERTY where there is one."""
    reader = Reader(line, NOTHING, "limit")
    at = skip(line.text, 0)
    if match := words.MEASURED.match(line.text, at):
        reader.out.append(Token("PROPERTY", property_of(match.group()), at, match.end()))
        at = match.end()
    return reader.read(at)


def block(line: Logical, known: Known = NOTHING) -> tuple[list[Token], list[Finding]]:
    """The words of a block line that BLOCK matches."""
    reader = Reader(line, known, "block")
    match = BLOCK.match(line.text, skip(line.text, 0))
    kind = BLOCK_KIND[plain(match.group())]
    reader.out.append(Token(kind, plain(match.group()), match.start(), match.end()))
    if kind == "WHERE" and (at := skip(line.text, match.end())) < len(line.text):
        return [*reader.out, Token("WORDS", unquoted(line.raw[at:]), at, len(line.text))], []
    if kind == "OPTION" and (name := words.NAME.fullmatch(line.text, skip(line.text, match.end()))):
        return [*reader.out, Token("NAME", name.group(), name.start(), name.end())], []
    return reader.read(match.end())


def property_of(text: str) -> str:
    low = plain(text)
    return next(row.name for known, row in properties.MEASURED_WORD.items() if known.lower() == low)


class Reader:
    """Reads one line from left to right. `before` is the word that says what the next one may be."""

    def __init__(self, line: Logical, known: Known, verb: str = ""):
        self.line, self.text, self.known, self.verb = line, line.text, known, verb
        self.out: list[Token] = []
        self.slips: list[Finding] = []
        self.before = ""
        self.stirred = False                    # a tool has been named

    def read(self, at: int) -> tuple[list[Token], list[Finding]]:
        text, end = self.text, len(self.text)
        while True:
            while at < end and text[at] == " ":
                at += 1
            if at >= end:
                return settle(self.out), self.slips
            made = self._next(at)
            at = made.end_pos
            if made.type not in DROPPED:
                self.out.append(made)
                self.before = self._context(made)

    def _next(self, at: int) -> Token:
        first = self.text[at]
        if first == '"':
            return self._string(at)
        if first in ",;":
            return Token("COMMA", ",", at, at + 1)
        if first in ":=" and self.out and self.out[-1].type == "PROPERTY":
            return Token("BREATH", first, at, at + 1)
        if first == "." and (at + 1 == len(self.text) or self.text[at + 1] == " "):
            return Token("BREATH", ".", at, at + 1)
        if first in "bB" and (found := self._between(at)) is not None:
            return found
        if (first in FIGURE_BEGINS or first.isdigit()) and (found := self._figure(at)) is not None:
            return self._measured(found)
        return self._expected(at) or self._word(at) or self._name(at)

    def _string(self, at: int) -> Token:
        match = words.STRING.match(self.text, at)
        if not match:
            return Token("UNCLOSED", self.text[at:], at, len(self.text))
        return Token("STRING", " ".join(self.line.raw[at + 1:match.end() - 1].split()), at, match.end())

    # ---- figures

    def _between(self, at: int) -> Token | None:
        """`between 40 and 45 °C` is 40-45 °C."""
        match = words.BETWEEN.match(self.text, at)
        upper = self._figure(match.end()) if match else None
        return Token("QTY", Number(match[1], upper.value.high, upper.value.unit), at, upper.end_pos) if upper is not None and upper.type == "QTY" else None

    def _figure(self, at: int) -> Token | None:
        """A figure; one that can be read two ways is told, and read as what was most likely meant."""
        try:
            return figure(self.line, at)
        except Badly as error:
            if error.kind == "units":
                raise
            self.slips.append(slips.badly(error))
            return figure(slips.mended(self.line, error), at)

    def _measured(self, found: Token) -> Token:
        if found.type != "QTY":
            return found
        if not found.value.unit:
            found = self._unit_meant(found)
        match = words.BOUND_AFTER.match(self.text, skip(self.text, found.end_pos))
        if match is None:
            return found
        side = "at most" if match[1].lower() in ("less", "lower", "below", "under") else "at least"
        return Token("BOUNDED", (side, found.value), found.start_pos, match.end())

    def _unit_meant(self, found: Token) -> Token:
        """A figure with a misspelt unit behind it: told, and read with the unit that was meant."""
        at = skip(self.text, found.end_pos)
        match = slips.UNIT_WORD.match(self.text, at)
        if match is None or self._is_word(at, match.group()):
            return found
        meant = slips.unit_meant(match.group())
        if not meant:
            return found
        self.slips.append(slips.unknown_unit(self.line.span(at, match.end()), match.group(), found.value.low, meant))
        return Token("QTY", Number(found.value.low, found.value.high, meant), found.start_pos, match.end())

    def _is_word(self, at: int, text: str) -> bool:
        return text in self.known.places or plain(text) in words.WORD or bool(words.ANY_WORD.match(self.text,
                                                                                                   at)) or bool(words.PHASE.fullmatch(text))

    # ---- words that count only here

    def _expected(self, at: int) -> Token | None:
        """A tool behind `with`, an end point behind `until`, a property where one can stand, a step's name behind `during`."""
        text, before = self.text, self.before
        if before in ("with", "through") or self.stirred and before in ("and", "or", "comma"):
            if (match := words.TOOL.match(text, at)) and (before not in ("and", "comma") or match.group() not in self.known.places):
                self.stirred = self.stirred or before == "with"
                return Token("TOOL", clauses.TOOL_WORD[plain(match.group())], at, match.end())
        state = words.STATE.match(text, at) if before in SEEN else None
        if self._wants_property(at) and (match := words.MEASURED.match(text, at)) and (state is None or match.end() > state.end()):
            return Token("PROPERTY", property_of(match.group()), at, match.end())
        if state is not None and ((other := words.ANY_WORD.match(text, at)) is None or other.end() <= state.end()):
            return Token("STATE", clauses.STATE_WORD[plain(state.group())], at, state.end())
        if before in ("at", "or") and (match := words.SETTING.match(text, at)):
            return Token("SETTING", match.group(), at, match.end())
        if before in ("never above", "never below") and (match := words.POINT.match(text, at)):
            return Token("POINT", plain(match[1]), at, match.end())
        if before in NAMED or before == "until" and self.verb == "block":
            return self._step_name(at)
        return None

    def _wants_property(self, at: int) -> bool:
        """Behind until; behind `adjust V to` and `check V`; behind `to` where a value follows."""
        if self.before in SEEN:
            return True
        last = self.out[-1] if self.out else None
        if self.verb == "check" and last is not None and len(self.out) <= 3:
            return last.type == "NAME" or last.type == "VERB" and not self._is_place(at)
        first = last is not None and last.type in ("NAME", "VERB") and len(self.out) <= 3 and not self._is_place(at)
        if self.verb == "adjust" and (self.before == "to" or first):
            return True
        if self.verb == "block":
            return last is not None and last.type == "NAME"
        if self.before == "to" and (match := words.MEASURED.match(self.text, at)):
            return bool(NUMBER.match(self.text, skip(self.text, match.end())) or words.BOUND.match(self.text, skip(self.text, match.end())))
        return False

    def _is_place(self, at: int) -> bool:
        match = words.NAME.match(self.text, at)
        return bool(match) and match.group() in self.known.places

    def _step_name(self, at: int) -> Token | None:
        """The name of a step, even where it is a word of the language: forms.py says so."""
        if self.verb == "block":
            match = VESSEL_IS.match(self.text, at)
            return Token("NAME", match[1], at, match.end()) if match and words.STATE.match(self.text,
                                                                                           skip(self.text, match.end())) else None
        match = STEP_NAME.match(self.text, at)
        if not match or self.before != "called" and plain(match[1]) in words.WORD:
            return None
        if match[1] != match[1].lower():
            self.slips.append(slips.slip(self.line.span(match.start(1), match.end()),
                                         f"`{match[1]}`: the name of a step is a word in small letters",
                                         f"Write {self.before} {match[1].lower()}."))
        return Token("NAME", match[1].lower(), match.start(1), match.end())

    # ---- words that mean the same everywhere

    def _word(self, at: int) -> Token | None:
        first = self.text[at]
        if first in "aA" and (both := words.SHEARS.match(self.text, at)):
            self.out += [Token("PHRASE", f"at {both[1].lower()} shear", at, both.end(1)), Token("OR", "or", both.end(1), both.start(2))]
            return Token("PHRASE", f"at {both[2].lower()} shear", both.start(2), both.end())
        if first in "tTrRoOhH" and (match := words.PORTION.match(self.text, at)):
            return Token("PORTION", "rest" if match[1] else "half", at, match.end())
        if first in "pP" and (match := words.PHASES_OF.match(self.text, at)):
            return Token("BREATH", "phase", at, match.end())
        match = words.ANY_WORD.match(self.text, at)
        if match is None or match.group() in self.known.places:
            return None
        kind, value = words.WORD[plain(match.group())]
        if kind == "FILLER" and (not self.out or self.out[-1].type not in ("QTY", "BOUNDED")):
            return None
        return Token(kind, value or plain(match.group()) if kind != "ROOM" else " ".join(match.group().split()), at, match.end())

    def _name(self, at: int) -> Token:
        """A vessel, phase or step; a slip is told and read as what was meant."""
        if found := self._unquoted(at):
            return found
        match = words.PHASE.match(self.text, at)
        if match:
            return Token("PHASE", match.group(), at, match.end())
        match = words.NAME.match(self.text, at)
        if match:
            return self._small_phase(match) or Token("NAME", match.group(), at, match.end())
        match = words.RUN.match(self.text, at)
        end = match.end() if match else at + 1
        if (low := self.text[at:end].lower()) in self.known.places:
            self.slips.append(slips.slip(self.line.span(at, end), f"`{self.text[at:end]}`: a vessel is written in small letters",
                                         f"Write {low}."))
            return Token("NAME", low, at, end)
        return Token("STRAY", self.text[at:end], at, end)

    def _unquoted(self, at: int) -> Token | None:
        """A material of the formula without its quotes."""
        phase = words.PHASE.match(self.text, at)
        if phase is not None and phase.group() in self.known.phases:
            return None
        if self.known.materials is None or not (match := self.known.materials.match(self.text, at)) or match.group() in self.known.places:
            return None
        self.slips.append(slips.slip(self.line.span(at, match.end()),
                                     f"`{match.group()}` is a material, and a material stands in double quotes in a step",
                                     f'Write "{match.group()}".'))
        return Token("STRING", match.group(), at, match.end())

    def _small_phase(self, match: re.Match) -> Token | None:
        letter = match.group().upper()
        last = self.out[-1].type if self.out else ""
        is_added = last in ("VERB", "AND", "OR", "COMMA", "OF", "FROM") or self.before in ("with", "up with", "down with")
        if not is_added or letter not in self.known.phases or match.group() in self.known.places:
            return None
        if self.verb in BY_WORD and BY_WORD[self.verb].group == "people":
            return None
        self.slips.append(slips.slip(self.line.span(match.start(), match.end()),
                                     f"`{match.group()}`: a phase is written as a capital letter", f"Write {letter}."))
        return Token("PHASE", letter, match.start(), match.end())

    # ---- what the next word may be

    def _context(self, made: Token) -> str:
        kind, before = made.type, self.before
        if kind == "OPENER":
            return made.value
        if kind in ("AND", "OR", "COMMA"):
            return {"a tool": "with", "an end point": "until"}.get(before, before if before in ("with", *SEEN) else kind.lower())
        if kind == "TOOL" or kind in ("STRING", "OPEN") and before == "with":
            return "a tool"                                 # `with "mixer" and anchor`
        if kind == "STATE" or kind == "STRING" and before in SEEN:
            return "an end point"
        if kind in ("BOUND", "ABOUT") and before in SEEN or kind == "NAME" and before == "until":
            return before                                   # `until main clear`
        return ""
