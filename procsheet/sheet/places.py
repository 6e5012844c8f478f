"""Vessels and places: their bar, their name on paper, what they must be."""

from procsheet.graph.graph import Graph
from procsheet.plan.plan import Plan
from procsheet.plan.vessels import main_vessel
from procsheet.sheet.figures import litres
from procsheet.sheet.model import BARS
from procsheet.sheet.pieces import line

SOLID, HATCHED, HOLLOW, DOTTED, CROSSED = BARS
HEATED, COOLED = ("heat", "hold", "melt"), ("cool",)


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


def must_be(place: str, plan: Plan) -> str:
    """What a vessel must hold and have: `holds 152 L; anchor, homogeniser, heating, vacuum`."""
    written = next((one for one in plan.method.places if one.name == place), None)
    if written is not None and written.kind != "vessel":
        return written.text
    graph = plan.graph
    services = {"heating": _work(place, graph, HEATED), "cooling": _work(place, graph, COOLED), "vacuum": _asks(place, graph, "vacuum"),
                "nitrogen": _asks(place, graph, "nitrogen"), "stirred by hand": _asks(place, graph, "by hand")}
    wants = ", ".join((*machines(place, graph), *(name for name, wanted in services.items() if wanted)))
    volume = litres(plan.volumes.get(place, (0, 0))[1])
    return line(f"holds {volume}" if volume else "", wants, by="; ")


def _work(place: str, graph: Graph, verbs: tuple[str, ...]) -> bool:
    return any(node.place == place and node.step.verb in verbs for node in graph.nodes)


def _asks(place: str, graph: Graph, kind: str) -> bool:
    verbs = {"vacuum": ("evacuate",), "nitrogen": ("blanket",)}.get(kind, ())
    return any(node.place == place and (node.step.has(kind) or node.step.verb in verbs) for node in graph.nodes)
