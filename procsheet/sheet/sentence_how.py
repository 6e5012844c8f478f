"""What comes behind the verb: how it goes in, how long, until when."""

from typing import NamedTuple

from procsheet.sheet.model import Run
from procsheet.sheet.phrases import device, number, until
from procsheet.sheet.places import shown
from procsheet.sheet.temperatures import aimed, gate, goes_before
from procsheet.sheet.work import Job
from procsheet.syntax import tree

ADVERBS = {"slowly": "slowly", "very slowly": "very slowly", "quickly": "quickly", "by hand": "by hand", "water bath": "on a water bath",
           "steam bath": "on a steam bath", "ice bath": "in an ice bath", "cold bath": "in a cold water bath", "twice": "twice"}
MANNERS = {"one at a time": "one at a time", "in order": "in this order", "sprinkled": "sprinkled on the surface",
           "into the vortex": "into the vortex", "onto the surface": "onto the surface", "below the surface": "below the surface",
           "drop by drop": "drop by drop", "running before": "with the tool already running"}   # these may stand beside the sentence instead
LAST = {"without air": "without drawing in air", "without foam": "without foam", "at once": "at once"}
# a time or an end point of these is that of mixing afterwards
POURING = ("charge", "add", "transfer", "rinse", "neutralise", "activate", "make up", "replace loss")

OUTCOMES = {"melt": "melted", "dissolve": "dissolved", "disperse": "dispersed", "hydrate": "hydrated"}


class Tail(NamedTuple):
    pieces: list[Run]
    movable: bool = False
    before: str = " "           # what joins it to the words before


def tails(job: Job) -> list[Tail]:
    """In the order they are read."""
    ends = _ends(job)
    then = job.step.verb in POURING
    out = [*_phrases(ADVERBS, job), *_portions(job), *_times(job), *_temperature(job), *([] if then else ends), *_manners(job),
           *_together(job), *_each(job), *(_afterwards(ends, job) if then else []), *_kept(job)]
    comma = ", " if any(tail.before == ", " for tail in out) or job.step.has("until") else " "
    return [*out, *_phrases(LAST, job, before=comma), *_again(job)]


def _phrases(words: dict[str, str], job: Job, movable: bool = False, before: str = " ") -> list[Tail]:
    return [Tail([Run(text)], movable, before) for kind, text in words.items() if job.step.has(kind)]


def _manners(job: Job) -> list[Tail]:
    if job.step.has("sprinkled") and job.step.has("into the vortex", "onto the surface"):
        where = "into the vortex" if job.step.has("into the vortex") else "on the surface"
        rest = {kind: text for kind, text in MANNERS.items() if kind not in ("sprinkled", "into the vortex", "onto the surface")}
        return [*_phrases(rest, job, True, ", "), Tail([Run(f"sprinkled {where}")], True, ", ")]
    return _phrases(MANNERS, job, True, ", ")


def _portions(job: Job) -> list[Tail]:
    clause = job.step.clause("in portions")
    if clause is None:
        return []
    if isinstance(clause.value, tree.Quantity):
        return [Tail([Run("in "), number(clause.value, "portions")])]
    return [Tail([Run("in portions")], before=", " if job.step.verb == "adjust" else " ")]


def _times(job: Job) -> list[Tail]:
    """How long the addition or the passes take, or within which time."""
    kinds = {"over": "over ", "passes": "for ", "cycles": "for ", "times": "", "within": "within "}
    return [Tail([Run("or " if clause.either else ""), Run(kinds[clause.kind]), number(clause.value, "min")])
            for clause in job.step.written.clauses if clause.kind in kinds]


def _ends(job: Job) -> list[Tail]:
    """`for 8 min`, `until melted`; of a time and an end point both hold, or with `or` whichever comes first."""
    out = [Tail([Run("for a moment")])] if job.step.has("briefly") else []
    timed = bool(out) or job.step.has("for") or job.step.verb not in POURING and job.step.has("over", "passes")
    for clause in job.step.written.clauses:
        if clause.kind == "for":
            out.append(Tail([Run("or " if clause.either else ""), Run("for "), number(clause.value, "min")]))
        elif clause.kind == "until" and (timed or not _said_by_verb(clause.value, job.step.verb)):
            word = "or until " if clause.either else "and until " if timed else "until "
            out.append(Tail([Run(word), *until(clause.value), Run(", whichever comes first" if clause.either and timed else "")]))
    return out


def _said_by_verb(value, verb: str) -> bool:
    """`melt side until melted` is told once."""
    return isinstance(value, tree.States) and {OUTCOMES.get(verb)} == set(value.names)


def _afterwards(ends: list[Tail], job: Job) -> list[Tail]:
    """`, then mix for 5 min`"""
    if not ends:
        return []
    verb = "wait" if job.step.has("unstirred") else "stir by hand" if job.step.has("by hand") else "mix"
    return [Tail([Run(f"then {verb}")], before=", "), *ends]


def _temperature(job: Job) -> list[Tail]:
    clause = gate(job)
    out = [Tail([Run("at "), aimed(clause.value, job)])] if clause is not None and not goes_before(job, clause) else []
    return out + [_arriving(job, clause) for clause in job.step.written.clauses if clause.kind.startswith("added ")]


def _kept(job: Job) -> list[Tail]:
    return [Tail([Run("keeping "), aimed(job.step.value("keeping"), job)], before=", ")] if job.step.has("keeping") else []


def _arriving(job: Job, clause: tree.Clause) -> Tail:
    """`, SIDE at 60 °C`: how warm that is which goes in."""
    who = [Run(shown(job.sources[0]), "vessel"), Run(" ")] if job.sources else []
    return Tail([*who, Run(f"{clause.kind.removeprefix('added ')} "), aimed(clause.value, job)], before=", " if who else " ")


def _together(job: Job) -> list[Tail]:
    """Both vessels at one temperature: left out where the gate above has said it."""
    if job.compared:
        return []
    both, within = job.step.value("both at"), job.step.value("both within")
    out = [Tail([Run("both at "), aimed(both, job)], before=", ")] if both is not None else []
    if within is not None:
        out.append(Tail([Run("within " if out else "both within "), number(within), Run(" of each other")], before=", "))
    return out


def _each(job: Job) -> list[Tail]:
    """After each portion or material: a time, an end point."""
    step, out = job.step, []
    if step.has("each for"):
        out.append(Tail([number(step.value("each for"), "min"), Run(" after each")], True, ", "))
    if step.has("each until"):
        out.append(Tail([Run("each until "), *until(step.value("each until"))], before=", "))
    return out


def _again(job: Job) -> list[Tail]:
    step, out = job.step, []
    if step.has("every"):
        out.append(Tail([Run("every "), number(step.value("every"), "min")]))
    if step.has("before"):
        out.append(Tail([Run(f"before {step.value('before')}")]))
    if step.has("within of"):
        time, name = step.value("within of")
        out.append(Tail([Run("within "), number(time, "min"), Run(f" of step {job.work.numbers.get(name, '')}")]))
    if step.has("through"):
        out.append(Tail([Run("through "), *device(step.value("through"))]))
    return out
