"""An organic-acid preservative, and nothing that makes the product acid.

Why it matters
    Benzoate and sorbate are salts: they keep nothing until an acid has set them free, below pH 5.5 or so. A batch with the salt in it
    and no acid looks finished and spoils on the shelf.

Wrong
    phase B: keeping
        0.5 %  sodium benzoate
    method
        add B to main until dissolved

Wrong
    type surfactant solution
    phase B: wash
        30 %  sodium laureth sulfate 27 % solution
        0.5 %  sodium benzoate
    phase C: pH
        as needed, at most 0.5 %  citric acid 20 % solution
    method
        add "sodium laureth sulfate 27 % solution" to main with paddle
        adjust main to pH 4.8-5.2 with C, in portions
        add "sodium benzoate" to main until dissolved

Right
    phase B: keeping
        0.5 %  sodium benzoate
    phase C: pH
        as needed, at most 0.5 %  citric acid 20 % solution
    method
        add B to main until dissolved
        adjust main to pH 4.8-5.2 with C

Limits
    Preservatives whose own `pH` ends at 6.5 or below. Where no acid goes into the batch it is a warning, even if its limits ask for
    an acid pH. Where an acid goes in and no pH is said, it is a hint. 0.2 % or more of the salt behind the last setting of the pH is a
    warning, where nothing measures it afterwards.

Exceptions
    Another preservative that works at any pH up to 7. The free acids themselves, and blends that bring an acid. Products with little
    water, soap and toothpaste. Oil outside, where a pH is hard to measure: a hint. Where a pH is said that it does not stand, preservative-ph speaks.

Needs
    pH

Source
    supplier table of preservatives, for pH 5.5; common practice, no source
"""

from procsheet.findings import Finding, Label
from procsheet.intervals import Interval
from procsheet.rules.ph import figure as told
from procsheet.rules.ph import final, measures
from procsheet.rules.preservation import acid_salt_precip
from procsheet.rules.preservation.preservative_ph import others

NAME = "ph-before-preservative"
LEVEL = "WARN"
NEUTRAL = Interval(5.5, 7.0)            # what a product has that nobody makes acid (common practice, no source)
ACID = 5.0                              # pH of its own, below which a material makes a product acid (common practice, no source)
BLANDS = ("soap", "paste")
NEARLY = 1e-9
WHY = "The salt keeps nothing until an acid has set its own acid free, at pH 5.5 or below: the batch looks finished and spoils on the shelf."


def check(batch):
    rows = [row for row in batch.method.rows if _wants_acid(batch, row)]
    if not rows or batch.type in BLANDS or _water(batch) < batch.limit(NAME, "from which a product") - 1e-9 or others(batch, rows[0], NEUTRAL):
        return
    row, ends = rows[0], final(batch, rows[0])
    held = [one.row for one in batch.trace.exposures]
    acids = [one for one in held if _is_acid(one)]
    if any(row.code == one.code for one in held) and (not acids and not any(_is_out(row, said) for said in ends) or not ends):
        yield _finding(batch, row, ends, acids)
    elif acids and not any(acid_salt_precip.check(batch)):
        yield from _after_the_ph(batch, rows)


def _after_the_ph(batch, rows):
    """The salt takes a pH up again that was set before it, and nobody looks."""
    codes = {row.code for row in rows if batch.of_batch(row) >= batch.limit(NAME, "moves a pH") - NEARLY}
    one = next((one for one in batch.trace.exposures if one.row.code in codes), None)
    if one is None or any(measures(later) for later in batch.trace.path(one.moment)):
        return
    set_by = next((earlier for earlier in reversed(batch.trace.history(one.moment)[:-1]) if earlier.step.verb == "adjust" and measures(earlier)), None)
    if set_by is not None:
        yield Finding(LEVEL, NAME, f"{one.row.name} goes into {one.moment.vessel} after its pH was set, and takes it up again", Label(one.moment.span, "moves the pH"),
                      (Label(set_by.span, "the pH is set here"), Label(one.row.span, "a salt that takes up acid")), WHY,
                      f"Dissolve {one.row.name} before line {set_by.span.line}, so that the acid sets it free; or set the pH once more behind line {one.moment.span.line}.",
                      batch.source(NAME, "moves a pH"), material=one.row.name, step=one.moment.step.number)


def _wants_acid(batch, row) -> bool:
    """A salt of an organic acid that keeps below a certain pH."""
    figure = row.material.figure("pH")
    return (row.material.is_a("preservative") and figure is not None and figure.value.high <= batch.limit(NAME, "organic acid") and not row.optional
            and row.material.is_a("electrolyte") and "lactone" not in row.material.name)


def _water(batch) -> float:
    return sum(batch.of_batch(row) for row in batch.method.rows if row.material.is_a("water"))


def _is_acid(row) -> bool:
    """What makes a product acid; a corrector of it counts as well."""
    own = row.material.figure("own pH")
    free = row.material.is_a("acid") and not row.material.is_a("borate") or row.material.is_a("hydroxy acid", "antiperspirant salt")
    return free or own is not None and own.value.high < ACID and not row.material.is_a("carbomer") or not row.material.known and "acid" in row.name


def _is_out(row, said) -> bool:
    """preservative-ph tells of it."""
    return not said.value.touches(row.material.figure("pH").value)


def _finding(batch, row, ends, acids) -> Finding:
    works = f"{row.name} works up to pH {row.material.figure('pH').value.high:.3g}"
    if acids:
        title = f"{works}, and nothing says what pH the product has"
        fix = f"Measure it behind the last addition: adjust the batch to a pH that {row.name} works at, in portions; and write it in the limits."
    else:
        title = f"{works}, and no acid goes into the batch" + (f", though pH {told(ends[-1].value)} is asked" if ends else "")
        fix = f"Give it an acid, such as citric acid 20 % solution as needed, and adjust to a pH that {row.name} works at, before the micro sample."
    place = next((said.place for said in ends if said.moment is not None), None)
    return Finding("NOTE" if acids or batch.is_water_in_oil else LEVEL, NAME, title, Label(row.span, "keeps in acid only"),
                   (*((place,) if place else ()), *(Label(one.span, "an acid") for one in acids[:1])), WHY, fix,
                   f"data of {row.material.name}: pH {row.material.figure('pH').told}", material=row.name)
