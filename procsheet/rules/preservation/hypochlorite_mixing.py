"""Hypochlorite, or another oxidiser, in one vessel with what it must never meet.

Why it matters
    Hypochlorite gives off chlorine with acid and chloramine with ammonia and amines, within seconds and in the face of whoever pours.
    With alcohol, peroxide and reducing agents it heats up and may burst the vessel. Other oxidisers burn with reducing agents.

Wrong
    phase B: bleach
        20 %  sodium hypochlorite 12 % solution
    phase C: acid
        2 %  citric acid
    method
        add B to main
        add C to main

Right
    phase B: bleach
        20 %  sodium hypochlorite 12 % solution
    phase C: alkali
        0.5 %  sodium hydroxide
    method
        dissolve C in main, in portions
        add B to main

Limits
    Any dose, in any vessel, rinsed or not; correctors count. Hypochlorite: acid, amine, ammonia, charged surfactant, alcohol, another
    oxidiser, reducing agent. Another oxidiser: what its own data say `never with`, of acid, amine, reducing agent; in water or
    solution only.

Exceptions
    Peroxide in alcohol or with a little acid, which hand rubs and developers are made of. Dry powders that meet water only in use.

Needs
    never with

Source
    four public sources on mixing bleach; the materials' data
"""

from procsheet.findings import Finding, Label

NAME = "hypochlorite-mixing"
LEVEL = "STOP"
BLEACH = {"acid": "gives off chlorine gas", "amine": "gives off chloramine gas", "cationic surfactant": "gives off chloramine gas", "reducing agent": "reacts with heat",
          "alcohol": "heats up and makes chlorinated vapour", "oxidiser": "heats up and gives off oxygen"}
OTHERS = {"acid": "comes apart and gives off gas", "amine": "reacts with heat", "reducing agent": "reacts with heat and may catch fire"}
WHY = "It happens within seconds, in the face of whoever pours, and no stirring or cooling holds it. Nobody is to try it small first."


def check(batch):
    for row in batch.method.rows:
        if row.material.is_a("oxidiser"):
            met = next((found for moment in batch.trace.moments if row.code in moment.contents for found in _met(batch, row, moment)), None)
            if met is not None:
                yield _finding(row, *met)


def _met(batch, row, moment):
    """What it meets in a vessel, and what that does."""
    bleach = row.material.is_a("hypochlorite")
    if not bleach and row.material.text("form") != "solution" and not batch.trace.weight(moment.contents, "water") > moment.contents.get(row.code, 0):
        return
    for group, does in (BLEACH if bleach else OTHERS).items():
        if bleach or group in row.material.words("never with"):
            others = [one for one in batch.trace.holds(moment, group) if one.code != row.code and not one.material.is_a("hypochlorite")]
            yield from ((other, moment, does) for other in others[:1])


def _finding(row, other, moment, does) -> Finding:
    return Finding(LEVEL, NAME, f"{row.name} meets {other.name} in {moment.vessel}: it {does}", Label(moment.span, "they meet here"),
                   (Label(row.span, "an oxidiser"), Label(other.span, does)), WHY,
                   f"Leave {other.name} or {row.name} out of this product, and keep them in vessels, scoops and drains of their own.",
                   f"data of {row.material.name}; four public sources on mixing bleach", material=row.name, step=moment.step.number)
