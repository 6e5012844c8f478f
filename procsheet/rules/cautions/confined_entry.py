"""A step has someone reach or climb into a vessel that a person fits in.

Why it matters
    A large vessel holds too little air, too much vapour, or a shaft that somebody else can start. Those who go after the first one die, too.

Wrong
    product Large
    type gel
    basis 600 kg
    to 100 %  purified water
    5 %       glycerin
    vessel main
    method
        charge all into main
        do "Climb in and scrape the bottom."
        fill main

Right
    product Small
    type gel
    basis 20 kg
    to 100 %  purified water
    5 %       glycerin
    vessel main
    method
        charge all into main
        do "Scrape the wall and the stirrer."
        fill main

Limits
    The words of `do`, `prepare` and `note` that tell of climbing, leaning, reaching or scraping inside, where a vessel of the batch is planned
    for 200 L or more, or holds so much. Cleaning after the batch is the plant's own, and is not told of.

Source
    common practice, no source; local rules on entry and the plant's own procedures decide
"""

import re

from procsheet.findings import Finding, Label
from procsheet.rules.caution import DECIDES

NAME = "confined-entry"
LEVEL = "CAUTION"
WORDS = ("do", "prepare", "note")
INSIDE = re.compile(r"\b(climb|crawl|lean|reach)(s|es|ing)? in(to|side)?\b|\bstep(s|ping)? into\b|\bget(s|ting)? into\b|\bscrap(e|es|ing)\b", re.IGNORECASE)
ADVICE = "Nobody leans or climbs in without the plant's permit: drive locked, vessel vented, air measured, someone outside who stays."


def check(batch):
    if _largest(batch) < batch.limit(NAME) - 1e-9:
        return
    told = next((node.step for node in batch.graph.nodes if node.step.verb in WORDS and INSIDE.search(_text(node.step))), None)
    if told is not None:
        yield Finding("CAUTION", NAME, f"Entry: a vessel of {_largest(batch) * 1000:.3g}\u00a0L", Label(told.span), fix=ADVICE, source=DECIDES, step=told.number)


def _text(step) -> str:
    found = step.written.slots.get("text")
    return " ".join(item.what.text for item in found.items) if found is not None else ""


def _largest(batch) -> float:
    """m³ of the largest vessel: as built, else what it holds."""
    built = [kettle.working.high for kettle in batch.plan.kettles.values() if kettle is not None and kettle.working is not None]
    return max([*built, *(most for _, most in batch.plan.volumes.values()), 0.0])
