"""One step as a sentence: an imperative, its condition before it, the numbers large.

A pattern holds words and slots: `{what}` is filled by SLOTS, `[ ... ]` is left out where a slot in it has nothing to say.
"""

import re
from typing import NamedTuple

from procsheet.model import quantities
from procsheet.sheet import things
from procsheet.sheet.figures import four, spaced, written
from procsheet.sheet.model import Cue, Run, Words
from procsheet.sheet.phrases import device, measured, number, property_name, until
from procsheet.sheet.sections import words_of
from procsheet.sheet.sentence_when import condition
from procsheet.sheet.sentence_how import tails
from procsheet.sheet.temperatures import aimed
from procsheet.sheet.things import label
from procsheet.sheet.work import Job, capital
from procsheet.syntax import tree

ALONE, IN_LANE = 18, 14         # words at most

PATTERNS = {
    "charge": "charge {what} into {vessel}", "add": "add {what} to {vessel}", "transfer": "transfer {vessel} to {into}",
    "rinse": "rinse {vessel} into {into} with {what}", "discharge": "discharge {vessel} into {into}", "fill": "fill {vessel}[ into {into}]",
    "pour": "pour {vessel} into {into}",
    "heat": "heat {vessel} to {target}", "cool": "cool {vessel}[ to {target}]", "hold": "hold {vessel}[ at {target}]", "stop heating": "stop heating {vessel}",
    "mix": "mix {vessel}", "stir": "stir {vessel}", "homogenise": "homogenise {vessel}", "mill": "mill {vessel}", "shake": "shake {vessel}",
    "recirculate": "recirculate {vessel} through {device}", "pass": "pass {vessel} through {device} into {into}", "stop stirring": "stop stirring {vessel}",
    "disperse": "disperse {what} in {vessel}", "dissolve": "dissolve {what} in {vessel}", "hydrate": "hydrate {vessel}", "melt": "melt {vessel}",
    "emulsify": "emulsify {what} into {vessel}", "neutralise": "neutralise {vessel} with {what}", "activate": "activate {vessel} with {what}",
    "react": "let {vessel} react",
    "deaerate": "deaerate {vessel}", "evacuate": "evacuate {vessel} to {pressure}", "vent": "vent {vessel}", "blanket": "blanket {vessel} with nitrogen",
    "close": "close {vessel}", "open": "open {vessel}",
    "adjust": "adjust {vessel} to {measure}[ with {alone}][, up with {up}][, down with {down}]", "make up": "make up {vessel} to {mark} with {what}",
    "replace loss": "replace the loss in {vessel} with {what}", "dry": "dry {vessel}[ to {mark}]",
    "check": "check the {property} {whose} {vessel}", "sample": "sample [{amount} of ]{vessel}[ for {text}]",
    "strain": "strain {vessel} through {device}[ into {into}]", "rest": "rest {vessel}", "set aside": "set {vessel} aside",
    "wait": "wait[ for {text}][ {time}][ until {end}]", "compare": "compare top and bottom of {vessel}",
    "cut": "cut[ {into}]", "cure": "cure[ {into}]", "unmould": "unmould[ {into}]", "press": "press[ {into}]", "crimp": "crimp[ {into}]",
    "prepare": "[prepare {vessel}]", "do": "",
}
OWN_WORDS = ("prepare", "do")   # the method's own sentence follows, or stands alone


class Said(NamedTuple):
    sentence: Words
    more: tuple[Cue, ...] = ()  # what did not fit into it


def say(job: Job) -> Said:
    """The sentence of a step, and beside it the manner that would make it too long."""
    if job.step.verb in OWN_WORDS:
        return Said(_own(job))
    first = condition(job)
    core = fill(PATTERNS[job.step.verb], job)
    how = tails(job)
    moved = []
    while _count(_whole(first, core, how)) > (IN_LANE if job.narrow else ALONE) and (spare := _spare(how)) is not None:
        moved.insert(0, how.pop(spare))
    more = (Cue("How", ended(_joined([tail.pieces for tail in moved]))),) if moved else ()
    after = [Run(" "), *_afterwards(job)] if job.step.has("then for") else []
    return Said(merged([*ended(_whole(first, core, how)), *after]), more)


def _own(job: Job) -> Words:
    """`Prepare MAIN. Drain the jacket.`"""
    first = ended(_whole(condition(job), fill(PATTERNS[job.step.verb], job), tails(job)))
    text = words_of(job.step)
    return merged([*first, Run(" " if first else ""), Run(text if text.endswith((".", "!", "?")) else f"{text}.")])


def _whole(first, core, how) -> list[Run]:
    """Condition, comma, core, manner; with a capital."""
    head = [*first, Run(", ")] if first and core else list(first)
    return _capitalised([*head, *core, *(run for tail in how for run in (Run(tail.before), *tail.pieces))])


def _spare(how) -> int | None:
    """The last manner that may stand beside the sentence instead."""
    return next((index for index in range(len(how) - 1, -1, -1) if how[index].movable), None)


def _afterwards(job: Job) -> list[Run]:
    """`add ... then for 2 min`: the tool goes on."""
    named = [name for clause in job.step.written.clauses if clause.kind == "tool" for name in clause.value.names if name != "?"]
    return [Run(f"Keep the {named[0] if named else 'stirrer'} on for "), number(job.step.value("then for")), Run(" more.")]


# ---- slots

def fill(pattern: str, job: Job) -> list[Run]:
    """A pattern with its slots filled; a part in brackets needs all of its own."""
    out: list[Run] = []
    for bracketed, open_ in re.findall(r"\[([^]]*)\]|([^[]+)", pattern):
        pieces = _slots(bracketed or open_, job)
        out += [piece for each in pieces for piece in each] if not bracketed or all(pieces) else []
    return out


def _slots(pattern: str, job: Job) -> list[list[Run]]:
    return [SLOTS[slot](job) if slot else [Run(text)] for text, slot in re.findall(r"([^{}]+)|\{(\w+)\}", pattern)]


def _vessel(job: Job) -> list[Run]:
    return [job.words(job.step.vessel)] if job.step.vessel else []


def _into(job: Job) -> list[Run]:
    into = job.step.into
    return [] if not into else [job.words(into)] if into in job.work.bars else [Run(into)]


def _target(job: Job) -> list[Run]:
    quantity = job.step.written.slots.get("T")
    return [aimed(quantity, job)] if quantity is not None else []


def _pressure(job: Job) -> list[Run]:
    return [number(job.step.written.slots["P"])]


def _device(job: Job) -> list[Run]:
    return device(job.step.written.slots.get("DEVICE"))


def _measure(job: Job) -> list[Run]:
    return measured(job.step.written.slots["MEASURE"])


def _property(job: Job) -> list[Run]:
    return [Run(property_name(job.step.written.slots["MEASURE"]))]


def _whose(job: Job) -> list[Run]:
    return [Run("in" if job.step.written.slots["MEASURE"].of else "of")]


def _mark(job: Job) -> list[Run]:
    """What the scale must show: of a share, that of the vessel's content by then."""
    quantity = job.step.written.slots.get("Q")
    if quantity is None or quantity.is_open:
        return [number(quantity)] if quantity is not None else []
    return [Run(mark(job), "number"), Run(" net" if job.step.verb == "make up" and not job.work.method.by_volume else "")]


def mark(job: Job) -> str:
    """`150.0 kg` for `100 %`; a written weight or volume at the batch's size."""
    quantity, method = job.step.written.slots["Q"], job.work.method
    kind = quantities.dimension(quantity)
    if kind in ("mass", "volume"):
        amount, of = quantities.middle(quantity) * job.plan.factor, quantity.unit
        return spaced(four(amount, of), of)
    if kind == "volume share" or method.by_volume:
        return written(quantity)
    of = mass_unit(job.plan.mass)
    held = job.moments[-1].mass if job.moments else float(job.plan.mass * quantities.middle(quantity))
    return spaced(four(held, of), of)


def mass_unit(mass) -> str:
    """The unit of the batch on paper, the one its weighing lines have."""
    return "kg" if mass >= 10 else "g"


def _amount(job: Job) -> list[Run]:
    quantity = job.step.written.slots.get("Q")
    return [number(quantity)] if quantity is not None else []


def _text(job: Job) -> list[Run]:
    text = words_of(job.step)
    return [Run(text.rstrip("."))] if text else []


def _time(job: Job) -> list[Run]:
    quantity = job.step.written.slots.get("t")
    return [number(quantity)] if quantity is not None else []


def _end(job: Job) -> list[Run]:
    value = job.step.written.slots.get("E")
    return until(value) if value is not None else []


def _up(job: Job) -> list[Run]:
    return things.what(job) if job.step.down else []


def _alone(job: Job) -> list[Run]:
    return [] if job.step.down else correctors(job)


def correctors(job: Job) -> list[Run]:
    """`D1, citric acid 20 % solution,`"""
    rows = [row for take in job.step.what for row in take.rows]
    if len(rows) == 1 and label(rows[0]) == rows[0].code and rows[0].kind == "corrector" and not job.narrow:
        return [Run(f"{rows[0].code}, {rows[0].name}")]
    return things.what(job)


SLOTS = {"what": things.what, "vessel": _vessel, "into": _into, "target": _target, "pressure": _pressure, "device": _device, "measure": _measure,
         "property": _property, "whose": _whose, "mark": _mark, "amount": _amount, "text": _text, "time": _time, "end": _end, "up": _up, "down": things.down, "alone": _alone}


# ---- runs to words

def ended(runs: list[Run]) -> list[Run]:
    """With a full stop."""
    return [*runs, Run("." if not runs[-1].text.endswith(".") else "")] if runs else []


def _capitalised(runs: list[Run]) -> list[Run]:
    first = next((index for index, run in enumerate(runs) if run.text.strip()), None)
    if first is None or runs[first].kind not in ("plain",):
        return runs
    return [*runs[:first], runs[first]._replace(text=capital(runs[first].text)), *runs[first + 1:]]


def _joined(lists: list[list[Run]]) -> list[Run]:
    return _capitalised([run for place, pieces in enumerate(lists) for run in ([Run(", ")] if place else []) + pieces])


def merged(runs: list[Run]) -> Words:
    """Neighbours of plain words are one run; nothing is empty."""
    out: list[Run] = []
    for run in runs:
        if not run.text and run.kind != "blank":
            continue
        if out and run.kind == "plain" == out[-1].kind:
            out[-1] = Run(out[-1].text + run.text)
        else:
            out.append(run)
    return tuple(out)


def _count(runs: list[Run]) -> int:
    """Words as a reader counts them; a number with its unit is one."""
    text = " ".join("x" if run.kind in ("number", "vessel", "blank") else run.text for run in runs)
    return sum(any(char.isalnum() for char in word) for word in text.split())
