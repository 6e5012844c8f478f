"""The finished product is not at a pH where its preservative works.

Why it matters
    Only the undissociated acid of benzoate or sorbate keeps anything, and there is hardly any of it at pH 7. Others come apart in
    acid or alkali. The batch is filled unprotected, and no test before filling shows it.

Wrong
    phase B: keeping
        0.5 %  sodium benzoate
    phase C: pH
        as needed, at most 0.5 %  citric acid 20 % solution
    method
        add B to main until dissolved
        adjust main to pH 6.8-7.2 with C

Right
    phase B: keeping
        0.5 %  sodium benzoate
    phase C: pH
        as needed, at most 0.5 %  citric acid 20 % solution
    method
        add B to main until dissolved
        adjust main to pH 4.8-5.2 with C

Limits
    The preservative's own `pH`, on both sides, against the last pH that the making measures and against the limits of the product. A
    limit that is only remembered, and passed by half a unit or less, is a warning. A range that lies partly outside is one level lower.

Exceptions
    Another preservative, of its own, that works at that pH: then it is a hint that this one does nothing. Parts of a multipack
    that never meet the acid. What the pH is on the way does not count. Toothpastes are published with benzoate at pH 7, and stand on
    their humectant: a hint.

Needs
    pH

Source
    the preservative's own data; supplier table of preservatives; three public threads on benzoate at pH 7 to 8
"""

from procsheet.findings import LEVELS, Finding, Label
from procsheet.intervals import BEYOND, STRADDLES, UNDECIDED, WITHIN, above, below
from procsheet.rules.batch import not_checked
from procsheet.rules.ph import figure as told, final

NAME = "preservative-ph"
LEVEL = "STOP"
NEARLY = 1e-6
WHY = "Outside its pH a preservative is not in the form that keeps, or comes apart. The batch goes out unprotected, and nothing shows it before the first mould."


def check(batch):
    for row in batch.method.rows:
        if row.material.is_a("preservative") and row.material.known and not row.optional:
            yield from _of(batch, row)


def _of(batch, row):
    figure, ends = row.material.figure("pH"), final(batch, row)
    if figure is None:
        if row.material.entries("pH") == () and any(not _is_usual(batch, said.value) for said in ends):
            yield not_checked(NAME, row, "pH", f"whether it keeps at pH {told(ends[0].value)}")
        return
    judged = [(level, said) for said in ends if (level := _level(batch, figure, said.value)) is not None]
    if judged:
        level, said = min(judged, key=lambda one: LEVELS.index(one[0]))
        yield _finding(batch, row, figure, level, said, [other for _, other in judged if other is not said])


def _is_usual(batch, value) -> bool:
    return value.low >= batch.limit(NAME, "from which every") - NEARLY and value.high <= batch.limit(NAME, "up to which every") + NEARLY


def _level(batch, figure, value) -> str | None:
    """How grave a pH is for what works within a figure."""
    verdicts = {above(value, figure.value.high), below(value, figure.value.low)}
    spread = batch.limit(NAME, "remembered") if figure.from_memory else 0.0
    far = max(value.high - figure.value.high, figure.value.low - value.low) > spread + NEARLY
    if BEYOND in verdicts:
        return LEVEL if far else "WARN"
    if verdicts <= {WITHIN, UNDECIDED}:
        return None
    return "WARN" if far and STRADDLES in verdicts else "NOTE"


def keeps(batch, row, value) -> bool:
    """Whether a preservative works at a pH, for certain."""
    figure = row.material.figure("pH")
    return figure is not None and value.within(figure.value)


def others(batch, row, value):
    """The other preservatives of a formula that work at a pH."""
    return [one for one in batch.method.rows if one.code != row.code and one.material.is_a("preservative") and not one.optional and keeps(batch, one, value)]


def _finding(batch, row, figure, level, said, also) -> Finding:
    helped = others(batch, row, said.value)
    works = f"{row.name} works at pH {told(figure.value)}"
    title = f"the product is at pH {told(said.value)}; {works}" + (f"; only {helped[0].name} keeps it there" if helped else "")
    return Finding("NOTE" if helped or batch.type == "paste" else level, NAME, title, said.place, (Label(row.span, f"works at pH {told(figure.value)}"), *(one.place for one in also)), WHY,
                   f"Bring the product to pH {told(figure.value)} in the adjusting step and in its limits, or take a preservative that works at pH {told(said.value)}.",
                   f"data of {row.material.name}: pH {figure.told}", material=row.name, step=said.moment.step.number if said.moment is not None else 0)
