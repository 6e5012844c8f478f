"""A solid preservative that wants hot water, oil or glycol goes into the batch cold.

Why it matters
    Parabens, chlorphenesin and free acids are crystals that cold water hardly wets, and a gel or a finished cream not at all. They are found as
    grit in the strainer, what is left in the batch is under its dose, and the micro test is lost by chance.

Wrong
    phase B: oils
        15 %   caprylic/capric triglyceride
        4 %    ceteareth-20
    phase C: keeping
        0.2 %  methylparaben
    method
        heat main to 75 °C
        charge B into side
        heat side to 75 °C
        add side to main with homogeniser, then for 5 min
        cool main to 35 °C with anchor
        add C to main with anchor for 10 min

Right
    phase B: oils
        15 %   caprylic/capric triglyceride
        4 %    ceteareth-20
    phase C: keeping
        0.2 %  methylparaben
    method
        add C to main
        heat main to 75 °C until dissolved
        charge B into side
        heat side to 75 °C
        add side to main with homogeniser, then for 5 min
        cool main to 35 °C with anchor

Right
    type gel
    phase B: premix
        5 %    propylene glycol
        0.2 %  methylparaben
    method
        charge B into side
        heat side to 60 °C until dissolved
        add side to main with paddle

Limits
    Powders and crystals whose data say that they dissolve in oil or alcohol and not in water, from 0.02 % of the batch on, where what holds them never
    comes to 65 °C afterwards.

Exceptions
    A step that goes on until dissolved or clear. A vessel that is a third or more glycol, alcohol or surfactant, or holds little water; three parts or more
    of a glycol, an alcohol or a liquid preservative that go in with it. Preservatives that heat harms before 65 °C: theirs is the premix, and the finding is a hint.

Needs
    dissolves in

Source
    common practice, no source
"""

from procsheet.findings import Finding, Label
from procsheet.rules.words import celsius, listed
from procsheet.syntax import tree

NAME = "preservative-first-water"
LEVEL = "WARN"
SOLID = ("powder", "crystals", "granules", "flakes")
LIQUIDS = ("polyol", "alcohol", "solvent", "surfactant", "solubiliser")
WATERY = 0.3                            # of a vessel: with less it is no water (common practice, no source)
NEARLY = 1e-9
WHY = "Cold water hardly wets its crystals, and a gel or a finished cream not at all: grit in the strainer, less in the batch than the formula says, and a micro test lost."


def check(batch):
    found: dict[int, list] = {}
    for one in batch.trace.exposures:
        counts = batch.of_batch(one.row) >= batch.limit(NAME, "from which it counts") - NEARLY and not one.row.optional
        if counts and _is_slow(one.material) and _stays(batch, one):
            found.setdefault(one.moment.step.number, []).append(one)
    for together in found.values():
        yield _finding(batch, together)


def _is_slow(material) -> bool:
    solvents = material.words("dissolves in")
    return material.is_a("preservative", "preservative booster") and material.text("form") in SOLID and bool(solvents) and "water" not in solvents


def _stays(batch, one) -> bool:
    """It goes into water, and nothing on its way dissolves it."""
    enters, path = one.moment, list(batch.trace.path(one.moment))
    hot = max(moment.peak.high for moment in path)
    if batch.watery(enters.contents) < WATERY * enters.mass or hot >= batch.limit(NAME, "at which water") - batch.plan.plant.temperature_tolerance:
        return False
    mass = enters.contents.get(one.row.code, 0.0)
    return (_liquid(batch, enters, enters.contents) < batch.limit(NAME, "dissolve cold") * enters.mass
            and _liquid(batch, enters, enters.added) < batch.limit(NAME, "put in together") * mass and not any(_seen(moment) for moment in path))


def _liquid(batch, moment, held) -> float:
    """kg of what dissolves it, in what a vessel holds or a step adds."""
    rows = batch.trace.holds(moment, *LIQUIDS) + [row for row in batch.trace.holds(moment, "preservative", "perfume") if row.material.text("form") == "liquid"]
    return sum(held.get(code, 0.0) for code in {row.code for row in rows})


def _seen(moment) -> bool:
    states = [said.names for said in (moment.step.value("until"), moment.step.value("each until")) if isinstance(said, tree.States)]
    return any(name in ("dissolved", "clear") for names in states for name in names)


def _finding(batch, together) -> Finding:
    moment, rows = together[0].moment, list({one.row.code: one.row for one in together}.values())
    names, verb = listed(row.name for row in rows), "go" if len(rows) > 1 else "goes"
    needed = batch.limit(NAME, "at which water")
    tender = all(figure is not None and figure.value.low < needed for figure in (row.material.figure("add below") for row in rows))
    where = "finished emulsion" if moment.before_facts.emulsified else "water"
    fix = (f"Dissolve {names} in five parts of glycol or alcohol first, until clear, and add that in line {moment.span.line}." if tender else
           f"Take {names} out of line {moment.span.line}: dissolve that in the water at {celsius(needed)} or above, before gum and oil; or in a glycol, until clear.")
    return Finding("NOTE" if tender else LEVEL, NAME, f"{names} {verb} into the {where} in {moment.vessel} at {celsius(moment.peak)}, undissolved",
                   Label(moment.span, "stays crystals here"), tuple(Label(row.span, f"dissolves in {' and '.join(row.material.words('dissolves in'))}, not in cold water") for row in rows),
                   WHY, fix, batch.source(NAME, "at which water"), material=rows[0].name, step=moment.step.number)
