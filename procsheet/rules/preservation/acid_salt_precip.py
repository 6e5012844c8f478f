"""A preservative goes into water that is acid already, and falls out.

Why it matters
    Benzoate and sorbate dissolve as salts. Where the water is acid they turn into their acid at once, which hardly dissolves: flakes
    that float and clog the strainer. Oily preservatives fall out of acid, salty water as drops.

Wrong
    type solution
    phase B: acid
        0.3 %  citric acid
    phase C: keeping
        0.5 %  sodium benzoate
    method
        add B to main until dissolved
        add C to main

Right
    type solution
    phase B: acid
        0.3 %  citric acid
    phase C: keeping
        0.5 %  sodium benzoate
    method
        add C to main until dissolved
        add B to main slowly

Limits
    A preservative salt of 0.3 % or more into a vessel whose pH is said to be below 4.5, or, where nothing says, that holds 0.1 % or more of
    an acid which no base takes up. Between pH 4.5 and 5.5 it is a hint: a part falls out, and the pH that was set moves. A liquid that
    dissolves in oil and alcohol only, into acid water with salt in it: the same.

Exceptions
    Emulsions; 5 % or more of polyol, alcohol or surfactant in the vessel: they keep the acid dissolved. A premix that holds the preservative
    in one of these.

Source
    from memory, for benzoic acid 0.3 % at 25 °C; public thread on a serum with oil at the bottom
"""

from procsheet.findings import Finding, Label
from procsheet.intervals import BEYOND, below
from procsheet.rules.ph import figure as told
from procsheet.rules.words import share
from procsheet.trace.acidity import acidity

NAME = "acid-salt-precip"
LEVEL = "WARN"
KEEPS = ("polyol", "alcohol", "solvent", "surfactant", "solubiliser", "soap")
NEARLY = 1e-9
WHY = "The salt turns into its free acid where it meets acid water, and that hardly dissolves: flakes or drops that float, clog the strainer, and keep nothing."


def check(batch):
    known = acidity(batch.trace)
    for one in batch.trace.exposures:
        row, moment = one.row, one.moment
        if row.material.is_a("preservative") and moment.before and (_is_salt(batch, row) or _is_oily(batch, row, moment)) and not _kept(batch, moment):
            level, acid = _acid(batch, moment, known)
            if acid is not None:
                yield _finding(batch, row, moment, acid, level)
                return


def _is_salt(batch, row) -> bool:
    return row.material.is_a("electrolyte") and row.material.has("pKa") and batch.of_batch(row) >= batch.limit(NAME, "of its salt") - NEARLY


def _is_oily(batch, row, moment) -> bool:
    """An oily liquid, into water that has salt."""
    words = row.material.words("dissolves in")
    return row.material.text("form") == "liquid" and bool(words) and "water" not in words and bool(batch.trace.holds(moment, "electrolyte", before=True))


def _kept(batch, moment) -> bool:
    held = moment.before
    mild = sum(mass * batch.graph.rows[code].material.share(*KEEPS) for code, mass in held.items() if code in batch.graph.rows)
    return moment.before_facts.emulsified or mild >= batch.limit(NAME, "keeps it dissolved") * sum(held.values()) - NEARLY or not batch.watery(held)


def _acid(batch, moment, known):
    """How grave it is, and what makes the vessel acid: its label, or None where it is not acid for certain."""
    value = known[moment.parents[0]] if moment.parents else None
    if value is not None and not value.missing:
        place = Label(batch.trace.moments[moment.parents[0]].span, f"at pH {told(value)}")
        level = LEVEL if below(value, batch.limit(NAME, "below which the free acid")) == BEYOND else "NOTE"
        return level, place if below(value, batch.limit(NAME, "a part of it")) == BEYOND else None
    acids = [row for row in batch.trace.holds(moment, "acid", before=True) if not row.material.is_a("borate", "preservative", "buffer salt")]
    bases = sum(moment.before[row.code] * row.material.share("base") for row in batch.trace.holds(moment, "base", before=True))
    there = sum(moment.before[row.code] * row.material.share("acid") for row in acids)
    enough = there > 2 * bases and there >= batch.limit(NAME, "taken to be acid") * sum(moment.before.values()) - NEARLY
    return LEVEL, Label(acids[0].span, "makes the water acid") if acids and enough else None


def _finding(batch, row, moment, acid, level) -> Finding:
    return Finding(level, NAME, f"{share(batch.of_batch(row))} of {row.name} goes into {moment.vessel}, which is acid already", Label(moment.span, "falls out here"),
                   (acid, Label(row.span, "hardly dissolves as free acid")), WHY,
                   f"Dissolve {row.name} in the water before the acid, until clear, and add the acid to it slowly, with stirring.", batch.source(NAME, "falls out"),
                   material=row.name, step=moment.step.number)
