"""What is added, in words: a phase by its letter, a material by its name, a vessel in capitals."""

import re
from fractions import Fraction

from procsheet.model.method import Row, Take
from procsheet.sheet.figures import written
from procsheet.sheet.model import Run
from procsheet.sheet.pieces import listed
from procsheet.sheet.places import shown
from procsheet.sheet.work import Job
from procsheet.syntax import tree

SHARES = {Fraction(1, 2): "half", Fraction(1, 3): "a third", Fraction(2, 3): "two thirds", Fraction(1, 4): "a quarter",
          Fraction(3, 4): "three quarters"}
LONG = 5        # words in a name: a longer one is told by its code
MANY = 3        # codes named one by one
AT_THE_END = ("rinse", "make up", "neutralise", "activate", "replace loss", "adjust")      # verbs whose sentence ends with what goes in
ALL = "all"     # the phase of a formula without phases

Pieces = list[Run]


def plain(text: str) -> Run:
    return Run(text)


def what(job: Job) -> Pieces:
    """Everything that goes in, or brings a value up."""
    return named(job, job.step.what, _items(job, "X", "UP"), job.step.joined)


def down(job: Job) -> Pieces:
    """What brings a value down."""
    return named(job, job.step.down, _items(job, "DOWN"), "and")


def _items(job: Job, *slots: str) -> list[tree.Item]:
    return [item for slot in slots if slot in job.step.written.slots for item in job.step.written.slots[slot].items]


def named(job: Job, takes: tuple[Take, ...], items: list[tree.Item], joined: str) -> Pieces:
    short = sum(len(row.name.split()) for take in takes for row in take.rows if not take.phase) > LONG + 1
    told = [one(job, take, item, short) for take, item in zip(takes, items)]
    out: Pieces = []
    for place, pieces in enumerate(told):
        out += [plain(f" {joined} " if place == len(told) - 1 else ", ")] if place else []
        out += pieces
    return out


def one(job: Job, take: Take, item: tree.Item, short: bool) -> Pieces:
    """One item of the list."""
    if take.open:
        return [Run("the material "), Run("", "blank")]
    share = _share(take, item)
    if take.vessel:
        return [*share, Run(shown(take.vessel), "vessel")]
    if take.hold_back:
        names = dict.fromkeys(row.name for row in take.rows)
        return [plain(f"the {' and '.join(names)} held back")]
    if take.phase:
        return [*share, plain(_phase(job, take))]
    if not take.rows:
        return [*share, plain(f"the {getattr(item.what, 'text', 'rest')}")]
    return [*share, plain(_material(take, short, job.step.verb in AT_THE_END))]


def _material(take: Take, short: bool, last: bool) -> str:
    row = take.rows[0]
    return label(row) if short else f"the {row.name}" if last else _single(row)


def _phase(job: Job, take: Take) -> str:
    """`phase B`; of a part of it the codes; of a single material its name."""
    whole = [row for phase in job.work.method.phases if phase.letter == take.phase for row in phase.rows]
    if len(whole) == 1 and take.rows:
        return _single(whole[0])
    if len(take.rows) == len(whole) or not take.rows:
        return "all materials" if take.phase == ALL else f"phase {take.phase}"
    if len(take.rows) <= MANY:
        return listed([label(row) for row in take.rows])
    return f"phase {take.phase} without {listed([label(row) for row in whole if row not in take.rows])}"


def _single(row: Row) -> str:
    """`the glycerin`, `B4 purified water`: of a name that breaks up a sentence its beginning; all of it stands in the line below."""
    if not _awkward(row):
        return f"the {row.name}"
    first = re.split(r",| and | with ", row.name)[0]
    return f"the {first}" if row.code.isdigit() else row.code if len(first.split()) > LONG else f"{row.code} {first}"


def _awkward(row: Row) -> bool:
    """A long name, or one with a comma, breaks up a sentence."""
    return len(row.name.split()) > LONG or "," in row.name


def label(row: Row) -> str:
    """Its code; in a formula without phases, where that is a bare number, its name."""
    return row.code if not row.code.isdigit() else row.name


def _share(take: Take, item: tree.Item) -> Pieces:
    if take.share == "rest":
        return [plain("the rest of ")]
    if isinstance(item.share, tree.Quantity):
        return [Run("%", "blank"), plain(" of ")] if item.share.is_open else [Run(written(item.share), "number"), plain(" of ")]
    if isinstance(take.share, Fraction):
        return [plain(f"{SHARES.get(take.share, f'{take.share.numerator}/{take.share.denominator}')} of ")]
    return []
