"""What a reader is told of a slip of writing: what was found, what would fit, and near words."""

import re
from difflib import get_close_matches

from procsheet.findings import Finding, Label
from procsheet.source import Span
from procsheet.syntax import clauses
from procsheet.syntax.verbs import BY_WORD, MEANT
from procsheet.syntax.words import RESERVED
from procsheet.units import TABLE

NAME = "not-understood"

# each kind of word in the grammar, by the name a chemist would use, in the order they are offered; '' is never offered
PLAIN = {
    "VERB": "a step word such as add, heat or stir", "OPENER": "a clause such as `for 5 min` or `with anchor`",
    "BOUND": "below, above, at most or at least",
    "PROPERTY": "a property such as pH", "TOOL": "a tool", "STATE": "an end point such as melted", "QTY": "a figure with its unit",
    "PHASE": "a phase such as A",
    "STRING": "a name in double quotes", "NAME": "a vessel or step", "PORTION": "half of, or the rest of", "FRACTION": "a part such as 1/3",
    "EXCEPT": "except",
    "AND": "and", "FROM": "from", "HOLD": "the hold-back", "ABOUT": "about", "ROOM": "room temperature", "TEXT": "the material's name",
    "HOLD_BACK": "hold back",
    "TO": "`to 100 %`", "AS_NEEDED": "as needed", "QS": "q.s.", "AT_MOST": "at most", "WITHIN": "within", "AS_PURE": "as pure",
    "OPTIONAL": "optional", "OF": "of",
    "WORD": "a word", "GRADE": "(standard), (handbook), (supplier) ...", "FROM_MEMORY": "from memory", "WORDS": "what the plant has",
}

# words people use for a clause, and how it is written here
PHRASES_MEANT = {
    "overnight": "Write how long: `for 12-16 h`.",
    "then": "One line says one step: begin a new line with the verb. For one after the other write `add A and B to main, in the order "
            "listed`; `then for 8 min` means that the tool goes on.",
    "as": "Leave `as needed` out: an adjust step takes what it needs, up to the cap of the row.",
    "while": "Write `during` and the name of the step, and write `called` and this name behind that step; or `stirring slowly`, `with anchor`.",
    "under": "Write `under vacuum`, `under nitrogen`, or `with stirring`.", "afterwards": "Begin a new line with the verb.",
    "immediately": "Write `at once`.",
    "quick": "Write `quickly`.", "slow": "Write `slowly`; of the stirrer: `stirring slowly`.", "high": "Write `at high shear`.",
    "low": "Write `at low shear`.",
    "speed": "Write `at 300 rpm`, `stirring slowly` or `at setting 5`.", "thrice": "Write `3 times`.",
    "once": "Write `at once`, or leave it out.", "warm": "Write a temperature: `at 40 °C`.",
    "hot": "Write a temperature: `at 75 °C`.", "cold": "Write a temperature: `at 20 °C`, or `until cold`.", "minimum": "Write `at least`.",
    "maximum": "Write `at most`.",
    "max": "Write `at most`.", "min": "Write `at least`.", "thoroughly": "Write an end point: `until uniform`.",
    "well": "Write an end point: `until uniform`.",
    "completely": "Write an end point: `until dissolved`.", "together": "Leave it out: `add A and B to main`.",
    "separately": "Give each a step of its own.",
    "agitation": "Write `with stirring`, or the tool: `with anchor`.",
    "mixer": "Name the tool: `with propeller`, or in double quotes as the plant lists it.",
    "stirring": "Write `with stirring`, or `stirring slowly`.", "mixing": "Write `with stirring`, or the tool: `with anchor`.",
    "stirrer": "Name the tool: `with anchor`, `with propeller`.",
}

UNIT_WORD = re.compile(r"[A-Za-zµ°%][\w/·.²³°]*(?<!\.)")
UNITS_MEANT = {"degrees": "°C", "degree": "°C", "deg": "°C", "centigrade": "°C", "°": "°C", "pct": "%", "bars": "bar", "tsp": "mL",
               "tbsp": "mL", "teaspoon": "mL", "teaspoons": "mL",
               "tablespoon": "mL", "tablespoons": "mL", "cup": "mL", "cups": "mL", "spoon": "g", "spoons": "g", "fold": "%", "c": "°C",
               "f": "°F", "rmp": "rpm", "prm": "rpm", "mesh": "µm"}
SPOONS = ("tsp", "tbsp", "teaspoon", "teaspoons", "tablespoon", "tablespoons", "cup", "cups", "spoon", "spoons")
FOLDED = {spelling.lower(): spelling for spelling in TABLE if len(spelling) > 2}
AMOUNT_NAMES = ["kg", "grams", "mg", "litres", "gallons", "drops", "parts", "per cent", "percent", "pounds", "ounces", "lbs", "ppm"]
UNIT_NAMES = sorted({spelling for spelling in TABLE if len(spelling) > 1 and spelling.replace(" ", "").isalpha() or "/" in spelling})


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


# ---- figures


def badly(error) -> Finding:
    """A figure that can be read two ways."""
    typed = error.typed
    if error.kind == "units":
        return slip(error.span, f"`{typed}` has two different units", "Write both ends in the same unit, with the unit once: 75-80 °C.")
    if error.kind == "parted":
        return slip(error.span, f"`{typed}` has a blank between its digits", f"Write {''.join(typed.split())}.")
    top, _, rest = typed.partition(",")
    if "." in top and rest.isdigit():
        return slip(error.span, f"`{typed}` is written with a comma",
                    f"Write {top.replace('.', '')}.{rest}: a point for decimals, and nothing between thousands.")
    if len(rest) == 3 and top.strip("-") not in ("", "0"):
        return slip(error.span, f"`{typed}` can be read as {top}.{rest} or as {top}{rest}",
                    f"Write {top}{rest} if thousands are meant, {top}.{rest} if not.")
    return slip(error.span, f"`{typed}` is written with a comma",
                f"Write {typed.replace(',', '.')}: a point, since a comma can be read as thousands.")


def mended(line, error):
    """The line with the figure as it was most likely meant; everything keeps its place."""
    typed = error.typed
    if error.kind == "parted":
        meant = "".join(typed.split())
    elif re.fullmatch(r"-?\d{1,3}(?:\.\d{3})+,\d+", typed):
        meant = typed.replace(".", "").replace(",", ".")
    else:
        meant = typed.replace(",", ".")
    return line._replace(text=line.text[:error.start] + meant.ljust(len(typed)) + line.text[error.start + len(typed):])


def unit_meant(word: str, amounts: bool = False) -> str:
    """The unit a misspelt one stands for, '' where it stands for none. amounts: of a row of the formula."""
    low = word.lower().rstrip(".")
    if low in UNITS_MEANT:
        return UNITS_MEANT[low]
    if len(low) < 2 or low in BY_WORD or low in clauses.TOOL_WORD or low in clauses.STATE_WORD:
        return ""
    if low in FOLDED:
        return FOLDED[low]
    found = get_close_matches(low, AMOUNT_NAMES if amounts else UNIT_NAMES, n=1, cutoff=0.8 if amounts else 0.75)
    return found[0] if found else ""


def unknown_unit(span: Span, word: str, figure: str, meant: str) -> Finding:
    if word.lower() in SPOONS:
        return slip(span, f"`{word}` is not a unit here: spoons and cups differ", "Weigh it, and write g or %; or measure it in mL.")
    if word.lower() == "mesh":
        return slip(span, f"{figure} mesh is the number of a sieve, not a size",
                    f'Write the opening, such as 150 µm, or the sieve in double quotes: through "{figure} mesh sieve"')
    return slip(span, f"`{word}` is not a unit", f"Did you mean {figure} {meant}?")


# ---- steps


def unknown_verb(span: Span, word: str) -> Finding:
    low = word.lower()
    if low in MEANT:
        return slip(span, f"`{word}` is not a step", f"Write it with {MEANT[low]}")
    fix = did_you_mean(word, BY_WORD) or ("A step begins with a word such as charge, add, heat, cool, stir, homogenise, emulsify, adjust, "
                                          'check or fill; anything else is: do "text"')
    return slip(span, f"`{word}` is not a step", fix, "a step begins with what is done")


def fitting(accepts) -> str:
    """What would fit, in plain words."""
    fits = [PLAIN[kind] for kind in PLAIN if PLAIN[kind] and kind in accepts][:4]
    return f"What fits here: {', '.join(fits)}." if fits else "Leave it out."


def unexpected(error, line) -> Finding:
    """What was found and what would have fitted."""
    found = error.token
    if found.type == "$END":
        end = len(line.text.rstrip())
        return slip(line.span(max(end - 1, 0), max(end, 1)), "the line ends too early", fitting(error.accepts),
                    "something is missing behind this")
    span = line.span(found.start_pos, found.end_pos)
    if found.type == "UNCLOSED":
        return unclosed(span)
    return slip(span, f"`{line.raw[found.start_pos:found.end_pos]}` does not fit here", fitting(error.accepts))


def unclosed(span: Span) -> Finding:
    return slip(span, "a quote is opened here and not closed", 'Put the closing " behind the last word of the name.', "no closing quote")


def key_word(span: Span, word: str, free: str = "kettle, side, pail, premix, beaker or tank") -> Finding:
    return slip(span, f"`{word}` is a word of the language and cannot be a name", f"Choose another name, such as {free}.")


def reserved(word: str) -> bool:
    """Words that cannot name a vessel or a step."""
    return word.lower() in RESERVED
