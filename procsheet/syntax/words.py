"""The words of the tables as patterns. Every file that reads text takes its words from here."""

import re
from typing import NamedTuple

from procsheet.syntax import clauses, properties, verbs


def plain(text: str) -> str:
    """One blank between words, lower case."""
    return " ".join(text.lower().split())


def either(words) -> str:
    """A pattern for any of these words, the longest first, whatever blanks stand between."""
    return "|".join(re.escape(word).replace(r"\ ", r"\s+") for word in sorted(words, key=len, reverse=True))


class Phrases:
    """A list of words and phrases, looked up by their first word: most words of a line begin none of them."""

    FIRST = re.compile(r"[^\W\d][\w-]*|[&+<>≤≥~≈]")

    def __init__(self, words):
        groups: dict[str, list[str]] = {}
        for word in words:
            groups.setdefault(self.FIRST.match(word).group().lower(), []).append(word)
        self.groups = groups
        self.patterns: dict[str, re.Pattern] = {}           # made when first needed

    def _pattern(self, first: str) -> re.Pattern | None:
        group = self.groups.get(first)
        if group is not None and first not in self.patterns:
            longest = sorted(group, key=len, reverse=True)
            ended = (either([word]) + (r"(?![\w-])" if word[-1].isalnum() else "") for word in longest)
            self.patterns[first] = re.compile("|".join(ended), re.IGNORECASE)
        return self.patterns.get(first)

    def match(self, text: str, at: int = 0) -> re.Match | None:
        """The longest of the phrases that begins here."""
        first = self.FIRST.match(text, at)
        pattern = self._pattern(first.group().lower()) if first else None
        return pattern.match(text, at) if pattern is not None else None


# ---- words that mean the same wherever they stand in a step: word -> (kind in the grammar, what it stands for)

BOUNDS = {"below": ("below", "less than", "<"), "above": ("above", "more than", ">"),
          "at most": ("at most", "up to", "no more than", "max.", "≤", "<="),
          "at least": ("at least", "no less than", "min.", "≥", ">=")}
BOUND_WORD = {word: bound for bound, words in BOUNDS.items() for word in words}
ABOUT = ("about", "approximately", "approx.", "circa", "ca.", "around", "~", "≈")
ROOMS = ("room temperature", "ambient temperature", "the room temperature", "RT", "ambient")

WORD: dict[str, tuple[str, str]] = {}
WORD |= {opener: ("OPENER", opener) for opener in (*clauses.FORM_OPENERS, *clauses.BY_OPENER)}
WORD |= {"down to": ("OPENER", "to"), "at a rate of": ("OPENER", "at"), "at a speed of": ("OPENER", "at"),
         "at a temperature of": ("OPENER", "at"), "for a period of": ("OPENER", "for")}
WORD |= {word: ("BOUND", bound) for word, bound in BOUND_WORD.items()}
WORD |= {word: ("PHRASE", word) for word in (*clauses.PHRASE_KIND, "top and bottom", "with nitrogen")}
WORD |= {filler: ("FILLER", filler) for filler in clauses.FILLERS}
WORD |= {f"{side} {the}{point}": ("REL", f"{side} {point}") for side in ("above", "below") for the in ("",
                                                                                                       "the ") for point in clauses.POINTS}
WORD |= {word.lower(): ("ROOM", "") for word in ROOMS}
WORD |= {f"{the}{word}": ("HOLD", "hold-back") for the in ("", "the ") for word in ("hold-back", "hold back", "holdback")}
WORD |= {word: ("ABOUT", "about") for word in ABOUT}
WORD |= {"and": ("AND", "and"), "&": ("AND", "and"), "+": ("AND", "and"), "or": ("OR", "or"), "of": ("OF", "of"), "from": ("FROM", "from"),
         "except": ("EXCEPT", "except"), "except for": ("EXCEPT", "except"), "all": ("PHASE", "all"), "the": ("THE", "")}
ANY_WORD = Phrases(WORD)
BOUND = Phrases(BOUND_WORD)
BOUND_AFTER = re.compile(r"or\s+(less|lower|below|under|more|higher|above)(?![\w-])", re.IGNORECASE)
PORTION = re.compile(r"(?:the\s+)?(?:(rest|remainder|other\s+half)|half)(?=\s+of\b)", re.IGNORECASE)
BETWEEN = re.compile(r"between\s+(-?[\d.]+)\s*(°?[A-Za-z%/]*)\s+and\s+(?=-?[\d.])", re.IGNORECASE)
SHEARS = re.compile(r"at\s+(low|medium|high)\s+(?:or|to)\s+(low|medium|high)\s+shear(?![\w-])", re.IGNORECASE)

# ---- words that count only in their place

VERB = Phrases(verbs.BY_WORD)
TOOL = Phrases(clauses.TOOL_WORD)
STATE = Phrases(clauses.STATE_WORD)
MEASURED = Phrases(properties.MEASURED_WORD)
POINT = re.compile(rf"(?:the\s+)?({either(clauses.POINTS)})(?![\w-])", re.IGNORECASE)
SETTING = re.compile(r"(?:setting|speed|position)\s+(?:\?|\d+(?:\.\d+)?(?:\s*-\s*\d+(?:\.\d+)?)?)(?!\s*(?:rpm|m/s))", re.IGNORECASE)

PHRASES_ONLY = Phrases(clauses.PHRASE_KIND)

STRING = re.compile(r'"([^"]*)"')
NAME = re.compile(r"[a-z][a-z0-9_]*(?:-[a-z0-9_]+)*(?![A-Z])")
PHASE = re.compile(r"[A-Z][0-9]?(?![A-Za-z0-9-])")
PHASES_OF = re.compile(r"phases?(?=\s+(?:[A-Z][0-9]?|[a-z][0-9]?)(?![A-Za-z0-9-]))", re.IGNORECASE)
RUN = re.compile(r"[^\s,\"]+")

# words that cannot name a vessel or a step
RESERVED = frozenset(word for word in WORD if " " not in word and word.isalpha()) | {
    "rest", "half", "then", "phase", "while", "end", "option", "otherwise", "where", "method", "stage", "?"}


class Known(NamedTuple):
    """What a method has said before its steps: the materials of its formula, its phases and vessels."""

    materials: Phrases | None = None
    phases: frozenset[str] = frozenset()
    places: frozenset[str] = frozenset()


NOTHING = Known()


def known(rows, phases, places) -> Known:
    """From the names of rows, the letters of phases, the names of vessels, moulds and containers."""
    names = {name for name in rows if Phrases.FIRST.match(name)}
    return Known(Phrases(names) if names else None, frozenset(phases), frozenset(places))
