"""Beads that calcium holds together stand in something that takes the calcium out.

Why it matters
    Alginate and gellan beads are a gel that calcium ties. A chelator, citrate or phosphate binds that calcium, and much sodium salt takes its place:
    the beads swell, smear, and after some days are gone.

Wrong
    type gel
    phase B: gel
        0.2 %   disodium EDTA
        0.4 %   xanthan gum
    phase C: beads
        1 %     calcium alginate bead
    method
        add B to main with propeller
        add C to main with paddle

Wrong
    type gel
    phase B: gel
        0.4 %   xanthan gum
        1 %     trisodium citrate dihydrate
    phase C: beads
        1 %     calcium alginate bead
    method
        add B to main with propeller
        add C to main with paddle

Right
    type gel
    phase B: gel
        0.4 %   xanthan gum
    phase C: beads
        1 %     calcium alginate bead
    method
        add B to main with propeller
        add C to main with paddle

Limits
    EDTA and the like from 0.02 % on are a stop; citrate, citric acid, phosphate from 0.1 % on a warning, and electrolyte above what the beads' own data allow.
    Only beads whose data say `never with chelator`.

Exceptions
    A soluble calcium or other divalent salt in the formula, which feeds the beads: one level lower. Chelator that never comes into one vessel with the beads.

Needs
    never with

Source
    from memory
"""

from procsheet.findings import LOWER, Finding, Label
from procsheet.rules.batch import gravest
from procsheet.rules.words import share

NAME = "bead-chelator"
LEVEL = "STOP"
WEAK = "WARN"
ACIDS = ("acid", "electrolyte")         # a chelator that is one of these is a weak one
WHY = "Calcium ties these beads. What binds it, or takes its place, lets them swell and smear, and after some days they are gone."


def check(batch):
    beads = [row for row in batch.method.rows if "chelator" in row.material.words("never with")]
    for bead in beads[:1]:
        found = gravest(_met(batch, bead, row) for row in batch.method.rows if row.code != bead.code)
        if found is not None:
            yield found


def _met(batch, bead, row) -> Finding | None:
    level = _level(batch, bead, row)
    meeting = next((moment for moment in batch.trace.moments if bead.code in moment.contents and row.code in moment.contents), None)
    if level is None or meeting is None:
        return None
    fed = any(one.material.is_a("divalent salt") for one in batch.method.rows)
    return Finding(LOWER[level] if fed else level, NAME, f"{share(_pure(batch, row))} of {row.name} stands with {bead.name}, which calcium holds together",
                   Label(row.span, "takes the calcium out"), (Label(bead.span, "held by calcium"), Label(meeting.span, "they meet here")), WHY,
                   f"Leave {row.name} out, or take beads that calcium does not hold: agar, cellulose, wax.",
                   f"data of {bead.material.name}; {batch.source(NAME)}", material=row.name, step=meeting.step.number)


def _pure(batch, row) -> float:
    return batch.of_batch(row, "chelator", "phosphate buffer", "electrolyte")


def _level(batch, bead, row) -> str | None:
    material, amount = row.material, _pure(batch, row)
    if material.is_a("chelator") and not material.is_a(*ACIDS) and amount >= batch.limit(NAME, "a stop"):
        return LEVEL
    if material.is_a("chelator", "phosphate buffer") and amount >= batch.limit(NAME, "citrate"):
        return WEAK
    allowed = next((figure.value.low for figure in bead.material.figures("never with") if "electrolyte" in figure.words), None)
    salty = allowed is not None and material.is_a("electrolyte") and not material.is_a("divalent salt")
    return WEAK if salty and amount > allowed else None
