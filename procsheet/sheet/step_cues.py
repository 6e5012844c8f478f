"""What stands below the set-points: what to look for, when to stop, what happens meanwhile, what to know."""

from procsheet.model.material import shown
from procsheet.sheet.model import Cue, Run, Words
from procsheet.sheet.pieces import line, numbered, sentence
from procsheet.sheet.runs import merged
from procsheet.sheet.temperatures import aimed, gated
from procsheet.sheet.work import Job
from procsheet.syntax import tree

LOOK = {
    "melted": "all liquid, nothing solid left", "dissolved": "nothing left undissolved", "dispersed": "no dry powder, no clumps",
    "wetted": "no dry powder left", "hydrated": "fully swollen, no grains", "translucent": "nothing white left in it",
    "uniform": "one even mass, no streaks", "smooth": "smooth, no grains", "lump-free": "no lumps", "in": "all taken up, nothing floating",
    "free of air": "no bubbles left",
}
PACK = {"declared": "declared", "fill tolerance": "fill within"}
GATE_WORDS = {"at": "at ", "below": "below ", "above": "above ", "at most": "at or below ", "at least": "at or above "}


def cues(job: Job, more: tuple[Cue, ...]) -> tuple[Cue, ...]:
    """`more` is what did not fit into the sentence."""
    return (*more, *_first(job), *_look(job), *_stop(job), *_if_not(job), *_meanwhile(job), *_pack(job), *_notes(job))


def _say(head: str, text: str) -> Cue:
    return Cue(head, (Run(text),))


def _first(job: Job) -> tuple[Cue, ...]:
    """Steps that are written elsewhere and are the last thing before this one."""
    before = job.work.before.get(job.step.name, ()) if job.step.name else ()
    first = (_say("First", f"Do {numbered([step.number for step in before])}."),) if before else ()
    after = job.work.fixed.get(job.step.number)
    return (*first, *((_say("Order", f"Never before step {after}."),) if after else ()))


def _look(job: Job) -> tuple[Cue, ...]:
    """Each state that the step waits for, as an observation."""
    ends = (clause.value for clause in job.step.written.clauses if clause.kind in ("until", "each until"))
    names = dict.fromkeys(name for end in ends if isinstance(end, tree.States) for name in end.names)
    seen = [LOOK[name] for name in names if name in LOOK] + (["no difference between the two"] if job.step.verb == "compare" else [])
    return (_say("Look for", "; ".join(seen) + "."),) if seen else ()


def _stop(job: Job) -> tuple[Cue, ...]:
    out = []
    for kind, word in (("never above", "passes "), ("never below", "falls below ")):
        if job.step.has(kind):
            who = job.words(job.vessel) if job.vessel else Run("it")
            out.append(Cue("Stop if", (who, Run(f" {word}"), aimed(job.step.value(kind), job), Run("."))))
    return tuple(out)


def _if_not(job: Job) -> tuple[Cue, ...]:
    return (_say("If not", sentence(job.step.value("if not"))),) if job.step.has("if not") else ()


def _meanwhile(job: Job) -> tuple[Cue, ...]:
    """The steps inside this one, with the temperature at which each begins."""
    guests = job.work.guests.get(job.step.name, ()) if job.step.name else ()
    runs: list[Run] = []
    for place, guest in enumerate(guests):
        runs += [Run(", " if place else ""), Run(f"step {guest.number}")]
        clause = guest.clause(*GATE_WORDS)
        if clause is not None:
            runs += [Run(f" {GATE_WORDS[clause.kind]}"), gated(clause.value, job)]
        elif guest.has("when"):
            value = guest.value("when")
            runs += [Run(f" when {value if isinstance(value, str) else 'it is seen'}")]
    return (Cue("Meanwhile", _words(runs)),) if guests else ()


def _pack(job: Job) -> tuple[Cue, ...]:
    """What it is filled into, and what the pack says."""
    return tuple(cue for pack in job.work.method.packs for cue in _of_pack(pack)) if job.step.verb in ("fill", "pour") else ()


def _of_pack(pack: tree.Pack) -> list[Cue]:
    lines = {entry.key: figure(entry) for entry in pack.lines}
    parts = [figure(entry) for entry in pack.lines if entry.key == "part"]
    told = line(pack.title, *parts, *(f"{words} {lines[key]}" for key, words in PACK.items() if key in lines), lines.get("per", ""), by="; ")
    found = (("Pack", sentence(told)), ("Batch code", sentence(lines.get("batch code", ""))), ("Directions", lines.get("directions", "")))
    return [_say(head, text) for head, text in found if text]


def figure(entry: tree.Entry) -> str:
    return " ".join(shown(word) for word in entry.words)


def _words(runs: list[Run]) -> Words:
    return merged([*runs, Run(".")])


def _notes(job: Job) -> tuple[Cue, ...]:
    """Remarks and notes of the method, its reasons, hints of the check, and what is not printed here."""
    written = job.step.written
    out = [_say("Note", sentence(note)) for note in ((written.remark.text,) if written.remark else ()) + job.task.notes]
    out += [_say("Why", sentence(job.step.value("because")))] if job.step.has("because") else []
    out += [_say("Note", note) for note in job.work.notes.get(job.number, ())]
    out += [_say("Left out", text) for text in job.task.left_out]
    return (*out, *((_say("Open point", "Is this step right? Confirm it before making."),) if written.to_confirm else ()))
