"""Vessels and places: their bar, their name on paper, what they must be."""

from procsheet.graph.graph import Graph
from procsheet.plan.plan import Plan
from procsheet.plan.vessels import flammable, main_vessel
from procsheet.sheet.figures import litres
from procsheet.sheet.model import BARS
from procsheet.sheet.pieces import line
from procsheet.trace.stirring import UNSTATED, VERB_TOOL

SOLID, HATCHED, HOLLOW, DOTTED, CROSSED = BARS
HEATED, COOLED = ("heat", "hold", "melt"), ("cool",)
BATHS = ("water bath", "steam bath", "ice bath", "cold bath")
# what a vessel must have, beside its tools: the verbs and the clauses that ask for it
SERVICES = {"heating": (HEATED,), "cooling": (COOLED,), "water bath": ((), ("water bath", "steam bath")), "cold bath": ((), ("ice bath", "cold bath")),
            "vacuum": (("evacuate",), ("vacuum",)), "nitrogen": (("blanket",), ("nitrogen",)), "lid": (("close",), ("covered",)),
            "scale": (("make up", "dry", "replace loss"),), "stirred by hand": ((), ("by hand",))}


def shown(place: str) -> str:
    """A vessel's name is printed in capitals."""
    return place.upper()


def bars(plan: Plan) -> dict[str, str]:
    """The bar of each vessel and place: the main one solid, kettles hatched, dotted and crossed, a pail hollow. More than five share."""
    main = main_vessel(plan.graph)
    names = sorted((place.name for place in plan.method.places), key=lambda name: name != main)
    vessels = plan.method.vessels
    kettles = [name for name in names if name != main and name in vessels and is_kettle(name, plan)]
    others = [name for name in names if name != main and name not in kettles]
    given = {main: SOLID} | dict(zip(kettles, (HATCHED, DOTTED, CROSSED)))
    left = [bar for bar in (HOLLOW, HATCHED, DOTTED, CROSSED) if bar not in given.values()] or [HOLLOW]
    for place, name in enumerate(name for name in (*kettles, *others) if name not in given):
        given[name] = left[place % len(left)]
    return given


def is_kettle(place: str, plan: Plan) -> bool:
    """Whether it must have tools or heat, rather than be a pail, beaker or mould."""
    return bool(machines(place, plan.graph) or _work(place, plan.graph, HEATED + COOLED))


def machines(place: str, graph: Graph) -> tuple[str, ...]:
    """The tools that the steps of a vessel ask for, in the order they do."""
    named = (clause.value.names for node in graph.nodes if node.place == place for clause in node.step.written.clauses if clause.kind == "tool")
    return tuple(dict.fromkeys(name for names in named for name in names if name != "?"))


def must_be(vessel: str, plan: Plan) -> str:
    """What a vessel must hold and have: `holds 152 L; anchor, homogeniser, heating, vacuum`."""
    services = ["mark" if name == "scale" and plan.method.by_volume else name for name, wanted in SERVICES.items() if _asks(vessel, plan.graph, *wanted)]
    safe = ["rated for flammable vapour"] if flammable(vessel, plan.graph) else []
    volume = litres(plan.volumes.get(vessel, (0, 0))[1])
    return line(f"holds {volume}" if volume else "", ", ".join((*_turning(vessel, plan.graph), *services, *safe)), by="; ")


def _turning(vessel: str, graph: Graph) -> list[str]:
    """The tools that are named and that a verb means; a stirrer where something must turn and nothing says what."""
    steps = [node.step for node in graph.nodes if node.place == vessel and not node.step.has("by hand")]
    meant = [VERB_TOOL[step.verb] for step in steps if step.verb in VERB_TOOL and not step.has("tool")]
    found = dict.fromkeys((*machines(vessel, graph), *meant))
    return [*found] or ["stirrer"] * any(step.verb in UNSTATED and not step.has("unstirred") for step in steps)


def _work(place: str, graph: Graph, verbs: tuple[str, ...]) -> bool:
    return any(node.place == place and node.step.verb in verbs for node in graph.nodes)


def _asks(vessel: str, graph: Graph, verbs: tuple[str, ...], clauses: tuple[str, ...] = ()) -> bool:
    """A bath is no jacket."""
    steps = (node.step for node in graph.nodes if node.place == vessel)
    return any(step.verb in verbs and not (step.has(*BATHS) and verbs in (HEATED, COOLED)) or step.has(*clauses) for step in steps)
