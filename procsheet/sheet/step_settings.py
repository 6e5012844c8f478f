"""The set-points of a step: what takes how long, what turns how fast, what lies over the batch."""

from procsheet.model import quantities
from procsheet.model.method import Row
from procsheet.plan.plan import Line
from procsheet.sheet.figures import degrees, digits, duration, reading, rough, speed, turns, unit
from procsheet.sheet.model import Setting
from procsheet.sheet.things import label
from procsheet.sheet.places import BATHS
from procsheet.sheet.temperatures import MEASURING, box_limit, box_unit
from procsheet.sheet.work import Job
from procsheet.syntax import clauses, tree
from procsheet.trace.stirring import VERB_TOOL
from procsheet.trace.trace import Running

# class of stirring in words, where no tool is named
CLASSES = {"slow stirring": "slow", "gentle stirring": "slow", "moderate stirring": "medium", "fast stirring": "fast",
           "vigorous stirring": "hard", "low shear": "low", "medium shear": "medium", "high shear": "high"}
COVERS = {"nitrogen": ("cover", "nitrogen"), "covered": ("lid", "closed"), "open": ("lid", "open"),
          "insulated": ("wrapped", "to hold the heat")}
HAND_TOOLS = ("pestle",)
OTHERWISE = ("slowly", "very slowly", *BATHS)      # than with all that the jacket gives
HANDLED = ("close", "open", "vent", "blanket", "stop stirring", "stop heating", "prepare", "do", "check", "compare", "sample", "set aside")


def settings(job: Job) -> tuple[Setting, ...]:
    """In the order a person sets them."""
    off = (Setting("stirrer", "off"),) if job.step.has("unstirred") else ()
    return (*_duration(job), *_jacket(job), *_tools(job), *_classes(job), *_rates(job), *_covers(job), *_measuring(job), *_amounts(job), *off)


def _duration(job: Job) -> tuple[Setting, ...]:
    """How long the jacket takes, and how warm it is then; nothing where the method itself sets the rate, or another bath."""
    jacket = job.moments[0].jacket if job.moments else None
    if jacket is None or jacket.high < 60 or job.step.has("heat rate", "for", *OTHERWISE):
        return ()
    value, of = duration(jacket)
    medium = job.plant.hot if job.step.verb == "heat" else job.plant.cold
    told = not job.step.has("jacket not above", "jacket not below") and medium is not None
    return (Setting("takes about", value, of), *((Setting("jacket", degrees(medium, job.work.degree), job.work.degree),) if told else ()))


def _jacket(job: Job) -> tuple[Setting, ...]:
    """A floor or a ceiling for it."""
    bounds = (("jacket not above", "≤"), ("jacket not below", "≥"))
    return tuple(Setting("jacket", f"{sign} {_shown(value, job)}", box_unit(value, job)) for kind, sign in bounds
                 if (value := job.step.value(kind)) is not None)


def _shown(value, job: Job) -> str:
    """The digits as written; of what hangs on a property, what is worked out."""
    plain = isinstance(value, tree.Quantity) and value.unit != "room" and not value.relative and not value.is_open
    return digits(value) if plain else box_limit(value, job)


# ---- what turns

def _tools(job: Job) -> tuple[Setting, ...]:
    """Each tool that the step names, and the stirrer that runs on beside it, with its speed or a blank for it."""
    known = {running.tool: running for running in job.moments[0].turning} if job.moments else {}
    written = list(dict.fromkeys((*_meant(known, job), *_named(job))))
    out = [setting for name in written for setting in _tool(name, known.get(name, Running(name)), job)]
    running_on = [running for name, running in known.items() if name not in written and (running.speed or running.tip)]
    if job.step.verb in HANDLED:
        return tuple(out)
    if not written and not running_on and (alone := job.step.value("speed")) is not None:
        out.append(Setting("stirrer", "" if alone.is_open else digits(alone), unit(alone)))
    return (*out, *(setting for running in running_on for setting in _tool(running.tool, running, job)))


def _meant(known: dict, job: Job) -> list[str]:
    """The homogeniser or mill that a verb means where it names none: `homogenise main at 3000 rpm with anchor`."""
    tool = VERB_TOOL.get(job.step.verb)
    return [tool] if tool in known and not job.step.has("by hand") and (tool == "homogeniser" or not _named(job)) else []


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
    names = {"heat rate": "heating" if job.step.verb == "heat" else "cooling", "rate": "rate", "plus": "more, for evaporation", "tolerance": "within"}
    return tuple(Setting(name, _given(value), unit(value)) for kind, name in names.items() if (value := job.step.value(kind)) is not None)


def _given(quantity: tree.Quantity | None) -> str:
    return "" if quantity is None or quantity.is_open else digits(quantity)


def _covers(job: Job) -> tuple[Setting, ...]:
    step = job.step
    pressure = step.value("pressure")
    name = "vacuum" if step.has("vacuum") or step.verb in ("deaerate", "evacuate") else "pressure"
    vacuum = (Setting(name, _given(pressure), unit(pressure) if pressure is not None else "bar"),)
    covers = (Setting(*said) for kind, said in COVERS.items() if step.has(kind) and step.verb != "blanket")
    return (*(vacuum if step.has("vacuum") or pressure is not None else ()), *covers)


def _measuring(job: Job) -> tuple[Setting, ...]:
    """How warm and how thin the sample is, where something is measured."""
    warm = job.step.value("measured at") or (job.step.value("at") if job.step.verb in MEASURING else None)
    dilution = job.step.value("on dilution")
    return (*((Setting("measure at", _shown(warm, job), box_unit(warm, job)),) if warm is not None else ()),
            *((Setting("measure on", _given(dilution), f"{unit(dilution)} in water"),) if dilution is not None else ()))


def _amounts(job: Job) -> tuple[Setting, ...]:
    """What a make-up and a corrector are expected to take, and the most that a corrector may be."""
    makeups = [Setting("expect about", rough(each.exact, each.unit), each.unit) for each in job.lines if each.use == "make-up" and each.exact]
    return (*makeups, *(setting for row in job.correctors for setting in (*_expected(row, job), most(row, job))))


def _expected(row: Row, job: Job) -> tuple[Setting, ...]:
    return (Setting(_named_amount("expect about", row, job), rough(row.guide * job.plan.factor, of := _unit(row, job)), of),) if row.guide else ()


def most(row: Row, job: Job) -> Setting:
    """`in all, at most 450.00 g`; a blank where nothing says how much."""
    found = _line(row, job)
    value = "" if found is None or row.cap is None else reading(found.target, found.unit, found.decimals)
    return Setting(_named_amount("at most" if len(job.correctors) > 1 else "in all, at most", row, job), value, _unit(row, job))


def _named_amount(name: str, row: Row, job: Job) -> str:
    return f"{label(row)}, {name}" if len(job.correctors) > 1 else name


def _line(row: Row, job: Job) -> Line | None:
    return next((each for each in job.plan.lines if each.row.code == row.code and each.use == "corrector"), None)


def _unit(row: Row, job: Job) -> str:
    found = _line(row, job)
    return found.unit if found else "g"
