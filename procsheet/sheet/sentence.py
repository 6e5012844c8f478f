"""One step as a sentence: an imperative, its condition before it, the numbers large.

A pattern holds words and slots: `{what}` is filled from sentence_slots.py; `[ ... ]` is left out where a slot in it has nothing to say.
"""

import re
from typing import NamedTuple

from procsheet.sheet.model import Cue, Run, Words
from procsheet.sheet.phrases import number
from procsheet.sheet.runs import capitalised, count, ended, joined, merged
from procsheet.sheet.sections import words_of
from procsheet.sheet.sentence_how import tails
from procsheet.sheet.sentence_slots import SLOTS
from procsheet.sheet.sentence_when import condition
from procsheet.sheet.work import Job

ALONE, IN_LANE = 18, 14         # words at most

PATTERNS = {
    "charge": "charge {what} into {vessel}", "add": "add {what} to {vessel}", "transfer": "transfer {vessel} to {into}",
    "rinse": "rinse {vessel} into {into} with {what}", "discharge": "discharge {vessel} into {into}",
    "fill": "fill {vessel}[ into {into}]", "pour": "pour {vessel} into {into}",
    "heat": "heat {vessel} to {target}", "cool": "cool {vessel}[ to {target}]", "hold": "hold {vessel}[ at {target}]",
    "stop heating": "stop heating {vessel}",
    "mix": "mix {vessel}", "stir": "stir {vessel}", "homogenise": "homogenise {vessel}", "mill": "mill {vessel}", "shake": "shake {vessel}",
    "recirculate": "recirculate {vessel} through {device}", "pass": "pass {vessel} through {device} into {into}",
    "stop stirring": "stop stirring {vessel}",
    "disperse": "disperse {what} in {vessel}", "dissolve": "dissolve {what} in {vessel}", "hydrate": "hydrate {vessel}",
    "melt": "melt {vessel}", "emulsify": "emulsify {what} into {vessel}", "neutralise": "neutralise {vessel} with {what}",
    "activate": "activate {vessel} with {what}", "react": "let {vessel} react",
    "deaerate": "deaerate {vessel}", "evacuate": "evacuate {vessel} to {pressure}", "vent": "vent {vessel}",
    "blanket": "blanket {vessel} with nitrogen", "close": "close {vessel}", "open": "open {vessel}",
    "adjust": "adjust {vessel} to {measure}[ with {alone}][, up with {up}][, down with {down}]",
    "make up": "make up {vessel} to {mark} with {what}", "replace loss": "replace the loss in {vessel} with {what}",
    "dry": "dry {vessel}[ to {mark}]",
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
    while count(_whole(first, core, how)) > (IN_LANE if job.narrow else ALONE) and (spare := _spare(how)) is not None:
        moved.insert(0, how.pop(spare))
    more = (Cue("How", ended(joined([tail.pieces for tail in moved]))),) if moved else ()
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
    return capitalised([*head, *core, *(run for tail in how for run in (Run(tail.before), *tail.pieces))])


def _spare(how) -> int | None:
    """The last manner that may stand beside the sentence instead."""
    return next((index for index in range(len(how) - 1, -1, -1) if how[index].movable), None)


def _afterwards(job: Job) -> list[Run]:
    """`add ... then for 2 min`: the tool goes on."""
    named = [name for clause in job.step.written.clauses if clause.kind == "tool" for name in clause.value.names if name != "?"]
    return [Run(f"Keep the {named[0] if named else 'stirrer'} on for "), number(job.step.value("then for")), Run(" more.")]


def fill(pattern: str, job: Job) -> list[Run]:
    """A pattern with its slots filled; a part in brackets needs all of its own."""
    out: list[Run] = []
    for bracketed, open_ in re.findall(r"\[([^]]*)\]|([^[]+)", pattern):
        pieces = _slots(bracketed or open_, job)
        out += [piece for each in pieces for piece in each] if not bracketed or all(pieces) else []
    return out


def _slots(pattern: str, job: Job) -> list[list[Run]]:
    return [SLOTS[slot](job) if slot else [Run(text)] for text, slot in re.findall(r"([^{}]+)|\{(\w+)\}", pattern)]
