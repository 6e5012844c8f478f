"""An anionic gum or carbomer beside a cationic polymer.

Why it matters
    Two long chains of opposite charge tie up along their whole length: strings and grains fall out, the thickness is gone, and so is the
    conditioning.

Wrong
    type gel
    phase B: gum
        3 %  glycerin
        0.5 %  xanthan gum
    phase C: conditioner
        0.5 %  polyquaternium-10
    method
        disperse B in main with homogeniser
        add C to main with propeller

Right
    type gel
    phase B: gum
        0.8 %  hydroxyethylcellulose
    phase C: conditioner
        0.5 %  polyquaternium-10
    method
        disperse B in main with homogeniser
        add C to main with propeller

Limits
    0.1 % of the gum, and over 0.1 % of the cationic as active matter, or over what the gum's own data say. With 5 % of anionic surfactant in the batch, where the two are meant to come
    down in the rinse, a hint.

Exceptions
    Gums without charge, polymers with both charges. Cationic surfactants, of which anionic-cationic tells. Some gums are combined on purpose: a trial is a reason to sign.

Needs
    ionic, never with

Source
    public thread on xanthan with cationics; one published method combines them on purpose
"""

from procsheet.findings import Finding, Label
from procsheet.rules import ph
from procsheet.rules.words import share

NAME = "anionic-gum-cationic"
LEVEL = "WARN"
HINT = "NOTE"
NEARLY = 1e-9
WHY = "Two long chains of opposite charge tie up along their whole length: strings and grains fall out, and thickness and conditioning with them."


def check(batch):
    rows = batch.method.rows
    gums = [row for row in rows if row.material.is_a("anionic gum", "carbomer") and row.material.text("ionic") != "cationic"]
    charged = [row for row in rows if row.material.share("cationic polymer") and row.material.text("ionic") != "amphoteric"]
    pairs = [(gum, other) for gum in gums for other in charged if _is_enough(batch, gum, other) and ph.meeting(batch, gum, other) is not None]
    if pairs:
        washed = sum(batch.of_batch(row, "anionic surfactant") for row in rows) >= batch.limit(NAME, "surfactant") - NEARLY
        yield _finding(batch, *max(pairs, key=lambda pair: batch.of_batch(pair[1], "cationic polymer")), HINT if washed else LEVEL)


def _is_enough(batch, gum, other) -> bool:
    least = batch.limit(NAME, "either polymer")
    own = [figure.value.low for figure in gum.material.figures("never with") if {"cationic", "polymer"} <= set(" ".join(figure.words).split())]
    return batch.of_batch(gum, "anionic gum", "carbomer") >= least - NEARLY and batch.of_batch(other, "cationic polymer") > max(own, default=least) + NEARLY


def _finding(batch, gum, other, level) -> Finding:
    moment = ph.meeting(batch, gum, other)
    return Finding(level, NAME, f"{share(batch.of_batch(other, 'cationic polymer'))} of {other.name}, cationic, meets "
                   f"{share(batch.of_batch(gum, 'anionic gum', 'carbomer'))} of {gum.name}, anionic, in {moment.vessel}",
                   Label(moment.span, "they meet here"), (Label(other.span, "cationic"), Label(gum.span, "anionic")), WHY,
                   f"Thicken with hydroxyethylcellulose or another gum without charge in place of {gum.name}, or leave {other.name} out.", batch.source(NAME, "either polymer"),
                   material=other.name, step=moment.step.number)
