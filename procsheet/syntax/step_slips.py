"""What is said where a step's words do not go together: the habits of other papers, each with how it is written here."""

import re

from procsheet.findings import Finding
from procsheet.syntax import clauses, slips
from procsheet.syntax.misfits import unknown_word
from procsheet.syntax.slips import slip
from procsheet.syntax.verbs import BY_WORD


def out_of_place(error, found: list, line) -> Finding:
    """The first word that does not fit: what it is, and what would."""
    bad = error.token
    index = next((at for at, word in enumerate(found) if word is bad), len(found))
    before = found[index - 1] if index else None
    verb = BY_WORD.get((found[0] if found[0].type == "VERB" else found[1]).value if found else "")
    if bad.type == "$END":
        return _ends_early(error, before, line, verb)
    span = line.span(bad.start_pos, bad.end_pos)
    typed = line.raw[bad.start_pos:bad.end_pos]
    for habit in HABITS:
        finding = habit(bad, before, span, typed, found, verb)
        if finding is not None:
            return finding
    if bad.type in ("NAME", "STRAY") and "OPENER" in error.accepts:
        return unknown_word(span, typed, verb)
    return slip(span, f"`{typed}` does not fit here", f"{slips.fitting(error.accepts)} For example: {verb.example}")


def _ends_early(error, before, line, verb) -> Finding:
    end = len(line.text.rstrip())
    row = clauses.BY_OPENER.get(before.value) if before is not None and before.type in ("OPENER", "BOUND") else None
    start = before.start_pos if before is not None else end - 1
    if row is not None:
        return slip(line.span(start, end), f"nothing stands behind `{line.raw[start:end].strip()}`", f"Write it like `{row.example}`.",
                    "something is missing behind this")
    return slip(line.span(start, end), f"the line ends too early, behind `{line.raw[start:end].strip()}`", f"Write it like: {verb.example}",
                "something is missing behind this")


def _unclosed(bad, before, span, typed, found, verb):
    return slips.unclosed(span) if bad.type == "UNCLOSED" else None


def _brackets(bad, before, span, typed, found, verb):
    if bad.type == "STRAY" and typed[0] in "([{":
        return slip(span, "words in brackets are not read", "Leave the brackets out, or put what they say behind `--` as a remark.")
    return None


def _half(bad, before, span, typed, found, verb):
    if bad.type == "FRACTION" and before is not None and before.type == "ABOUT":
        return slip(span, "a part is exact, so that everything adds up", f"Leave out `about`: {typed} of ..., and later `the rest of` it.")
    return None


def _slash(bad, before, span, typed, found, verb):
    if typed.startswith("/"):
        return slip(span, f"`{typed}`: a stroke can mean `and` or `or`", "Write `and`, or `or` where either will do.")
    return None


def _text(bad, before, span, typed, found, verb):
    row = clauses.BY_OPENER.get(before.value) if before is not None and before.type == "OPENER" else None
    if row is not None and row.takes == '"text"':
        return slip(span, f"the words behind `{before.value}` stand in double quotes", f"Write it like: {row.example}")
    return None


def _from(bad, before, span, typed, found, verb):
    if bad.type == "FROM" and verb is not None and verb.name == "sample":
        return slip(span, "the vessel stands first, then how much", f"Write it like: {verb.example}")
    if bad.type == "FROM":
        return slip(span, "`from` stands directly behind the material", 'Write it like: charge "purified water" from A into main')
    return None


def _tag(bad, before, span, typed, found, verb):
    if re.fullmatch(r"[A-Z]{1,3}-?\d{2,5}", typed):
        return slip(span, f"`{typed}` looks like a kettle of one plant",
                    "A method has vessels of its own, such as main and side; the plant's kettles are chosen when the papers are made.")
    return None


def _capital(bad, before, span, typed, found, verb):
    if bad.type == "STRAY" and typed[:1].isupper():
        small = re.sub("[^a-z0-9-]", "", typed.lower()) or "main"
        return slip(span, f"`{typed}` is no word of a step", f"A material stands in double quotes; a vessel is written in small letters: {small}")
    return None


def _property(bad, before, span, typed, found, verb):
    """`check pH of main`, `adjust pH of main to 5.5`."""
    of = bad.type in ("PROPERTY", "OF") or bad.type == "NAME" and before is not None and before.type == "OF"
    if of and verb is not None and verb.name in ("adjust", "check"):
        return slip(span, "the vessel stands first, then the property", f"Write it like: {verb.example}")
    return None


def _joined(bad, before, span, typed, found, verb):
    if bad.type in ("AND", "OR") and before is not None and before.type == "QTY" and verb is not None:
        fix = "Write a range, such as 70-75 °C; where either will do, write `or` before a whole clause: for 5 min or until uniform."
        return slip(span, f"`{typed}` does not join anything here", "One line checks one property: begin a new line." if verb.name == "check" else fix)
    return None


def _half_a_range(bad, before, span, typed, found, verb):
    if typed[0] in "-–" and before is not None and before.type == "QTY":
        return slip(span, "a range ends here without its upper figure", "Write both ends, with the unit behind the second: 75-80 °C.")
    return None


def _sign(bad, before, span, typed, found, verb):
    if bad.type == "STRAY" and not any(letter.isalnum() for letter in typed):
        return slip(span, f"`{typed}` is not read here", "Leave it out, or say it in words.")
    return None


def _of_the_vessel(bad, before, span, typed, found, verb):
    if bad.type == "OF" and before is not None and before.type == "PHRASE":
        return slip(span, "the vessel stands before the manner", f"Write it like: add B to main {before.value}")
    return None


def _words(bad, before, span, typed, found, verb):
    if verb is not None and verb.group == "people" and bad.type in ("NAME", "STRAY",
                                                                    "PHASE") and before is not None and before.type == "VERB":
        return slip(span, f"the words behind `{verb.name}` stand in double quotes", f"Write it like: {verb.example}")
    return None


HABITS = (_words, _of_the_vessel, _unclosed, _brackets, _half, _slash, _text, _from, _tag, _capital, _property, _joined, _half_a_range,
          _sign)
