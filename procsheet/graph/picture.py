"""The flow from materials to product as a picture: a lane a vessel, a ring a step, arrows where one vessel goes into another."""

from html import escape
from typing import NamedTuple

from procsheet.graph.graph import Graph, Node

RING, LINE, TEXT, GAP = 15, 15, 12, 26          # px: radius of a step, height of a text line, size of text, least space between columns
LEFT, TOP = 120, 60
PATTERNS = ("solid", "hatched", "hollow", "dotted", "crossed")
MOST_LISTED = 8


class Spot(NamedTuple):
    """A step on the picture: its column and lane, what goes in, what is done."""

    node: Node
    column: int
    lane: int
    materials: tuple[str, ...]
    below: str


def as_data(graph: Graph) -> dict:
    """Nodes and states for machines: masses in kg of one basis batch."""
    return {
        "steps": [{"step": node.step.number, "verb": node.step.verb, "vessel": node.place, "part": node.part, "inside": node.inside, "needs": list(node.needs),
                   "takes": [{"row": one.row.code, "material": one.row.name, "kg": float(one.mass), "use": one.use} for one in node.entering],
                   "pours": [{"state": state, "share": float(share)} for state, share in node.poured], "before": node.before, "after": node.after}
                  for node in graph.nodes],
        "states": [{"state": one.index, "vessel": one.vessel, "made_by": one.made_by, "kg": {code: float(mass) for code, mass in one.contents.items()}}
                   for one in graph.states],
        "product": list(graph.product),
    }


def shown(graph: Graph) -> list[Node]:
    """The nodes that are drawn: each step once, and only those that work on a vessel."""
    return [node for node in graph.nodes if node.part == 0 and node.step.number and node.place]


def columns(graph: Graph) -> dict[int, int]:
    """The column of each drawn node: one more than that of everything it needs."""
    import networkx

    flow = networkx.DiGraph()
    drawn = {node.index for node in shown(graph)}
    first = {node.step.number: node.index for node in graph.nodes if node.part == 0}
    stands_for = {node.index: first[node.step.number] for node in graph.nodes}
    flow.add_nodes_from(drawn)
    last: dict[str, int] = {}
    for node in graph.nodes:
        here = stands_for[node.index]
        for need in node.needs:
            if stands_for[need] in drawn and here in drawn and stands_for[need] < here:
                flow.add_edge(stands_for[need], here)
        if node.part == 0 and here in drawn:
            if node.place in last:
                flow.add_edge(last[node.place], here)
            last[node.place] = here
    found: dict[int, int] = {}
    for index in networkx.lexicographical_topological_sort(flow):
        found[index] = max((found[before] + 1 for before in flow.predecessors(index)), default=0)
    return found


def lanes(graph: Graph) -> list[str]:
    """Vessels in the order they are first used, the one with the most steps in the middle."""
    uses: dict[str, int] = {}
    for node in shown(graph):
        uses[node.place] = uses.get(node.place, 0) + 1
    names = [name for name in uses if name in {place.name for place in graph.method.places}]
    others = [name for name in uses if name not in names]
    if not names:
        return others
    main = max(names, key=lambda name: uses[name])
    rest = [name for name in names if name != main]
    half = (len(rest) + 1) // 2
    return [*rest[:half], main, *rest[half:], *others]


def draw(graph: Graph) -> str:
    """The picture as SVG text. Labels never touch: each column is as wide as its widest label."""
    order, at = lanes(graph), columns(graph)
    spots = [_spot(graph, node, at[node.index], order.index(node.place)) for node in shown(graph)]
    lefts, width = _columns(spots)
    tops, height = _lanes(spots, order)
    known = [place.name for place in graph.method.places]
    parts = [_bar(name, lane, known.index(name) if name in known else len(known), spots, lefts, tops) for lane, name in enumerate(order)]
    parts += _pours(graph, spots, lefts, tops)
    parts += [_step(spot, lefts, tops) for spot in spots]
    title = escape(graph.method.header.product or graph.method.file)
    return (f'<svg xmlns="http://www.w3.org/2000/svg" width="{width:.0f}" height="{height:.0f}" viewBox="0 0 {width:.0f} {height:.0f}" role="img" '
            f'font-family="IBM Plex Sans, Helvetica, Arial, sans-serif" font-size="{TEXT}"><title>{title}: from materials to product</title>'
            f'<defs>{_patterns()}</defs><rect width="100%" height="100%" fill="#fff"/>'
            f'<text x="20" y="32" font-size="20" font-weight="600">{title}</text>{"".join(parts)}</svg>\n')


def _spot(graph: Graph, node: Node, column: int, lane: int) -> Spot:
    total = graph.method.mass
    listed = [f"{portion.row.code} {portion.row.name} {_share(portion.mass / total)}{' ' + portion.use if portion.use in ('hold-back', 'make-up') else ''}"
              for portion in node.entering]
    more = [f"and {len(listed) - MOST_LISTED} more"] if len(listed) > MOST_LISTED else []
    return Spot(node, column, lane, tuple([*listed[:MOST_LISTED], *more]), node.step.written.said)


def _share(share) -> str:
    return f"{float(share) * 100:.3g} %"


def _wide(text: str) -> float:
    return len(text) * TEXT * 0.56


def _columns(spots: list[Spot]) -> tuple[dict[int, float], float]:
    """The centre of each column, and the width of the whole."""
    widths: dict[int, float] = {}
    for spot in spots:
        need = max([_wide(line) for line in (*spot.materials, spot.below)] + [2 * RING])
        widths[spot.column] = max(widths.get(spot.column, 0), need)
    x, centres = float(LEFT), {}
    for column in sorted(widths):
        centres[column] = x + widths[column] / 2
        x += widths[column] + GAP
    return centres, x + 40


def _lanes(spots: list[Spot], order: list[str]) -> tuple[dict[int, float], float]:
    """The height of each lane's line, and of the whole."""
    y, lines = float(TOP), {}
    for lane in range(len(order)):
        most = max((len(spot.materials) for spot in spots if spot.lane == lane), default=0)
        y += most * LINE + RING + 26
        lines[lane] = y
        y += RING + 2 * LINE
    return lines, y + 30


def _patterns() -> str:
    return ('<pattern id="hatched" width="6" height="6" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><rect width="6" height="6" fill="#fff"/>'
            '<rect width="2.4" height="6" fill="#000"/></pattern><pattern id="dotted" width="6" height="6" patternUnits="userSpaceOnUse">'
            '<rect width="6" height="6" fill="#fff"/><circle cx="3" cy="3" r="1.4"/></pattern><pattern id="crossed" width="7" height="7" patternUnits="userSpaceOnUse" '
            'patternTransform="rotate(45)"><rect width="7" height="7" fill="#fff"/><path d="M0 0H7M0 0V7" stroke="#000" stroke-width="1.6"/></pattern>'
            '<marker id="head" viewBox="0 0 10 10" refX="9" refY="5" markerWidth="6" markerHeight="6" orient="auto"><path d="M0 0L10 5L0 10z"/></marker>')


def _bar(name: str, lane: int, pattern: int, spots: list[Spot], lefts: dict, tops: dict) -> str:
    """The lane's bar; the pattern goes by the order of the vessels in the method, as on the printed sheet."""
    mine = [lefts[spot.column] for spot in spots if spot.lane == lane]
    kind = PATTERNS[pattern % len(PATTERNS)]
    fill = {"solid": "#000", "hollow": "#fff"}.get(kind, f"url(#{kind})")
    y = tops[lane]
    return (f'<rect x="{min(mine) - 24:.0f}" y="{y - 7:.0f}" width="{max(mine) - min(mine) + 48:.0f}" height="14" fill="{fill}" stroke="#000"/>'
            f'<text x="20" y="{y + 5:.0f}" font-weight="600" font-size="14">{escape(name.upper())}</text>')


def _pours(graph: Graph, spots: list[Spot], lefts: dict, tops: dict) -> list[str]:
    """An arrow from a vessel's last step down or up into the step that takes it."""
    by_node = {spot.node.index: spot for spot in spots}
    first = {node.step.number: node.index for node in graph.nodes if node.part == 0}
    out = []
    for spot in spots:
        for state, _ in spot.node.poured:
            maker = graph.nodes[graph.states[state].made_by]
            start = by_node.get(first.get(maker.step.number, -1))
            if start is None or start.lane == spot.lane:
                continue
            x, y0, y1 = lefts[spot.column], tops[start.lane], tops[spot.lane]
            x0 = lefts[start.column] + 24
            end = y1 + (RING + LINE + 6 if y0 > y1 else -RING - 2 - LINE * len(spot.materials))
            out.append(f'<path d="M{x0:.0f} {y0:.0f}H{x:.0f}V{end:.0f}" fill="none" stroke="#000" stroke-width="3" marker-end="url(#head)"/>')
    return out


def _step(spot: Spot, lefts: dict, tops: dict) -> str:
    x, y = lefts[spot.column], tops[spot.lane]
    double = f'<circle cx="{x:.0f}" cy="{y:.0f}" r="{RING - 4}" fill="none" stroke="#000" stroke-width="1.4"/>' if spot.node.step.has("double-checked") else ""
    lines = "".join(f'<text x="{x:.0f}" y="{y - RING - 8 - (len(spot.materials) - 1 - index) * LINE:.0f}" text-anchor="middle">{escape(line)}</text>'
                    for index, line in enumerate(spot.materials))
    return (f'<g><circle cx="{x:.0f}" cy="{y:.0f}" r="{RING}" fill="#fff" stroke="#000" stroke-width="2"/>{double}'
            f'<text x="{x:.0f}" y="{y + 5:.0f}" text-anchor="middle" font-weight="600">{spot.node.step.number}</text>{lines}'
            f'<text x="{x:.0f}" y="{y + RING + LINE:.0f}" text-anchor="middle">{escape(spot.below)}</text></g>')
