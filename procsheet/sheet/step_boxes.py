"""The boxes of a step: times, temperatures with their limits, what is read, who did it and who checked."""

from procsheet.model import quantities
from procsheet.sheet.figures import digits, limit, unit
from procsheet.sheet.model import Box, Setting
from procsheet.sheet.phrases import property_name
from procsheet.sheet.places import shown
from procsheet.sheet.sentence_slots import mark
from procsheet.sheet.step_settings import most
from procsheet.sheet.things import label
from procsheet.sheet.temperatures import GATES, box_limit, box_unit, gate, gated
from procsheet.sheet.work import Job
from procsheet.syntax import tree

START, END, DONE, TIME, BY = Box("start, time"), Box("end, time"), Box("done by"), Box("time"), Box("by, time")
CHECKED = Box("checked by, second person", width=2, second=True)
TWO_PEOPLE = ("double-checked", "both at", "both within")
AT_ONCE = ("close", "open", "vent", "stop heating", "stop stirring", "prepare", "do", "check", "compare", "sample", "set aside", "wait",
           "make up", "crimp", "rinse")
FOR_DAYS = ("rest", "cure", "wait")
OUT = ("fill", "pour", "discharge")


def boxes(job: Job) -> tuple[Box, ...]:
    """In the order a hand fills them."""
    if job.step.verb == "check":
        return (*_asked(job), *_gate(job), *_check(job), *((CHECKED,) if second(job) else ()))
    return (*_asked(job), *_times(job), *_temperatures(job), *_read(job), DONE, *((CHECKED,) if second(job) else ()))


def second(job: Job) -> bool:
    """A second person signs where the method says so, and where two phases meet."""
    return job.step.has(*TWO_PEOPLE)


def _asked(job: Job) -> tuple[Box, ...]:
    """What is decided on the day, or is still to be confirmed."""
    step, out = job.step, []
    if step.has("optional", "if needed", "if"):
        out.append(Box("done: yes / no"))
    if step.written.to_confirm:
        out.append(Box("step confirmed by, date", width=2, second=True))
    if any(map(_is_choice, step.written.clauses)):
        out.append(Box("which, used"))
    return tuple(out)


def _is_choice(clause: tree.Clause) -> bool:
    """Whether the operator takes one of two; of a time or an end point, whichever comes first, there is no choice."""
    return clause.kind == "tool" and clause.value.joined == "or" or clause.either and clause.kind not in ("for", "until")


# ---- times

def _times(job: Job) -> tuple[Box, ...]:
    if job.step.verb == "wait" and "t" not in job.step.written.slots:
        return ()
    if job.step.verb in FOR_DAYS and _lasts(job):
        return (Box("start, date, time"), Box("end, date, time"))
    if job.step.verb in AT_ONCE and not job.step.has("for", "over"):
        return () if job.step.verb == "make up" else (TIME,)
    return (START, *_passing(job), END)


def _lasts(job: Job) -> bool:
    """Whether it may run over midnight: an hour or more, or nobody knows."""
    written = job.step.value("for") or job.step.written.slots.get("t")
    value = quantities.interval(written) if isinstance(written, tree.Quantity) else None
    return value is None or value.high >= 6 * 3600


def _passing(job: Job) -> tuple[Box, ...]:
    """The times at which a step reaches the temperatures of those inside it."""
    guests = job.work.guests.get(job.step.name, ()) if job.step.name else ()
    found = [gated(clause.value, job) for guest in guests if (clause := guest.clause(*GATES)) is not None]
    return tuple(Box(f"at {text}, time") for text in dict.fromkeys(run.text for run in found if run.kind == "number"))


# ---- temperatures

def _temperatures(job: Job) -> tuple[Box, ...]:
    return (*_gate(job), *_arriving(job), *_both(job), *_target(job))


def _gate(job: Job) -> tuple[Box, ...]:
    clause = gate(job)
    if clause is None:
        return ()
    value = clause.value
    bound = value._replace(bound=clause.kind) if isinstance(value, tree.Quantity) and clause.kind != "at" and not value.bound else value
    when = "stood at" if job.step.verb in ("rest", "cure", "set aside") else "start"
    return (Box(f"{when} {box_unit(value, job)}", box_limit(bound, job)),)


def _arriving(job: Job) -> tuple[Box, ...]:
    """How warm it is that goes in."""
    clauses = [clause for clause in job.step.written.clauses if clause.kind.startswith("added ")]
    names = [shown(name) for name in job.sources] or ["added"]
    return tuple(Box(f"{name} {box_unit(clause.value, job)}", box_limit(clause.value, job)) for clause in clauses for name in names)


def _both(job: Job) -> tuple[Box, ...]:
    if job.step.has("both at", "both within") and job.compared:
        value = job.step.value("both at")
        return (Box(f"{shown(job.vessel)} {box_unit(value, job)}", box_limit(value, job) if value is not None else ""),)
    return compared(job)


def compared(job: Job) -> tuple[Box, ...]:
    """The boxes that compare two vessels before they meet."""
    both, within = job.step.value("both at"), job.step.value("both within")
    if both is None and within is None:
        return ()
    limits = box_limit(both, job) if both is not None else ""
    apart = (Box(f"apart {box_unit(within, job)}", f"≤ {digits(within)}" if not within.is_open else ""),) if within is not None else ()
    return (*(Box(f"{shown(name)} {box_unit(both, job)}", limits) for name in (job.vessel, *job.sources)), *apart)


def _target(job: Job) -> tuple[Box, ...]:
    """Where heating and cooling end; what is kept throughout."""
    step = job.step
    value = step.written.slots.get("T")
    if step.verb in ("heat", "cool") and value is not None:
        return (Box(f"end {box_unit(value, job)}", box_limit(value, job)),)
    if step.verb == "hold" and value is not None:
        return _between(value, job)
    kept = step.value("keeping")
    if kept is not None:
        return _between(kept, job)
    ceiling = step.value("never above")
    return (Box(f"highest {box_unit(ceiling, job)}", _ceiling(ceiling, job)),) if ceiling is not None else ()


def _between(value, job: Job) -> tuple[Box, ...]:
    """The lowest and the highest that were seen, each with its own limit."""
    low, dash, high = box_limit(value, job).partition("–")
    limits = (f"≥ {low}", f"≤ {high}") if dash else ("", low)
    return tuple(Box(f"{name} {box_unit(value, job)}", text) for name, text in zip(("lowest", "highest"), limits))


def _ceiling(value, job: Job) -> str:
    """A ceiling has no tolerance."""
    if isinstance(value, tree.Quantity) and not value.relative:
        return "" if value.is_open else f"≤ {digits(value)}"
    known = box_limit(value, job)
    return f"≤ {known}" if known else ""


# ---- what is read

def _read(job: Job) -> tuple[Box, ...]:
    return (*READ.get(job.step.verb, lambda one: ())(job), *_corrected(job), *_pressure(job), *_ends(job))


def _check(job: Job) -> tuple[Box, ...]:
    """A wide limit leaves room for one box beside it."""
    found = reading_box(job.step.written.slots["MEASURE"], job)
    return (found, BY) if found.width == 2 else (found, TIME, DONE) if found.width == 3 else (TIME, found, DONE)


def reading_box(measure: tree.Measure, job: Job, before: str = "") -> Box:
    """`drop size, µm ≤ 10`; where words are the limit, a wide box with them."""
    name, target = property_name(measure), measure.target
    if isinstance(target, tree.Quantity):
        of = unit(target) if target.unit != "room" else job.work.degree
        return Box(f"{before}{name}{f', {of}' if of else ''}", limit(target, job.plant, job.work.degree), width=2 if len(name) > 14 else 1)
    return Box(f"{before}{name}", target.text if target is not None else "", width=3 if target is not None and len(target.text) > 12 else 2)


def _adjust(job: Job) -> tuple[Box, ...]:
    return (reading_box(job.step.written.slots["MEASURE"], job, "end "), *(() if job.correctors else (Box("used"),)))


def _corrected(job: Job) -> tuple[Box, ...]:
    return tuple(_used(label(row), most(row, job)) for row in job.correctors)


def _used(name: str, most_of_it: Setting) -> Box:
    return Box(f"{name} used, {most_of_it.unit}", f"≤ {most_of_it.value}" if most_of_it.value else "")


def _make_up(job: Job) -> tuple[Box, ...]:
    text = mark(job) if not job.step.written.slots["Q"].is_open else ""
    number, _, of = text.partition("\u00a0")
    net = f", {of} net" if of in ("kg", "g") else f", {of}" if of else ""
    used = job.lines[0].unit if job.lines else of
    return (Box(f"before{net}"), Box(f"after{net}", number), Box(f"used{f', {used}' if used else ''}"), TIME)


def _out(job: Job) -> tuple[Box, ...]:
    into = job.step.into
    what = shown(into) if into in job.work.bars else into or "packs"
    return (Box(f"{what}, number"), Box("out, L" if job.work.method.by_volume else "out, kg net"))


def _sample(job: Job) -> tuple[Box, ...]:
    return (Box("labels, numbers"),)


def _wait(job: Job) -> tuple[Box, ...]:
    return (Box("reference"), Box("date, time")) if "t" not in job.step.written.slots else ()


def _compare(job: Job) -> tuple[Box, ...]:
    return (Box("alike: yes / no"),)


def _rinse(job: Job) -> tuple[Box, ...]:
    return (Box(f"{shown(job.step.vessel)} empty, by"),)


def _strain(job: Job) -> tuple[Box, ...]:
    return (Box("left on it: no / yes, what", width=2),)


READ = {"adjust": _adjust, "make up": _make_up, "fill": _out, "pour": _out, "discharge": _out, "sample": _sample, "wait": _wait,
        "compare": _compare, "rinse": _rinse, "strain": _strain}


def _pressure(job: Job) -> tuple[Box, ...]:
    value = job.step.value("pressure") or job.step.written.slots.get("P")
    if value is None:
        return (Box("bar, read"),) if job.step.has("vacuum") else ()
    return (Box(f"{unit(value)}, read", "" if value.is_open else digits(value)),)


def _ends(job: Job) -> tuple[Box, ...]:
    """A measured end point is read."""
    ends = (clause.value for clause in job.step.written.clauses if clause.kind in ("until", "each until"))
    return tuple(reading_box(end, job) for end in ends if isinstance(end, tree.Measure))

