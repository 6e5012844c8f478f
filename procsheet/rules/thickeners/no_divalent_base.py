"""Calcium, magnesium or zinc beside a carbomer.

Why it matters
    Each of these ions ties two chains together: the polymer curls up and falls out as grains or strings. Neither more base nor stirring
    brings the gel back.

Wrong
    type gel
    phase B: polymer
        0.5 %  carbomer
    phase C: base
        0.4 %  calcium hydroxide
    method
        disperse B in main
        neutralise main with C

Wrong
    type gel
    phase B: polymer
        0.5 %  carbomer
    phase C: base
        0.6 %  triethanolamine
    phase D: salt
        0.3 %  magnesium chloride hexahydrate
    method
        disperse B in main
        neutralise main with C
        add D to main

Right
    type gel
    phase B: polymer
        0.5 %  carbomer
    phase C: base
        0.6 %  triethanolamine
    method
        disperse B in main
        neutralise main with C

Limits
    All of them together, of a solution only what is in it: from 0.1 % of the batch a stop, from 0.05 % a warning. Where all salt together is
    so much that carbomer-salt stops the batch, this says nothing of the salt.

Exceptions
    Traces. Polymers whose data do not mind divalent salts. Zinc oxide, of which zno-acid tells. The hardness of the water.

Needs
    never with

Source
    supplier's page on neutralising carbomers; common practice, no source, for the trace
"""

from procsheet.findings import Finding, Label
from procsheet.rules import ph, polymers
from procsheet.rules.words import listed, share

NAME = "no-divalent-base"
LEVEL = "STOP"
SOME = "WARN"
NEARLY = 1e-9
WHY = "Each of these ions ties two chains together: the polymer falls out as grains or strings, and neither more base nor stirring brings the gel back."


def check(batch):
    for row in batch.method.rows:
        ions = _ions(batch, row) if _minds(row.material) else []
        total = sum(batch.of_batch(ion, "divalent salt") for ion in ions)
        if ions and total >= batch.limit(NAME, "a trace") - NEARLY:
            yield _finding(batch, row, ions, total, LEVEL if total >= batch.limit(NAME, "a stop") - NEARLY else SOME)
            return


def _minds(material) -> bool:
    return polymers.wants_base(material) or material.is_a("carbomer") and any("divalent" in words for words in material.words("never with"))


def _ions(batch, polymer):
    """What brings such ions to a polymer, but for the salts that are too much salt anyway."""
    salts = sum(batch.of_batch(row, "electrolyte") for row in batch.method.rows)
    told = salts > batch.limit("carbomer-salt", "a stop")
    return [row for row in batch.method.rows if not row.material.is_a("water") and batch.of_batch(row, "divalent salt") > 0
            and not (told and row.material.is_a("electrolyte")) and ph.meeting(batch, polymer, row) is not None]


def _finding(batch, row, ions, total, level) -> Finding:
    most = max(ions, key=lambda one: batch.of_batch(one, "divalent salt"))
    moment = ph.meeting(batch, row, most)
    what = "base" if most.material.is_a("base") else "salt"
    fix = (f"Neutralise with sodium hydroxide, triethanolamine or another base of one charge in place of {most.name}" if what == "base" else f"Take {most.name} out")
    return Finding(level, NAME, f"{share(total)} of {listed(one.name for one in ions)} meets {row.name} in {moment.vessel}: it ties the polymer together",
                   Label(most.span, f"a {what} of two charges"), (Label(row.span, "falls out with it"), Label(moment.span, "they meet here")), WHY,
                   f"{fix}, or thicken with hydroxyethylcellulose or xanthan gum.", batch.source(NAME, "a stop"), material=most.name, step=moment.step.number)
