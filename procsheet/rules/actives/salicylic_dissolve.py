"""Salicylic acid goes into water as a powder, with nothing there that dissolves it.

Why it matters
    Water dissolves 0.2 % of it. What is more lies as crystals in the kettle, dissolves by halves in the heat, and grows into needles as it cools: the
    product scratches, and its dose is chance.

Wrong
    type gel
    phase B: active
        2 %    salicylic acid
    method
        heat main to 45 °C
        add B to main with propeller

Right
    type gel
    phase B: active
        2 %    salicylic acid
        12 %   propanediol
    method
        charge B into pail
        stir pail until clear
        add pail to main with propeller

Right
    type gel
    phase B: active
        2 %    salicylic acid
    phase C: base
        1.2 %  sodium hydroxide 50 % solution
    method
        add C to main
        add B to main with propeller until dissolved

Limits
    More than 0.2 % of the water it goes into, in a vessel that is mostly water. Enough is a fifth of alcohol or glycol there, a twentieth of surfactant,
    or a base that makes its salt. Only acids whose data ask for alcohol or polyol.

Exceptions
    `until dissolved` or `until clear`: one level lower, since it may come out as it cools. What goes into the oil.

Needs
    needs

Source
    from memory
"""

from procsheet.findings import LOWER, Finding, Label
from procsheet.model.material import SOLID
from procsheet.rules.words import share, weight
from procsheet.syntax import tree

NAME = "salicylic-dissolve"
LEVEL = "WARN"
DISSOLVES = ("alcohol", "polyol", "solvent")
WHY = "Water dissolves 0.2 % of it. The rest dissolves by halves in the heat and grows into needles as it cools: the product scratches, its dose is chance."


def check(batch):
    told: set[str] = set()
    for exposure in batch.trace.exposures:
        row, moment = exposure.row, exposure.moment
        if row.code in told or not _needs_help(row):
            continue
        if batch.trace.watery(moment.contents) > moment.mass / 2 and not _dissolves(batch, row, moment):
            told.add(row.code)
            yield _finding(batch, row, moment)


def _needs_help(row) -> bool:
    return row.material.text("form") in SOLID and any("dissolve in alcohol" in words for words in row.material.words("needs"))


def _dissolves(batch, row, moment) -> bool:
    held, acid = moment.contents, moment.contents[row.code]

    def of(*groups: str) -> float:
        return sum(held[one.code] for one in batch.trace.holds(moment, *groups) if one.code != row.code)

    return (bool(batch.trace.holds(moment, "base", "neutraliser")) or acid <= batch.limit(NAME, "water dissolves") * batch.trace.watery(held) or of(*DISSOLVES) >= batch.limit(NAME, "alcohol or glycol") * moment.mass
            or of("surfactant") >= batch.limit(NAME, "surfactant") * moment.mass)


def _finding(batch, row, moment) -> Finding:
    until = moment.step.value("until")
    seen = isinstance(until, tree.States) and bool({"dissolved", "clear"} & set(until.names))
    amount = moment.contents[row.code]
    return Finding(LOWER[LEVEL] if seen else LEVEL, NAME,
                   f"{weight(amount)} of {row.name} goes as a powder into {weight(batch.trace.watery(moment.contents))} of water, which dissolves {share(batch.limit(NAME, 'water dissolves'))}",
                   Label(moment.span, "does not dissolve here"), (Label(row.span, "wants alcohol or glycol first"),), WHY,
                   f"Dissolve {row.name} in five times its weight of propanediol or alcohol, or with its base as a salt, before line {moment.span.line}, and add that.",
                   f"data of {row.material.name}: needs {', '.join(row.material.words('needs'))}; {batch.source(NAME, 'water dissolves')}", material=row.name, step=moment.step.number)
