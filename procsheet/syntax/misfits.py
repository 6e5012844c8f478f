"""What is said of a piece of a step that does not fit: what stands there, what would fit, and how to write it."""

from procsheet.findings import Finding
from procsheet.syntax import clauses, tree
from procsheet.syntax.properties import MEASURED, MEASURED_WORD
from procsheet.syntax.slips import PHRASES_MEANT, did_you_mean, either, near, slip
from procsheet.syntax.values import CALLED, called, dimension, is_name, is_phase, name_of, single, text_of, written
from procsheet.syntax.verbs import Verb

TEXT = '"text"'                        # how the tables write words in quotes
# what stands behind an opener, by the letters of the table
TAKES = {"T": "a temperature", "t": "a time", "P": "a pressure", "R": "a percentage", "RATE": "a rate", "SPEED": "a speed",
         "setting": "a dial setting",
         "S": "the name of a step", "TOOL": "a tool", "DEVICE": "a device", '"text"': "words in double quotes", "E": "an end point",
         "n": "a number of passes", "cycles": "a number of cycles", "t of S": "a time and the name of a step",
         "POINT": "a point such as flash point", "NAME": "a name"}
# a figure that stands alone, and the words it most likely lacks
LACKS = {"time": ("for", "over", "within"), "rotation": ("at",), "speed": ("at",), "temperature": ("at", "to", "below", "above"),
         "gauge pressure": ("at",),
         "pressure": ("at",), "mass rate": ("at",), "volume rate": ("at",), "temperature rate": ("at",), "portions": ("in",),
         "setting": ("at",), "cycles": ("for",)}


def example(verb: Verb | None) -> str:
    return f" For example: {verb.example}" if verb else ""


# ---- a piece that stands alone


def stray(piece, verb: Verb | None, before=None) -> Finding:
    """A piece with no word before it. `before` is the piece it follows: `for 1 h 30 min`."""
    value = piece.value
    if before is not None and isinstance(before.value, tree.Quantity) and dimension(value) == dimension(before.value) == "time":
        return slip(piece.span, "a time is one figure", "Write both together in one unit, such as 90 min or 1.5 h.")
    if is_name(value):
        if before is not None and before.opener == "" and is_name(before.value) and not _known_word(name_of(value)):
            both = f"{name_of(before.value)} {name_of(value)}"
            return slip(piece.span, f"`{both}` is two words: a vessel is one word, and a material stands in double quotes",
                        f'If it is a material, write "{both}".')
        return unknown_word(piece.span, name_of(value), verb)
    if isinstance(value, tree.Quantity):
        return _lone_figure(piece, verb)
    if isinstance(value, tree.Measure):
        return slip(piece.span, f"`{value.name}` does not fit here",
                    "A property stands behind check, until, or adjust ... to." + example(verb))
    if isinstance(value, tree.Setting):
        return slip(piece.span, f"`{value.text}` stands alone", f"Write `at {value.text}`.")
    if is_phase(value):
        letter = single(value).what.letter
        return slip(piece.span, f"phase {letter} does not fit here",
                    f"Join it to what is added with `and`: A and {letter}; or say where a material comes from: \"x\" from {letter}.")
    if text_of(value) is not None and verb is not None and verb.group == "people":
        return slip(piece.span, "a second text stands in this line",
                    "One line says one thing: begin a new line, or put both in one pair of quotes.")
    if text_of(value) is not None:
        return slip(piece.span, f"\"{text_of(value).text}\" does not fit here",
                    "Join it to what is added with `and`; a hint for the operator stands in a note, or behind `--`.")
    return slip(piece.span, "this does not fit here", "Join it to what is added with `and`, or give it a step of its own." + example(verb))


def _known_word(word: str) -> bool:
    return word in PHRASES_MEANT or bool(near(word, [*clauses.BY_OPENER, *clauses.PHRASE_KIND, *clauses.FORM_OPENERS], 1))


def unknown_word(span, word: str, verb: Verb | None) -> Finding:
    title = f"`{word}` is not a word that fits in {_step(verb)}"
    if word.lower() in PHRASES_MEANT:
        return slip(span, title, PHRASES_MEANT[word.lower()])
    guess = near(word, [*clauses.BY_OPENER, *clauses.PHRASE_KIND, *clauses.FORM_OPENERS], 2)
    fix = f"Did you mean {either(guess)}?" if guess else "Leave it out, or put it behind `--` as a remark; a material stands in double quotes."
    return slip(span, title, fix + (example(verb) if not guess else ""))


def _step(verb: Verb | None) -> str:
    return f"a step with `{verb.name}`" if verb else "a release limit"


def _lone_figure(piece, verb: Verb | None) -> Finding:
    value, kind = piece.value, dimension(piece.value)
    figure = written(value)
    if kind == "number":
        return slip(piece.span, f"`{figure}` has no unit, and nothing says what it is for",
                    f"Write for example `at {figure} °C`, `at {figure} rpm` or `for {figure} min`.")
    if kind == "share" and verb:
        return slip(piece.span, f"`{figure}`: how much goes in stands in the formula, not in the step",
                    f'If a part of the row is meant, write `{figure} of "purified water"`, or `half of A`.')
    if kind in ("mass", "volume", "volume share", "drops", "parts") and verb:
        return slip(piece.span, f"`{figure}`: how much goes in stands in the formula, not in the step",
                    'Give the row this figure, or take a share of the row: 20 % of "purified water", half of A, 1/3 of "purified water" from A.')
    words = ("at",) if value.relative else LACKS.get(kind, ())
    fix = f"Write {either(f'{word} {figure}' for word in words)}." if words else "Say what it is for."
    return slip(piece.span, f"`{figure}` stands alone", fix, "a word is missing before it")


# ---- a piece whose value is of the wrong kind


def wrong_value(piece, verb: Verb | None) -> Finding:
    opener, value = piece.opener, piece.value
    row = clauses.BY_OPENER.get(opener)
    if row is None:
        return slip(piece.span, f"`{opener} ...` does not fit in {_step(verb)}", _no_row(opener, value, verb))
    if dimension(value) == "fraction":
        return slip(value.span, f"`{value.low}` is not a figure of a step", "Write it with a point or in a smaller unit: 0.5 h, or 30 min.")
    if dimension(value) == "number" and opener not in ("called", "until", "when", "after"):
        return slip(value.span, f"`{written(value)}` has no unit", _unit_for(opener, value, row, verb))
    if opener in ("until", "each until", "when"):
        return _no_end_point(piece, row)
    if opener == "with" and is_name(value):
        return _no_tool(piece)
    wants_text = row.takes == TEXT
    for_text = opener == "for" and is_name(value) and verb is not None and any(f"for {TEXT}" in form for form in verb.forms)
    if wants_text and not text_of(value) or for_text:
        return slip(piece.span, f"the words behind `{opener}` stand in double quotes",
                    f"Write it like: {row.example if wants_text else verb.example}")
    if opener == "called" and text_of(value) is not None:
        return slip(piece.span, "the name of a step stands without quotes",
                    f"Write: called {'-'.join(text_of(value).text.lower().split())}")
    takes = either_plain([TAKES[one] for one in row.takes.split("|") if one in TAKES])
    return slip(piece.span, f"behind `{opener}` stands {takes}, not {called(value)}", f"Write it like `{row.example}`.{example(verb)}")


def _unit_for(opener: str, value, row, verb: Verb | None) -> str:
    unit = {"t": "min", "T": "°C", "R": "%"}.get(row.takes.split("|")[0], "")
    if unit and opener != "at":
        return f"Write `{opener} {written(value)} {unit}`, or its right unit."
    if opener != "at" or verb is None:
        return f"Write it like `{row.example}`."
    figure = written(value)
    unit = "bar" if verb.name == "press" else "rpm" if float(value.high) > 120 else ""
    speed = "m/s" if float(value.high) < 40 else "rpm"
    return f"Write `at {figure} {unit}`." if unit else f"Write `at {figure} °C`, `at {figure} {speed}` or `at setting {figure}`."


NUMBERS = {word: str(number) for number, word in enumerate(("two", "three", "four", "five", "six", "seven", "eight", "nine", "ten"), 2)}


def _no_row(opener: str, value, verb: Verb | None) -> str:
    if opener == "in" and dimension(value) == "time":
        return f"Write `within {written(value)}`, or `over {written(value)}`."
    if is_name(value) and name_of(value).split()[0] in NUMBERS:
        return f"Write the number in digits: {opener} {NUMBERS[name_of(value).split()[0]]} portions"
    if verb is not None and verb.name in ("heat", "cool") and opener == "to" and dimension(value) == "temperature":
        return f"One temperature or one range stands in a {verb.name} step: to 70-75 °C"
    if opener in ("to", "into", "in") and dimension(value) == "temperature":
        return f"To warm or cool is a step of its own: heat main to {written(value)}"
    if opener in ("to", "into", "in") and is_name(value):
        return f"To move what is in a vessel is a step of its own: transfer main to {name_of(value)}"
    return f"Leave it out, or give it a step of its own.{example(verb)}"


def _no_end_point(piece, row) -> Finding:
    value = piece.value
    if isinstance(value, tree.Measure):
        return slip(value.span, f"`until {value.name}` does not say which {value.name}",
                    f"Write the value behind it: until {property_example(value.name)}")
    if is_name(value):
        word = name_of(value)
        words = [*clauses.STATE_WORD, *MEASURED_WORD]
        return slip(piece.span, f"`{word}` is not an end point of the list",
                    did_you_mean(word, words, f'Anything that can be seen stands in double quotes: {piece.opener} "{word}"'))
    if dimension(value) in ("time", "number"):
        return slip(piece.span, f"behind `{piece.opener}` stands an end point, not {called(value)}",
                    f"Write `for {written(value)}`, or what is to be seen.")
    return slip(piece.span, f"behind `{piece.opener}` stands an end point, not {called(value)}",
                f'Write it like `{row.example}`, `{piece.opener} pH 5.0-5.5` or {piece.opener} "what is to be seen".')


def _no_tool(piece) -> Finding:
    word = name_of(piece.value)
    if word.lower() in PHRASES_MEANT:
        return slip(piece.span, f"`{word}` is not a tool", PHRASES_MEANT[word.lower()])
    return slip(piece.span, f"`{word}` is not a tool of the list",
                did_you_mean(word, clauses.TOOL_WORD, f'Any other tool stands in double quotes, as the plant lists it: with "{word}"'))


# ---- properties and their values


def property_example(name: str) -> str:
    row = MEASURED_WORD[name]
    return f"{name} {row.example}"


def wrong_target(measure: tree.Measure) -> Finding | None:
    """A value that cannot be of this property: no unit where one is needed, or the unit of something else."""
    value, row = measure.target, MEASURED_WORD.get(measure.name)
    if row is None or not isinstance(value, tree.Quantity) or dimension(value) in (*row.takes, "open") or value.unit == "?":
        return None
    kind = dimension(value)
    if kind == "number":
        return slip(value.span, f"`{written(value)}` has no unit", f"Write it like: {property_example(measure.name)}")
    if row.takes == ("number",):
        return slip(value.span, f"{measure.name} has no unit", f"Write it like: {property_example(measure.name)}",
                    f"this is {CALLED.get(kind, 'a figure')}")
    if kind == "ratio" or value.unit == "room" and measure.name != "temperature":
        return slip(value.span, f"`{written(value)}` is no value of {measure.name}", f"Write it like: {property_example(measure.name)}")
    return slip(value.span, f"{CALLED.get(kind, 'this figure')} is no value of {measure.name}",
                f"Write it like: {property_example(measure.name)}")


def no_target(measure: tree.Measure, before: str) -> Finding:
    return slip(measure.span, f"`{measure.name}` stands without a value",
                f"Write the value behind it, {before}{property_example(measure.name)}, or `?` where it is still open.")


SAYS = {clauses.ADDED: "says how something is added", clauses.STIRRED: "says how it is stirred", clauses.WARM: "says how warm it is",
        clauses.LONG: "says how long",
        clauses.UNTIL: "says until when", clauses.COVERED: "says how it is covered", clauses.HEATED: "says how it is heated or cooled"}


def not_of_this_step(piece, question: str, verb: Verb) -> Finding:
    """A clause that makes no sense with the verb."""
    typed = piece.value if piece.opener == "phrase" else f"{piece.opener} ..."
    return slip(piece.span, f"`{typed}` {SAYS[question]}, and that does not belong to a step with `{verb.name}`",
                f"Leave it out, or put it with the step it belongs to.{example(verb)}")


def no_property(span, word: str) -> Finding:
    return slip(span, f"`{word}` is not a property of the list",
                did_you_mean(word, MEASURED_WORD,
                             f"The list: {', '.join(row.name for row in MEASURED)}. Anything seen is an appearance: appearance \"...\""))


def either_plain(words: list[str]) -> str:
    return words[0] if len(words) == 1 else ", ".join(words[:-1]) + " or " + words[-1]
