"""One step: its line read, its slips told once, and as much of it kept as can be."""

import operator
import re

from procsheet.findings import Finding
from procsheet.syntax import forms, slips, tokens, tree
from procsheet.syntax.build import UnexpectedInput, build
from procsheet.syntax.figures import Badly
from procsheet.syntax.lines import Logical, masked
from procsheet.syntax.slips import slip
from procsheet.syntax.step_slips import out_of_place
from procsheet.syntax.verbs import BY_WORD
from procsheet.syntax.words import NOTHING, VERB, Known, plain

NUMBERED = re.compile(r"\s*(?:(?:step\s*)?\d+(?:\.\d+)*\s*[.):]|\(\d+\)|step\s+\d+:?|[-*•·–](?=\s))\s*(?=\S)", re.IGNORECASE)
LABEL = re.compile(r"\s*([A-Za-z][\w-]*(?:\s+[a-z][\w-]*)?)\s*:\s*(?=\S)")
TIED = re.compile(r"\b(?:per|for|at|on|in|of)\s+(?:a\s+|the\s+|every\s+)?"
                  r"(?:\d[\d.]*\s*(?:kg|L|l|lb|lbs|gal|t)(?![\w/])(?:\s+(?:batch|batches|kettle|vessel|scale))?|"
                  r"(?:small|large|big|bigger|smaller|pilot|plant|lab|laboratory|production)\s+(?:kettle|vessel|batch|scale))", re.IGNORECASE)
AFTER_A_STEP = operator.methodcaller("endswith", (",", ";", ".", " and", " or", " then", " while"))
WEIGHED = ("sample", "make up", "dry")          # steps that have weights of their own


def read_step(line: Logical, known: Known = NOTHING) -> tuple[tree.Step | None, list[Finding]]:
    """One step and at most one finding; the step is None where too little of it can be read."""
    line, wrong, name = _without_number(line)
    try:
        found, more = tokens.step(line, known)
    except Badly as error:
        return None, [slips.badly(error)]
    wrong += more
    first = next((word for word in found if word.type != "OPEN_STEP"), None)
    if first is None or first.type != "VERB":
        return _no_verb(line, first, known, wrong)
    end, second = _second_step(found, line, known)
    step, more = _built(found[:end] if end else found, line)
    wrong += second + (_tied(line, more, first.value) or more)
    return (step._replace(name=name) if step is not None and name and not step.name else step), wrong[:1]


def _built(found: list, line: Logical) -> tuple[tree.Step | None, list[Finding]]:
    try:
        return forms.fit(build(found, line, "step"), line)
    except UnexpectedInput as error:
        finding = out_of_place(error, found, line)
        return _kept(found, error.token, line), [finding]


def _kept(found: list, bad, line: Logical) -> tree.Step | None:
    """What stands before the slip, if that makes a step."""
    end = next((index for index, word in enumerate(found) if word is bad), len(found))
    while end > 1:
        try:
            return forms.fit(build(found[:end], line, "step"), line)[0]
        except UnexpectedInput:
            end -= 1
    return None


# ---- one line says one step


def _second_step(found: list, line: Logical, known: Known) -> tuple[int, list[Finding]]:
    """Where a second step begins in the line, 0 for nowhere."""
    for index, word in enumerate(found[2:], 2):
        new = word.type == "NAME" and AFTER_A_STEP(line.text[:word.start_pos].rstrip()) and word.value not in known.places
        if new and VERB.match(line.text, word.start_pos):
            rest = _with_vessel(line.raw[word.start_pos:].strip(" ."), word.value, found, known)
            fix = f"One line says one step. Begin a new line with: {rest}"
            if line.text[:word.start_pos].rstrip().endswith(" or"):
                fix = "Where either step will do, write `choose one`, `option NAME` above each of the two, and `end`."
            return _before(found,
                           index), [slip(line.span(word.start_pos, word.end_pos), f"`{word.value}` begins a second step in this line", fix)]
    return 0, []


def _with_vessel(rest: str, word: str, found: list, known: Known) -> str:
    """`stir for 10 min` with the vessel of the step before it: `stir main for 10 min`."""
    verb, after = BY_WORD.get(word), rest[len(word):].split()
    vessel = next((token.value for token in found if token.type == "NAME" and token.value in known.places), "")
    if verb is None or not vessel or not verb.forms[0].startswith(f"{verb.name} V") or after and after[0] in known.places:
        return rest
    return f"{word} {vessel} {' '.join(after)}".strip()


def _tied(line: Logical, wrong: list[Finding], verb: str) -> list[Finding]:
    """What does not fit may be a figure that holds for one size of kettle only."""
    tied = TIED.search(masked(line.text)) if wrong and verb not in WEIGHED else None
    if not tied or line.span(tied.start(), tied.end()).end < wrong[0].at.span.column:
        return []
    return [slip(line.span(tied.start(), tied.end()), f"`{tied.group()}`: a figure for one size of kettle cannot stand in a step",
                 "Write the figure as it was proven, and `proven at 100 kg` in the header: other sizes are worked out from there. "
                 "Where plants differ, use `where the plant has ...`, `otherwise`, `end`.")]


def _before(found: list, index: int) -> int:
    while index > 2 and (found[index - 1].type in ("AND", "OR") or found[index - 1].value in ("then", "while")):
        index -= 1
    return index


# ---- lines that do not begin with a verb


def _without_number(line: Logical) -> tuple[Logical, list[Finding], str]:
    """The line without a number, dash or label before its verb; and the name that a label gives."""
    if not (line.text[:1] in "-*•·–(0123456789" or ":" in line.text or line.text[:4].lower() == "step"):
        return line, [], ""
    match = NUMBERED.match(line.text)
    if match and VERB.match(line.text, match.end()):
        typed = match.group().strip()
        return _blanked(line, match.end()), [slip(line.span(match.start() + len(match.group()) - len(match.group().lstrip()), match.end()),
                                                  f"`{typed}` before a step is not read",
                                                  "Leave it out: the printed sheet numbers the steps.")], ""
    match = LABEL.match(line.text)
    if match and VERB.match(line.text, match.end()) and plain(match[1]) not in BY_WORD and plain(match[1]) not in ("optional", "if needed"):
        name = "-".join(match[1].lower().split())
        rest = line.raw[match.end():].strip()
        return _blanked(line, match.end()), [slip(line.span(match.start(1), match.end(1)), f"`{match[1]}:` before a step is not read",
                                                  f"Name a step behind it: {rest} called {name}")], name if not slips.reserved(name) else ""
    return line, [], ""


def _blanked(line: Logical, end: int) -> Logical:
    return line._replace(text=" " * end + line.text[end:], raw=" " * end + line.raw[end:])


LEADING = re.compile(r"(?:then|next|finally|please)\b[,:]?\s*", re.IGNORECASE)
TIMELY = ("then", "next", "finally", "after", "while", "when", "once", "please")
LETTER = re.compile(r"(?<=[\s:])[A-Za-z]")
NOT_A_VERB_THERE = re.compile(r"(?:rest|open|press)\b", re.IGNORECASE)     # verbs that are other words too


def _no_verb(line: Logical, first, known: Known, wrong: list[Finding]) -> tuple[tree.Step | None, list[Finding]]:
    """A line that begins with something else: with a verb further on, it is turned round; else its first word is unknown."""
    start = len(line.text) - len(line.text.lstrip(" ?"))
    end = start + max(len(re.split(r"[\s,:]", line.text[start:])[0]), 1)
    word = line.raw[start:end]
    at = _verb_further_on(masked(line.text), start)
    free = first is None or first.type not in ("NAME", "STRAY", "STRING") or word.lower() in TIMELY
    if at and free and word.lower() not in slips.MEANT:
        before = LEADING.sub("", line.raw[start:at].strip(" ,:"), count=1)
        shown = f"{line.raw[at:].strip(' .')} {before}".strip()
        return read_step(_blanked(line, at), known)[0], [slip(line.span(start, end), "a step begins with its verb", f"Write it as: {shown}")]
    if wrong and first is not None and first.type == "STRING":
        return None, wrong[:1]
    return None, [slips.unknown_verb(line.span(start, end), word)]


def _verb_further_on(text: str, start: int) -> int:
    """Where the first verb stands behind the first word, 0 for nowhere."""
    places = (match.start() for match in LETTER.finditer(text, start + 1))
    return next((at for at in places if VERB.match(text, at) and not NOT_A_VERB_THERE.match(text, at)), 0)
