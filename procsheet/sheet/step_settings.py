"""The set-points of a step: what takes how long, what turns how fast, what lies over the batch."""

from procsheet.model import quantities
from procsheet.sheet.figures import digits, duration, limit, reading, speed, turns, unit
from procsheet.sheet.model import Setting
from procsheet.sheet.things import label
from procsheet.sheet.temperatures import MEASURING, box_limit, box_unit
from procsheet.sheet.work import Job
from procsheet.syntax import clauses, tree
from procsheet.trace.trace import Running

# class of stirring in words, where no tool is named
CLASSES = {"slow stirring": "slow", "gentle stirring": "slow", "moderate stirring": "medium", "fast stirring": "fast", "vigorous stirring": "hard",
           "low shear": "low", "medium shear": "medium", "high shear": "high"}
COVERS = {"nitrogen": ("cover", "nitrogen"), "covered": ("lid", "closed"), "open": ("lid", "open"), "insulated": ("wrapped", "to hold the heat")}
HAND_TOOLS = ("pestle",)
HANDLED = ("close", "open", "vent", "blanket", "stop stirring", "stop heating", "prepare", "do", "check", "compare", "sample", "set aside")


def settings(job: Job) -> tuple[Setting, ...]:
    """In the order a person sets them."""
    step = job.step
    return (*_duration(job), *_temperatures(job), *_tools(job), *_classes(job), *_rates(job), *_covers(job), *_measuring(job), *_amounts(job),
            *((Setting("stirrer", "off"),) if step.has("unstirred") else ()))


def _duration(job: Job) -> tuple[Setting, ...]:
    """How long the jacket takes, and how warm it is then; nothing where the method itself sets the rate."""
    jacket = job.moments[0].jacket if job.moments else None
    if jacket is None or jacket.high < 60 or job.step.has("heat rate") or job.step.has("for"):
        return ()
    value, of = duration(jacket)
    medium = job.plant.hot if job.step.verb == "heat" else job.plant.cold
    told = not job.step.has("jacket not above", "jacket not below") and medium is not None
    return (Setting("takes about", value, of), *((Setting("jacket", f"{medium - 273.15:.0f}", "°C"),) if told else ()))


def _temperatures(job: Job) -> tuple[Setting, ...]:
    out = []
    for kind, name, before in (("jacket not above", "jacket", "≤ "), ("jacket not below", "jacket", "≥ ")):
        if job.step.has(kind):
            value = job.step.value(kind)
            shown = digits(value) if isinstance(value, tree.Quantity) and value.unit != "room" and not value.relative and not value.is_open else box_limit(value, job)
            out.append(Setting(name, before + shown if shown else "", box_unit(value)))
    return tuple(out)


# ---- what turns

def _tools(job: Job) -> tuple[Setting, ...]:
    """Each tool that the step names, and the stirrer that runs on beside it, with its speed or a blank for it."""
    written = _named(job)
    known = {running.tool: running for running in job.moments[0].turning} if job.moments else {}
    out = [setting for name in written for setting in _tool(name, known.get(name, Running(name)), job)]
    running_on = [running for name, running in known.items() if name not in written and (running.speed or running.tip)]
    if job.step.verb in HANDLED:
        return tuple(out)
    if not written and not running_on and (alone := job.step.value("speed")) is not None:
        out.append(Setting("stirrer", "" if alone.is_open else digits(alone), unit(alone)))
    return (*out, *(setting for running in running_on for setting in _tool(running.tool, running, job)))


def _named(job: Job) -> list[str]:
    tools = [clause for clause in job.step.written.clauses if clause.kind == "tool"]
    return [f"or {name}" if clause.either else name for clause in tools
            for name in ((" or ".join(clause.value.names),) if clause.value.joined == "or" else clause.value.names)]


def _tool(name: str, running: Running, job: Job) -> list[Setting]:
    shown = "" if name == "?" else name
    if not shown:
        return [Setting("tool"), Setting("speed", "", "rpm")]
    if name in HAND_TOOLS:
        return [Setting("tool", name)]
    dial = job.step.value("setting")
    if dial is not None and running.speed is None:
        return [Setting(name, _text(dial), "on its dial")]
    turned = Setting(name, turns(running.speed) if running.speed else "", "rpm")
    return [turned, *([Setting("tip speed", speed(running.tip), "m/s")] if running.tip and _by_tip(name, job) else [])]


def _text(dial) -> str:
    return getattr(dial, "text", "").removeprefix("setting ")


def _by_tip(name: str, job: Job) -> bool:
    """Tip speed is what counts for a high-shear head, and wherever the method gives it."""
    named = _named(job)
    said = any(clause.kind == "speed" and quantities.dimension(clause.value) == "speed" for clause in job.step.written.clauses)
    return name in clauses.HIGH_SHEAR or said and name in named and not any(one in clauses.HIGH_SHEAR for one in named)


def _classes(job: Job) -> tuple[Setting, ...]:
    found = [(clause, CLASSES[clause.kind]) for clause in job.step.written.clauses if clause.kind in CLASSES]
    if not found:
        return (Setting("stirring"),) if job.step.has("stirring") else ()
    name = "shaking" if job.step.verb == "shake" else "shear" if found[0][0].kind.endswith("shear") else "stirring"
    return (Setting(name, " or ".join(word for _, word in found)),)


# ---- rates, covers, amounts

def _rates(job: Job) -> tuple[Setting, ...]:
    step = job.step
    out = []
    if (rate := step.value("heat rate")) is not None:
        out.append(Setting("heating" if step.verb == "heat" else "cooling", "" if rate.is_open else digits(rate), unit(rate)))
    if (rate := step.value("rate")) is not None:
        out.append(Setting("rate", "" if rate.is_open else digits(rate), unit(rate)))
    if (more := step.value("plus")) is not None:
        out.append(Setting("more, for evaporation", "" if more.is_open else digits(more), unit(more)))
    if (apart := step.value("tolerance")) is not None:
        out.append(Setting("within", "" if apart.is_open else digits(apart), unit(apart)))
    return tuple(out)


def _covers(job: Job) -> tuple[Setting, ...]:
    step, out = job.step, []
    pressure = step.value("pressure")
    if step.has("vacuum") or pressure is not None:
        out.append(Setting("vacuum", digits(pressure) if pressure is not None and not pressure.is_open else "", unit(pressure) if pressure is not None else "bar"))
    return (*out, *(Setting(*said) for kind, said in COVERS.items() if step.has(kind) and step.verb != "blanket"))


def _measuring(job: Job) -> tuple[Setting, ...]:
    """How warm and how thin the sample is, where something is measured."""
    step, out = job.step, []
    warm = step.value("measured at") or (step.value("at") if step.verb in MEASURING else None)
    if warm is not None:
        out.append(Setting("measure at", digits(warm) if isinstance(warm, tree.Quantity) and warm.unit != "room" else limit(warm, job.plant), box_unit(warm)))
    if (dilution := step.value("on dilution")) is not None:
        out.append(Setting("measure on", "" if dilution.is_open else digits(dilution), f"{unit(dilution)} in water"))
    return tuple(out)


def _amounts(job: Job) -> tuple[Setting, ...]:
    """The most that a corrector may be, and what a make-up is expected to take."""
    if job.step.verb == "make up":
        return tuple(Setting("expect", reading(line.target, line.unit, line.decimals), line.unit) for line in job.lines if line.use == "make-up" and line.target)
    if job.step.verb != "adjust":
        return ()
    rows = [row for take in (*job.step.what, *job.step.down) for row in take.rows if row.kind == "corrector"]
    several = len(rows) > 1
    return tuple(most(row, job, several) for row in rows)


def most(row, job: Job, several: bool = False) -> Setting:
    """`in all, at most 0.450 kg`; a blank where nothing says how much."""
    line = next((line for line in job.plan.lines if line.row.code == row.code and line.use == "corrector"), None)
    name = f"{label(row)}, at most" if several else "in all, at most"
    if line is None or row.cap is None:
        return Setting(name, "", line.unit if line else "g")
    return Setting(name, reading(line.target, line.unit, line.decimals), line.unit)

