"""What turns in a vessel during a step, and how hard.

A stirrer runs on until another is named, its speed is changed, or `stop stirring`; high-shear tools stop with their step.
"""

from procsheet.formulas.tip_speed import tip_speed, turns_for_tip_speed
from procsheet.intervals import Interval, point
from procsheet.model import quantities
from procsheet.model.method import Step
from procsheet.plan.plant import Kettle
from procsheet.syntax import clauses
from procsheet.trace.trace import HIGH, LOW, MEDIUM, NONE, Running, Shear

# class of each tool (common practice, no source)
CLASS = {"anchor": LOW, "sweep": LOW, "paddle": LOW, "blade": LOW, "propeller": LOW, "whisk": MEDIUM, "turbine": MEDIUM, "pestle": MEDIUM, "press": LOW}
PHRASE_CLASS = {"unstirred": (NONE, NONE), "by hand": (LOW, MEDIUM), "slow stirring": (LOW, LOW), "gentle stirring": (LOW, LOW), "moderate stirring": (MEDIUM, MEDIUM),
                "fast stirring": (MEDIUM, MEDIUM), "vigorous stirring": (MEDIUM, HIGH), "low shear": (LOW, LOW), "medium shear": (MEDIUM, MEDIUM), "high shear": (HIGH, HIGH)}
HIGH_WORDS = ("homogen", "rotor", "mill", "dispers", "dissolver", "high shear", "high-shear", "blender", "saw", "microfluid")
VERB_CLASS = {"homogenise": HIGH, "mill": HIGH}
VERB_TOOL = {"homogenise": "homogeniser", "mill": "mill"}
FAST_TIP, FAST_TURNS = 3.0, 500 / 60     # m/s, 1/s: faster than a stirrer that sweeps the wall (common practice, no source)
STOPPED = Running("", point(0.0))        # nothing turns until a tool is named, or a step says that it stirs
UNSTATED = {"stir", "mix", "emulsify", "disperse", "dissolve", "hydrate", "neutralise", "activate", "adjust"}
QUIET = {"rest", "set aside", "stop stirring", "fill", "pour", "discharge", "wait", "cut", "cure", "unmould"}


def stir(step: Step, running: Running, kettle: Kettle | None) -> tuple[Shear, Running, tuple[Running, ...]]:
    """The shear of a step, the stirrer that runs on after it, and all that turns in it."""
    named = [running if tool == Running(running.tool) else tool for tool in _tools(step, kettle)]      # named again, it keeps its speed
    if step.verb == "stop stirring" or step.has("unstirred"):
        return Shear(point(NONE)), STOPPED if step.verb == "stop stirring" else Running(), ()
    stirrers = [tool for tool in named if class_of(tool.tool, kettle).high < HIGH]
    if stirrers:
        running = stirrers[-1]
    elif any(tool.tool == "?" for tool in named):           # it may be any other now
        running = Running("?")
    elif not named and (speed := _speed_alone(step, running, kettle)) is not None:
        running = speed
    rank = _rank(step, named, running, kettle)
    tips = [tool.tip for tool in (*named, *([running] if running.tool else [])) if tool.tip is not None]
    tip = max(tips, key=lambda one: one.high) if tips and (not named or any(tool.tip for tool in named)) else None
    tools = tuple(dict.fromkeys([tool.tool for tool in named] or ([running.tool] if running.tool and rank.high <= MEDIUM else [])))
    on = (running,) if running.tool and not stirrers and step.verb not in QUIET else ()
    return Shear(rank, tip, tools), running, (*named, *on)


def class_of(tool: str, kettle: Kettle | None = None) -> Interval:
    """LOW to HIGH for a tool; an unknown tool in quotes may be anything unless the plant calls it a stirrer."""
    if tool in CLASS:
        return point(CLASS[tool])
    if tool in clauses.HIGH_SHEAR:
        return point(HIGH)
    known = kettle.tool(tool) if kettle is not None else None
    if known is not None and known.stirrer or "stir" in tool or "anchor" in tool or "paddle" in tool or "magnetic" in tool:
        return point(LOW)
    if any(word in tool.lower() for word in HIGH_WORDS):
        return point(HIGH)
    return Interval(LOW, HIGH, f"what kind of tool {tool} is" if tool != "?" else "the tool")


def _tools(step: Step, kettle: Kettle | None) -> list[Running]:
    """The tools a step names, each with the speed that stands behind it."""
    out: list[Running] = []
    named = 0
    if step.verb in VERB_TOOL and not _names_high_shear(step, kettle):     # `homogenise main at 3000 rpm with anchor`: the homogeniser's speed
        out, named = [Running(VERB_TOOL[step.verb])], 1
    for clause in step.written.clauses:
        if clause.kind == "tool":
            named = len(clause.value.names)
            out += [Running(name) for name in clause.value.names]
        elif clause.kind == "speed" and out:
            which = _meant(out[len(out) - named:], clause.value, kettle) - named
            out[which] = _at_speed(out[which].tool, clause.value, kettle)
    through = step.written.slots.get("DEVICE") or step.value("through")
    if through is not None:
        text = getattr(through, "text", None) or (through.items[0].what.text if hasattr(through, "items") and hasattr(through.items[0].what, "text") else "")
        if text and any(word in text.lower() for word in HIGH_WORDS):
            out.append(Running(text))
        out += [Running(name) for name in getattr(through, "names", ())]
    return out


def _names_high_shear(step: Step, kettle: Kettle | None) -> bool:
    """Whether a tool that is named may be the one that does what the verb says."""
    return any(step.verb == "mill" or class_of(name, kettle).high >= HIGH for clause in step.written.clauses if clause.kind == "tool" for name in clause.value.names)


def _meant(tools: list[Running], figure, kettle: Kettle | None) -> int:
    """Which of the tools named together a speed is meant for: `with homogeniser and anchor at 15 m/s` is no anchor's speed."""
    value = quantities.interval(figure)
    fast = value is not None and value.high >= (FAST_TIP if quantities.dimension(figure) == "speed" else FAST_TURNS)
    return next((index for index, tool in enumerate(tools) if fast and class_of(tool.tool, kettle).high == HIGH), len(tools) - 1)


def _speed_alone(step: Step, running: Running, kettle: Kettle | None) -> Running | None:
    clause = step.clause("speed")
    return _at_speed(running.tool, clause.value, kettle) if clause is not None else None


def _at_speed(tool: str, figure, kettle: Kettle | None) -> Running:
    """The tool at a speed as written; where the kettle's tool does not turn it, at the nearest that it does."""
    value = quantities.interval(figure)
    known = kettle.tool(tool) if kettle is not None else None
    diameter = known.diameter if known is not None else None
    if value is None:
        return Running(tool)
    by_tip = quantities.dimension(figure) == "speed"
    turns = value if not by_tip else _by_edge(value, diameter, turns_for_tip_speed, "tip")
    set_to = _within(turns, known.speed) if turns is not None and known is not None and known.speed is not None else turns
    if by_tip and set_to == turns:
        return Running(tool, turns, value)
    return Running(tool, set_to, _by_edge(set_to, diameter, tip_speed, "speed"))


def _by_edge(value: Interval, diameter: float | None, formula, of: str) -> Interval | None:
    """Turns from a tip speed, or a tip speed from turns; None where the diameter or the figure is not known."""
    return Interval(*(formula(diameter=diameter, **{of: max(end, 0)}) for end in value[:2])) if diameter and value.high < 1e9 else None


def _within(turns: Interval, range_: Interval) -> Interval:
    return Interval(*(min(max(end, range_.low), range_.high) for end in turns[:2]), turns.missing)


def _rank(step: Step, named: list[Running], running: Running, kettle: Kettle | None) -> Interval:
    """The hardest of what turns; a class in words counts before the tool."""
    for clause in step.written.clauses:
        if clause.kind in PHRASE_CLASS and not named:
            return Interval(*PHRASE_CLASS[clause.kind])
        if clause.kind in ("low shear", "medium shear", "high shear"):
            return Interval(*PHRASE_CLASS[clause.kind])
    if named:
        classes = [class_of(tool.tool, kettle) for tool in named]
        hardest = max(classes, key=lambda one: (one.low, one.high))
        return point(HIGH) if hardest.missing and VERB_CLASS.get(step.verb) == HIGH else hardest       # `mill main with ?`: a mill all the same
    if step.verb in VERB_CLASS:
        return point(VERB_CLASS[step.verb])
    if step.verb in QUIET:
        return point(NONE) if step.verb in ("rest", "set aside", "wait", "cut", "cure", "unmould") else Interval(NONE, LOW)
    if step.verb == "shake":
        return Interval(LOW, MEDIUM)
    if running == STOPPED and step.verb not in UNSTATED and not step.has("stirring"):
        return point(NONE)
    if running.tool:
        return class_of(running.tool, kettle)
    if step.verb == "emulsify" or step.has("stirring", "speed"):
        return Interval(LOW, HIGH, "the tool")
    return Interval(LOW, MEDIUM, "the tool") if step.verb in UNSTATED else Interval(NONE, LOW)
