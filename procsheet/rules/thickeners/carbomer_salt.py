"""Salt beside a carbomer.

Why it matters
    Salt screens the charges that hold a carbomer open: the gel thins, or never builds, and no more base brings it back.

Wrong
    type gel
    phase B: polymer
        0.5 %  carbomer
        0.8 %  sodium chloride

Right
    type gel
    phase B: polymer
        0.5 %  carbomer
        0.05 %  sodium chloride

Limits
    All salt of the batch together, of a solution only what is in it. Over the polymer's own tolerance it is a warning; over 0.5 %, or what
    its data call too much, a stop. A figure from memory stops a batch only where it is passed twice over.

Exceptions
    Salt-tolerant copolymers, by their own data. Chelators in their usual small dose are not counted.

Needs
    salt tolerance

Source
    formulators' forum and a maker's recipe, where 1 % of salt undoes the gel; common practice, no source, for 0.1 %
"""

from procsheet.findings import Finding, Label
from procsheet.rules.batch import judge
from procsheet.rules.words import listed, share

NAME = "carbomer-salt"
LEVEL = "STOP"
SOME = "WARN"
NEARLY = 1e-6
WHY = "Salt screens the charges that hold a carbomer open: the gel thins, or never builds, and no more base brings it back."


def check(batch):
    salts = [row for row in batch.method.rows if row.material.share("electrolyte") and row.mass]
    total = sum(batch.of_batch(row, "electrolyte") for row in salts)
    polymers = [(row, _figures(batch, row.material)) for row in batch.method.rows if row.material.is_a("carbomer") and _minds(row.material)]
    if not salts or not polymers:
        return
    row, (tolerated, too_much, figure) = min(polymers, key=lambda one: one[1][:2])
    level = judge(LEVEL, "beyond", figure, factor=total / too_much) if total > too_much + NEARLY else SOME if total > tolerated + NEARLY else None
    if level:
        yield _finding(batch, row, salts, total, too_much if total > too_much + NEARLY else tolerated, level)


def _minds(material) -> bool:
    return material.has("salt tolerance") or any("electrolyte" in one.words for one in material.figures("never with"))


def _figures(batch, material):
    """What a polymer stands, what is too much for it, and the material's own figure for that, None where the process's counts."""
    own = material.figure("salt tolerance")
    tolerated = own.value.low if own else batch.limit(NAME, "a warning")
    said = [one for one in material.figures("never with") if "electrolyte" in one.words]
    figure = next((one for one in said if one.value.low > batch.limit(NAME, "a stop") + NEARLY), None)
    too_much = figure.value.low if figure else batch.limit(NAME, "a stop")
    return tolerated, max(too_much, tolerated), figure


def _finding(batch, row, salts, total, limit, level) -> Finding:
    most = max(salts, key=lambda one: batch.of_batch(one, "electrolyte"))
    others = [one for one in salts if one is not most]
    meeting = next((moment for moment in batch.trace.moments if most.code in moment.contents and row.code in moment.contents), None)
    return Finding(level, NAME, f"{share(total)} of electrolyte ({listed(one.name for one in salts)}) beside {row.name}, which tolerates {share(limit)}",
                   Label(most.span, "salt"),
                   (Label(row.span, "salt takes its viscosity"), *(Label(one.span, "salt too") for one in others)), WHY,
                   f"Take {most.name} out or down to {share(limit)} together, or thicken with a gum that stands salt, such as xanthan or hydroxyethylcellulose.",
                   batch.source(NAME, "a stop"), material=most.name, step=meeting.step.number if meeting else 0)
