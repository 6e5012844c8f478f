"""What is said where a step lacks something its form asks for, with the step as it could be written."""

from fractions import Fraction

from procsheet.findings import Finding
from procsheet.syntax import tree
from procsheet.syntax.build import Piece, RawStep
from procsheet.syntax.clauses import STATE_WORD
from procsheet.syntax.misfits import no_property, unknown_word
from procsheet.syntax.slips import PHRASES_MEANT, either, near, slip
from procsheet.syntax.values import called, dimension, is_name, is_phase, name_of, single, text_of, written
from procsheet.syntax.verbs import Verb

ASKS = {
    "X": "what is added", "V": "which vessel", "W": "into which vessel", "T": "the temperature", "t": "how long", "P": "the pressure",
    "Q": "how much", "MEASURE": "which property, and its value", "PLACE": "into what", "DEVICE": "through what", "text": "anything",
    "E": "the end point", "DOWN": "what brings it down", "UP": "what brings it up",
}
NEEDED = {
    "X": "a phase, a material in double quotes, or a vessel", "V": "a vessel", "W": "a vessel", "T": "a temperature", "t": "a time",
    "P": "a pressure",
    "Q": "a weight, a volume or a percentage", "MEASURE": "a property and its value",
    "PLACE": "a mould, a container or words in double quotes",
    "DEVICE": "a device in double quotes or a mesh opening such as 200 µm", "text": "words in double quotes", "E": "an end point",
    "DOWN": "a material", "UP": "a material",
}


def slot(lacking, verb: Verb, raw: RawStep, left: list[Piece]) -> Finding:
    """The one thing to say of a step whose form is not met: the piece that was meant for it, else that it is missing."""
    kind = lacking.key if lacking.key in ASKS else lacking.kind
    watched = next((piece for piece in left if verb.name == "wait" and piece.opener == "until" and _of_a_vessel(piece.value)), None)
    if watched is not None:
        vessel = name_of(watched.value) if is_name(watched.value) else "main"
        return slip(watched.span, "a step with `wait` watches no vessel",
                    f"Write it with the vessel first: rest {vessel} until ..., or cool {vessel} to 40 °C")
    misspelt = _misspelt(lacking, left, verb)
    if misspelt is not None:
        return misspelt
    meant = next((piece for piece in left if piece.opener in lacking.openers), None)
    if kind == "text":
        return slip(meant.span if meant else raw.verb_span, *_no_words(verb, bool(raw.pieces)))
    if meant is not None and not (lacking.openers == ("",) and is_name(meant.value) and kind != "MEASURE"):
        return not_that(meant, kind, verb)
    other = next((piece for piece in left if piece.opener != "phrase" and _could_be(piece, lacking.kind)), None)
    if other is not None and lacking.openers != ("",):
        return _no_opener(other, lacking, verb)
    said = next((piece for piece in left if piece.opener == "" and is_name(piece.value) and name_of(piece.value) in PHRASES_MEANT), None)
    if said is not None:
        return unknown_word(said.span, name_of(said.value), verb)
    return slip(raw.verb_span, f"this {verb.name} step does not say {ASKS[kind]}", f"Write it like: {verb.example}", "something is missing")


def _of_a_vessel(value) -> bool:
    return is_name(value) or dimension(value) == "temperature"


def _misspelt(lacking, left: list[Piece], verb: Verb) -> Finding | None:
    """A word that is nearly the opener that is missing: `too 75 °C`, `itno main`."""
    openers = [opener for opener in lacking.openers if len(opener) > 2]
    for piece in left:
        if piece.opener == "" and is_name(piece.value):
            word = name_of(piece.value)
            guess = near(word, openers, 1) or ["to"] * (word in ("too", "ot", "tto") and "to" in lacking.openers)
            if guess:
                return slip(piece.span, f"`{word}` is not a word that fits in a step with `{verb.name}`",
                            f"Did you mean {either(guess)}? For example: {verb.example}")
    return None


def _could_be(piece: Piece, kind: str) -> bool:
    if kind in "VW":
        return piece.opener == "" and is_name(piece.value)
    if kind in ("T", "t", "P"):
        return dimension(piece.value) in {"T": ("temperature",), "t": ("time",), "P": ("gauge pressure", "pressure")}[kind]
    if kind == "Q":
        return dimension(piece.value) in ("mass", "volume", "share", "volume share") and piece.opener in ("", "for", "at")
    if kind == "X":
        return piece.opener == "" and isinstance(piece.value, tree.Objects)
    if kind == "DEVICE":
        return text_of(piece.value) is not None or dimension(piece.value) == "length"
    return piece.opener == "" and text_of(piece.value) is not None and kind == "PLACE"


def _no_opener(piece: Piece, lacking, verb: Verb) -> Finding:
    """The right thing behind the wrong word, or behind none."""
    opener = "to" if verb.name in ("add", "transfer") and "to" in lacking.openers else lacking.openers[0]
    value = piece.value
    found = f'"{text_of(value).text}"' if text_of(value) is not None else name_of(value) if is_name(value) else written(value)
    fix = f"Write `{opener} {found}`. For example: {verb.example}"
    if not piece.opener:
        return slip(piece.span, f"`{opener}` is missing before `{found}`", fix)
    if piece.opener == "at most" and lacking.kind == "T":
        fix = f"Write `to {found}`. For example: {verb.example}"
    elif piece.opener in ("at", "below", "above", "at least") and lacking.kind == "T":
        to = found if piece.opener == "at" else f"{piece.opener} {found}"
        fix = f"Write `to {to}`: `{piece.opener}` says what the thermometer must show before the step starts."
    return slip(piece.span, f"in a step with `{verb.name}` {NEEDED[lacking.kind]} stands behind `{opener}`, not behind `{piece.opener}`",
                fix)


def _no_words(verb: Verb, something: bool) -> tuple[str, str]:
    title = f"the words behind `{verb.name}` stand in double quotes" if something else f"nothing stands behind `{verb.name}`"
    return title, f"Write it like: {verb.example}"


def not_that(piece: Piece, kind: str, verb: Verb) -> Finding:
    """Something stands where the form asks for something else."""
    value = piece.value
    if dimension(value) == "number":
        return slip(value.span, f"`{written(value)}` has no unit", _with_unit(piece, kind, verb))
    if kind in "VW" and (is_phase(value) or text_of(value) is not None):
        what = f"phase {single(value).what.letter}" if is_phase(value) else f'"{text_of(value).text}"'
        into = any("PLACE" in form for form in verb.forms) and text_of(value) is not None
        fix = f"Name the vessel first: {verb.name} main into {what}" if into else f"Name the vessel it is in. For example: {verb.example}"
        return slip(value.span, f"{what} is not a vessel: a step with `{verb.name}` works on what a vessel holds", fix)
    if kind == "MEASURE" and (text_of(value) is not None or is_name(value) and name_of(value) in STATE_WORD):
        seen = text_of(value).text if text_of(value) is not None else name_of(value)
        return slip(value.span, f"`{verb.name}` does not say of which property",
                    f'What is seen is an appearance: {verb.name} main appearance "{seen}"')
    if kind == "MEASURE" and is_name(value):
        return no_property(value.span, name_of(value))
    if verb.name == "transfer" and isinstance(value, tree.Objects) and value.items[0].share:
        return slip(value.span, "a transfer moves all of a vessel", "To move a part of it write: add half of main to side")
    if kind == "Q" and is_name(value):
        return slip(value.span, f"`{name_of(value)}` is not an amount",
                    "Write the weight, the volume or the percentage: to 100 %, or to 10 L.")
    if kind in "VW" and isinstance(value, tree.Objects):
        return slip(value.span, f"a step with `{verb.name}` works on one vessel, and this is {called(value)}",
                    f"Give each vessel a step of its own. For example: {verb.example}")
    return slip(value.span, f"here stands {NEEDED[kind]}, not {called(value)}", f"Write it like: {verb.example}")


def _with_unit(piece: Piece, kind: str, verb: Verb) -> str:
    unit = {"T": "°C", "t": "min", "P": "bar", "Q": "%", "DEVICE": "µm"}.get(kind)
    before = f"{piece.opener} " if piece.opener else ""
    return f"Write `{before}{written(piece.value)} {unit}`." if unit else f"Write it like: {verb.example}"


# ---- values that can be read two ways, or not at all


def unclear_vacuum(verb: Verb, values: dict, made: list) -> list[Finding]:
    """`0.5 bar` under vacuum: on a gauge it lies above the outside pressure."""
    vacuum = verb.name == "evacuate" or any(clause.kind == "vacuum" for clause in made)
    figures = [values["P"]] if "P" in values else [clause.value for clause in made if clause.kind == "pressure"]
    if not vacuum:
        return []
    return [slip(figure.span, f"`{written(figure)}` is no vacuum as a gauge reads it",
                 f"Write `-{written(figure)}` as the gauge reads, or `{written(figure)} abs`.")
            for figure in figures if isinstance(figure, tree.Quantity) and dimension(figure) == "gauge pressure" and not figure.is_open
            and not figure.low.startswith("-") and Fraction(figure.low) > 0]


def unclear_target(verb: Verb, values: dict, made: list) -> list[Finding]:
    """`cool main below 40 °C`: where it cools to, or where it starts?"""
    gate = next((clause for clause in made if clause.kind in ("at", "below", "above", "at most", "at least")), None)
    if verb.name != "cool" or "T" in values or gate is None or not isinstance(gate.value, tree.Quantity):
        return []
    to = written(gate.value) if gate.kind == "at" else f"{gate.kind} {written(gate.value)}"
    return [slip(gate.span,
                 f"`{gate.kind} {written(gate.value)}` says what the thermometer shows before the cooling starts, not where it ends",
                 f"Write `to {to}`. For example: {verb.example}")]


def too_large_parts(objects: tree.Objects) -> list[Finding]:
    """`4/3 of A`, `1/0 of A`, `120 % of A`."""
    out = []
    for item in objects.items:
        share = item.share
        if isinstance(share, tree.Quantity) and dimension(share) == "share" and not share.is_open and Fraction(share.high) > 100:
            out.append(slip(share.span, f"{written(share)} of something is more than there is", "A part is at most 100 %."))
        elif isinstance(share, tree.Quantity) and dimension(share) == "number":
            out.append(slip(share.span, f"`{written(share)}` has no unit", f"Write `{written(share)} %`."))
        elif isinstance(share, str) and "/" in share and not _is_part(share):
            out.append(slip(objects.span, f"{share} is no part of something",
                            "The number above the line is smaller than the one below it, such as 1/3."))
    return out


def _is_part(share: str) -> bool:
    top, _, bottom = share.partition("/")
    return int(bottom) > 0 and 0 < int(top) <= int(bottom)
