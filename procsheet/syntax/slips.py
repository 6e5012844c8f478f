"""What a reader is told of a slip of writing: what was found, what would fit, and near words."""

from difflib import get_close_matches

from procsheet.findings import Finding, Label
from procsheet.source import Span
from procsheet.syntax import clauses, properties, verbs
from procsheet.syntax.verbs import BY_WORD

NAME = "not-understood"

# each kind of word in the grammar, by the name a chemist would use; '' is never offered
PLAIN = {                               # in the order they are offered
    "VERB": "a step word such as add, heat or stir", "OPENER": "a clause such as `for 5 min` or `with anchor`", "PHRASE": "",
    "CLAUSE_OR": "", "BOUND": "below, above, at most or at least", "POINT": "", "STRING": "a name in double quotes", "SETTING": "",
    "EXCEPT": "except", "AND": "and", "OR": "or", "PORTION": "`half of` or `the rest of`", "FRACTION": "a fraction such as 1/3",
    "QTY": "a figure with its unit", "PHASE": "a phase such as A", "NAME": "a vessel or step name", "FROM": "from", "HOLD": "the hold-back",
    "OPEN": "?", "TOOL": "a tool", "STATE": "an end point such as melted", "PROPERTY": "a property such as pH", "ABOUT": "about", "REL": "",
    "FILLER": "", "ROOM": "room temperature", "RATIO": "a ratio such as 1:4", "DATE": "a date such as 2026-03-02", "TEXT": "the material's name",
    "HOLD_BACK": "hold back", "TO": "`to 100 %`", "AS_NEEDED": "as needed", "QS": "q.s.", "AT_MOST": "at most", "WITHIN": "within", "AS_PURE": "as pure",
    "OPTIONAL": "optional", "OF": "of", "COMMA": "a comma", "WORD": "a word", "GRADE": "(standard), (handbook), (supplier) ...", "FROM_MEMORY": "from memory",
    "WORDS": "what the plant has", "$END": "the end of the line", "OPEN_STEP": "",
}


def slip(span: Span, title: str, fix: str = "", label: str = "", name: str = NAME) -> Finding:
    """A slip of writing: it stops, and cannot be signed for."""
    return Finding("STOP", name, title, Label(span, label), fix=fix, cannot_be_accepted=True)


def near(word: str, words, count: int = 3) -> list[str]:
    """The nearest known words, best first."""
    folded: dict[str, str] = {}
    for known in words:
        folded.setdefault(known.lower(), known)
    return [folded[match] for match in get_close_matches(word.lower(), list(folded), n=count, cutoff=0.66)]


def did_you_mean(word: str, words, otherwise: str = "") -> str:
    found = near(word, words)
    return f"Did you mean {either(found)}?" if found else otherwise


def either(words) -> str:
    """`a`, `b` or `c`."""
    quoted = [f"`{word}`" for word in words]
    return quoted[0] if len(quoted) == 1 else ", ".join(quoted[:-1]) + " or " + quoted[-1] if quoted else ""


def unknown_verb(span: Span, word: str) -> Finding:
    fix = did_you_mean(word, BY_WORD) or "A step begins with a word such as charge, add, heat, cool, stir, homogenise, emulsify, adjust, check or fill."
    return slip(span, f"`{word}` is not a step", fix, "a step must begin with what is done")


def unexpected(error, line) -> Finding:
    """What the parser found and what it would have taken."""
    token = error.token
    fits = [PLAIN[kind] for kind in PLAIN if PLAIN[kind] and kind in error.accepts][:5]
    if token.type == "$END":
        span = line.span(max(len(line.text) - 1, 0), len(line.text))
        return slip(span, "the line ends too early", f"What fits here: {', '.join(fits)}.", "something is missing after this")
    span = line.span(token.start_pos, token.end_pos)
    found = line.raw[token.start_pos:token.end_pos]
    if token.type == "UNCLOSED":
        return slip(span, "a quote is opened here and not closed", 'Put the closing " behind the name.', "no closing quote")
    if found == '"' or token.type == "STRING":
        found = line.raw[token.start_pos:token.end_pos]
    fix = f"What fits here: {', '.join(fits)}." if fits else "Leave it out."
    guess = near(found, [*clauses.BY_OPENER, *clauses.FORM_OPENERS, "and", "except", "from"], 2) if token.type in ("NAME", "STRAY", "WORD") else []
    return slip(span, f"`{found}` does not fit here", (f"Did you mean {either(guess)}? " if guess else "") + fix)


def decimal_comma(error) -> Finding:
    return slip(error.span, f"`{error.typed}` is written with a comma", f"Write {error.typed.replace(',', '.')} with a point; a comma can be read as thousands.")


def key_word(span: Span, word: str) -> Finding:
    return slip(span, f"`{word}` is a word of the language and cannot be a name", "Choose another name, such as kettle, side, pail, premix, beaker or tank.")


def reserved(word: str) -> bool:
    """Words that open a clause, or join, wherever they stand."""
    low = word.lower()
    return low in clauses.BY_OPENER or low in clauses.FORM_OPENERS or low in clauses.PHRASE_KIND or low in (
        "and", "or", "of", "from", "except", "about", "all", "rest", "half")


__all__ = ["PLAIN", "decimal_comma", "did_you_mean", "either", "key_word", "near", "properties", "reserved", "slip", "unexpected", "unknown_verb", "verbs"]
