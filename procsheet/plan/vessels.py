"""Which kettle of the plant each vessel of the method is."""

from fractions import Fraction

from procsheet.findings import Finding, Label
from procsheet.graph.graph import Graph
from procsheet.plan.plant import Kettle, Plant
from procsheet.syntax.slips import either

WATER = Fraction(1000)


def volumes(graph: Graph, factor: Fraction) -> dict[str, tuple[float, float]]:
    """The least and most each vessel holds [m³] while something is done with it."""
    density = {row.code: row.material.density or WATER for row in graph.method.rows}
    held: dict[str, tuple[float, float]] = {}
    for state in graph.states:
        volume = float(sum((mass / density[code] for code, mass in state.contents.items()), Fraction(0)) * factor)
        low, high = held.get(state.vessel, (volume, volume))
        held[state.vessel] = (min(low, volume), max(high, volume))
    return {vessel: held.get(vessel, (0.0, 0.0)) for vessel in graph.method.vessels}


def main_vessel(graph: Graph) -> str:
    """The vessel that holds most of the batch."""
    most: dict[str, Fraction] = {}
    for state in graph.states:
        if state.vessel in graph.method.vessels:
            most[state.vessel] = max(most.get(state.vessel, Fraction(0)), sum(state.contents.values(), Fraction(0)))
    return max(most, key=lambda vessel: most[vessel], default="")


def match(graph: Graph, held: dict[str, tuple[float, float]], plant: Plant, named: tuple[tuple[str, str], ...]) -> tuple[dict[str, Kettle | None], list[Finding]]:
    """The kettle of each vessel: as named, else the smallest that holds what it must and has what its steps ask for."""
    kettles: dict[str, Kettle | None] = {vessel: None for vessel in graph.method.vessels}
    findings = _named(kettles, named, plant)
    main = main_vessel(graph)
    for vessel in sorted(kettles, key=lambda one: (one != main, -held[one][1])):
        if kettles[vessel] is None and plant.kettles:
            kettles[vessel], wrong = _best(vessel, vessel == main, held[vessel][1], graph, plant, [one for one in kettles.values() if one])
            findings += wrong
        elif kettles[vessel] is not None:
            findings += _as_named(vessel, kettles[vessel], held[vessel][1], graph)
    return kettles, findings


def _as_named(vessel: str, kettle: Kettle, most: float, graph: Graph) -> list[Finding]:
    """What is wrong with a kettle that was named by hand: it is taken all the same."""
    if kettle.working is None:
        return _without(vessel, kettle, graph)
    step = next((node.step for node in graph.nodes if node.place == vessel), None)
    if most <= kettle.working.high or step is None:
        return [*(_fill(vessel, kettle, most, graph) if step is not None else []), *_without(vessel, kettle, graph)]
    return [Finding("STOP", "vessel-too-small", f"{kettle.tag}, named for {vessel}, holds {kettle.working.high * 1000:.4g} L; {most * 1000:.4g} L go in",
                    Label(step.span, f"{vessel} begins here"), why="The batch does not fit.", fix="Make a smaller batch, or name another vessel.",
                    step=step.number, cannot_be_accepted=True)]


def _named(kettles: dict, named: tuple[tuple[str, str], ...], plant: Plant) -> list[Finding]:
    findings = []
    for vessel, tag in named:
        if vessel not in kettles:
            findings.append(Finding("STOP", "vessel-named", f"the method has no vessel `{vessel}`", fix=f"It has {either(kettles)}.", cannot_be_accepted=True))
        elif plant.kettle(tag) is None:
            findings.append(Finding("STOP", "vessel-named", f"{plant.name or 'no plant'} has no vessel {tag}",
                                    fix=f"It has {either(kettle.tag for kettle in plant.kettles)}." if plant.kettles else "Name a plant.", cannot_be_accepted=True))
        else:
            kettles[vessel] = plant.kettle(tag)
    return findings


def _best(vessel: str, main: bool, most: float, graph: Graph, plant: Plant, taken: list[Kettle]) -> tuple[Kettle | None, list[Finding]]:
    free = [kettle for kettle in plant.kettles if kettle.main == main and kettle not in taken and kettle.working]
    wanted = _tools(vessel, graph)
    fitting = [kettle for kettle in free if kettle.working.high >= most]
    best = min(fitting, key=lambda kettle: (_lacks(kettle, vessel, graph), sum(kettle.tool(tool) is None for tool in wanted), most < kettle.working.low,
                                            kettle.working.high), default=None)
    if main and best is None:
        return None, [_too_small(vessel, most, graph, plant, [kettle for kettle in plant.kettles if kettle.main and kettle.working])]
    if not main and best is not None and most < 0.25 * best.working.low and not _is_heated(vessel, graph):
        return None, []                                     # a pail or beaker will do
    return best, [*_fill(vessel, best, most, graph), *_without(vessel, best, graph)] if best is not None else []


def _lacks(kettle: Kettle, vessel: str, graph: Graph) -> int:
    """How many things that the steps of a vessel ask for a kettle has not: vacuum, nitrogen, safety with flammable vapour."""
    steps = [node.step for node in graph.nodes if node.place == vessel]
    nitrogen = any(step.has("nitrogen") or step.verb == "blanket" for step in steps)
    vacuum = any(step.has("vacuum") or step.verb in ("evacuate", "deaerate") for step in steps)
    heated = _is_heated(vessel, graph) and not kettle.jacket_area
    return 3 * heated + (nitrogen and not kettle.nitrogen) + (vacuum and kettle.vacuum is None) + 2 * (flammable(vessel, graph) and not kettle.inerted)


def flammable(vessel: str, graph: Graph) -> bool:
    """Whether it ever holds a flammable material, a twentieth of the batch or more."""
    codes = {code for state in graph.states if state.vessel == vessel for code, mass in state.contents.items() if mass * 20 > graph.method.mass}
    return any(row.material.is_a("flammable") for row in graph.method.rows if row.code in codes)


def _tools(vessel: str, graph: Graph) -> set[str]:
    return {name for node in graph.nodes if node.place == vessel for name in tools_of(node.step)}


def tools_of(step) -> list[str]:
    """The tools a step names; `homogenise main` alone means the homogeniser."""
    names = [name for clause in step.written.clauses if clause.kind == "tool" for name in clause.value.names]
    return names or ["homogeniser"] * (step.verb == "homogenise" and not step.has("by hand"))


def _is_heated(vessel: str, graph: Graph) -> bool:
    return any(node.place == vessel and node.step.verb in ("heat", "cool", "hold") for node in graph.nodes)


def _too_small(vessel: str, most: float, graph: Graph, plant: Plant, kettles: list[Kettle]) -> Finding:
    largest = max(kettles, key=lambda kettle: kettle.working.high, default=None)
    has = f"the largest, {largest.tag}, holds {largest.working.high * 1000:.4g} L" if largest else "it has none"
    step = next((node.step for node in graph.nodes if node.place == vessel and node.step.number), None)
    return Finding("STOP", "vessel-too-small", f"no main kettle of {plant.name} holds the {most * 1000:.4g} L of {vessel}: {has}",
                   Label(step.span, f"{vessel} begins here") if step else Label(graph.method.rows[0].span), why="The batch does not fit.",
                   fix="Make a smaller batch, split it, or name another plant.", step=step.number if step else 0, cannot_be_accepted=True)


MOUNTED = ("anchor", "sweep", "paddle", "propeller", "turbine", "blade", "homogeniser", "dissolver")     # what a kettle has built in, or has not


def _without(vessel: str, kettle: Kettle, graph: Graph) -> list[Finding]:
    """The tools, jacket or vacuum that a step asks for first and the kettle has not: one finding a step."""
    found, told = [], set()
    for node in graph.nodes:
        if node.place == vessel and not node.part:
            lacking = [lack for lack in dict.fromkeys(_asked_in_vain(node.step, kettle)) if lack not in told]
            told.update(lacking)
            found += [_lacking(vessel, kettle, node.step, lacking)] if lacking else []
    return found


def _lacking(vessel: str, kettle: Kettle, step, lacking: list[str]) -> Finding:
    asked = f"a {lacking[0]}" if len(lacking) == 1 and lacking[0] not in MOUNTED else "it" if len(lacking) == 1 else "them"
    return Finding("WARN", "vessel-lacks", f"{kettle.tag}, planned for {vessel}, has no {' and no '.join(lacking)}", Label(step.span, f"asks for {asked}"),
                   why="The crew stands at the kettle and cannot do what the sheet says.", fix=f"Name another vessel with --vessel {vessel}=TAG, or another tool here.",
                   step=step.number)


def _asked_in_vain(step, kettle: Kettle) -> list[str]:
    tools = tools_of(step) if all(clause.value.joined != "or" for clause in step.written.clauses if clause.kind == "tool") else []
    lacking = [name for name in tools if name in MOUNTED and kettle.tool(name) is None]
    if step.verb in ("heat", "cool") and not kettle.jacket_area and not step.has("water bath", "steam bath", "ice bath", "cold bath"):
        lacking.append("jacket")
    if (step.has("vacuum") or step.verb == "evacuate") and kettle.vacuum is None:
        lacking.append("vacuum")
    return lacking


def _fill(vessel: str, kettle: Kettle, most: float, graph: Graph) -> list[Finding]:
    if most >= kettle.working.low:
        return []
    step = next(node.step for node in graph.nodes if node.place == vessel)
    return [Finding("WARN", "vessel-too-empty", f"{vessel} holds {most * 1000:.4g} L at most; {kettle.tag} works from {kettle.working.low * 1000:.4g} L",
                    Label(step.span), why="The stirrer may draw air or not reach the batch, and the jacket heats the wall above it.",
                    fix="Make a larger batch, or name a smaller vessel.", step=step.number)]
