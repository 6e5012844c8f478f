"""A nitrosating preservative beside an amine that it makes nitrosamine of.

Why it matters
    Bronopol gives off nitrite as it ages. Diethanolamine and other secondary amines, which come in with alkanolamides and
    triethanolamine as well, turn into nitrosamines with it: the product is illegal to sell long before its date.

Wrong
    phase B: base
        1 %  triethanolamine 99 %
    phase C: keeping
        0.05 %  bronopol

Right
    phase B: base
        0.4 %  sodium hydroxide 10 % solution
    phase C: keeping
        0.05 %  bronopol

Limits
    Any dose of both in one product, whatever vessel they meet in. A material whose data say `never with nitrosating preservative` is a
    stop, and so is one whose parts do; any other amine is a warning.

Exceptions
    Betaines and other amphoterics, whose amine is bound. Two parts that meet only on the skin.

Needs
    never with

Source
    public page on preservatives; regulation text that the preservative's own data name
"""

from procsheet.findings import Finding, Label
from procsheet.rules.ph import meeting

NAME = "nitrosation"
LEVEL = "STOP"
UNSURE = "WARN"
GROUP = "nitrosating preservative"
WHY = "The preservative gives off nitrite as it ages, and the amine turns into a nitrosamine with it. That is not seen, and grows on the shelf."


def check(batch):
    for keeping in batch.method.rows:
        if keeping.material.share(GROUP) and not keeping.optional:
            yield from _beside(batch, keeping)


def _beside(batch, keeping):
    found = [(row, level) for row in batch.method.rows if row.code != keeping.code and (level := _level(row.material)) and meeting(batch, keeping, row)]
    if found:
        row, level = min(found, key=lambda one: one[1] != LEVEL)
        moment = meeting(batch, keeping, row)
        yield Finding(level, NAME, f"{keeping.name} is in one product with {row.name}: they make nitrosamine", Label(keeping.span, "gives off nitrite"),
                      (*(Label(one.span, "an amine") for one, _ in found), Label(moment.span, "they meet here")), WHY,
                      f"Take another preservative in place of {keeping.name}, or sodium hydroxide or an amine-free surfactant in place of {row.name}.",
                      f"data of {(row if level == LEVEL else keeping).material.name}", material=keeping.name, step=moment.step.number)


def _level(material) -> str | None:
    if GROUP in material.words("never with") or any(_level(part) == LEVEL for part, _ in material.parts):
        return LEVEL
    return UNSURE if material.is_a("amine") else None
