"""The stops as a picture: for every vessel its temperature and shear from left to right, what goes in marked, limits as lines."""

from html import escape
from typing import NamedTuple

from procsheet.graph.graph import Graph
from procsheet.intervals import INFINITY, Interval
from procsheet.journey import words
from procsheet.journey.stops import Stop
from procsheet.model.method import Row
from procsheet.trace.life import Life
from procsheet.trace.trace import HIGH, LOW, MEDIUM

LEFT, RIGHT, TOP = 96, 300, 64          # px: beside and above the panels
PLOT, STRIP, ROW, FOOT, TEXT, HEAD = 130, 26, 15, 34, 12, 14
NARROW, WIDE, A_MINUTE = 46, 230, 5     # px: a step is drawn as long as it takes, between these
UNKNOWN = 4                             # minutes that a step without a time is drawn for
LEAVING = ("fill", "pour", "discharge")
HEIGHTS = {LOW: 6, MEDIUM: 13, HIGH: 22}
LIMITS = (("add below", "goes in below"), ("heat limit", "heat limit"), ("flash point", "flash point"), ("melts", "melts"))


class Span(NamedTuple):
    """A stop on the paper: from x0 to x1 [px]."""

    stop: Stop
    x0: float
    x1: float


class Panel(NamedTuple):
    """One vessel: its spans, the labels above it as (x, row, text), and the height it needs above the plot."""

    name: str
    spans: tuple[Span, ...]
    labels: tuple[tuple[float, int, str], ...]
    above: int


def draw(stops: tuple[Stop, ...], graph: Graph, *, lives: tuple[Life, ...] = (), fahrenheit: bool = False) -> str:
    """The picture as SVG text. With the lives of a material's portions, their ways are drawn thick, and only its own limits are shown."""
    vessels = set(graph.method.vessels)
    spans = [span for span in _spans(stops) if span.stop.moment.step.verb not in LEAVING or span.stop.moment.vessel in vessels]
    panels = [_panel(name, [one for one in spans if one.stop.moment.vessel == name]) for name in dict.fromkeys(one.stop.moment.vessel for one in spans)]
    low, high = _scale(stops)
    right = max((span.x1 for span in spans), default=float(LEFT))
    parts, y = [], float(TOP)
    for panel in panels:
        y += panel.above
        parts += _drawn(panel, y, low, high, graph.rows, lives, fahrenheit)
        y += PLOT + STRIP + FOOT
    told = f"{graph.method.header.product or graph.method.file}: what each kettle lives through" + (f", and the way of {lives[0].exposure.row.name}" if lives else "")
    foot = (f"Wide bands: the method leaves it open. A step under {NARROW // A_MINUTE} min, over {WIDE // A_MINUTE} min or without a time is not drawn to scale.",
            "Bars below: shear, low, medium and high. Numbers: the steps.")
    width = max(right + RIGHT, 40 + len(told) * 10.5, 40 + len(foot[0]) * TEXT * 0.56)
    return (f'<svg xmlns="http://www.w3.org/2000/svg" width="{width:.0f}" height="{y + 44:.0f}" viewBox="0 0 {width:.0f} {y + 44:.0f}" role="img" '
            f'font-family="IBM Plex Sans, Helvetica, Arial, sans-serif" font-size="{TEXT}"><title>{escape(told)}</title><defs>{HATCH}</defs>'
            f'<rect width="100%" height="100%" fill="#fff"/><text x="20" y="30" font-size="18" font-weight="600">{escape(told)}</text>{"".join(parts)}'
            + "".join(f'<text x="20" y="{y + 14 + index * ROW:.0f}" fill="#444">{escape(line)}</text>' for index, line in enumerate(foot)) + "</svg>\n")


HATCH = ('<pattern id="half" width="5" height="5" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><rect width="5" height="5" fill="#fff"/>'
         '<rect width="2" height="5" fill="#000"/></pattern>')


def _spans(stops: tuple[Stop, ...]) -> list[Span]:
    """Where each stop lies: behind all it goes on from, and behind the last of its own vessel."""
    end: dict[int, float] = {}
    last: dict[str, float] = {}
    left = max([float(LEFT), *(28 + len(stop.moment.vessel) * HEAD * 0.72 for stop in stops)])      # no label runs into a vessel's name
    out = []
    for stop in stops:
        moment = stop.moment
        x0 = max([end[parent] for parent in moment.parents] + [last.get(moment.vessel, left)])
        x1 = x0 + min(max(_minutes(moment.duration) * A_MINUTE, NARROW), WIDE)
        end[moment.index] = last[moment.vessel] = x1
        out.append(Span(stop, x0, x1))
    return out


def _minutes(duration: Interval | None) -> float:
    if duration is None:
        return UNKNOWN
    return (duration.low if duration.high == INFINITY else (duration.low + duration.high) / 2) / 60


def _panel(name: str, spans: list[Span]) -> Panel:
    """From right to left: a label stands above all that it would run into, so that no line to a label crosses another."""
    labels: list[tuple[float, int, str]] = []
    for span in reversed(spans):
        text = _goes_in(span.stop)
        end = span.x0 + len(text) * TEXT * 0.56 + 12
        if text:
            labels.append((span.x0, max((row + 1 for x, row, _ in labels if x < end), default=0), text))
    return Panel(name, tuple(spans), tuple(labels), (max((row for _, row, _ in labels), default=0) + 1) * ROW + 22)


def _goes_in(stop: Stop) -> str:
    """`C1 fragrance`, `A1, A2 and A3`, `from side`."""
    moment = stop.moment
    names = [f"{one.row.code} {one.row.name}" for one in moment.entering]
    codes = [one.row.code for one in moment.entering]
    told = ", ".join(names) if len(", ".join(names)) <= 34 else f"{codes[0]} to {codes[-1]}" if len(codes) > 3 else ", ".join(codes)
    poured = moment.step.vessel if moment.poured and moment.step.verb in ("transfer", "pass", "fill", "pour", "discharge", "strain") else (
        ", ".join(take.vessel for take in moment.step.what if take.vessel))
    return " and ".join(filter(None, (told if moment.part == 0 else "", f"from {poured}" if poured and moment.poured else "")))


def _scale(stops: tuple[Stop, ...]) -> tuple[float, float]:
    """Lowest and highest temperature of the axis, whole tens [°C]."""
    low = min((stop.moment.throughout.low for stop in stops), default=293.15) - 273.15
    high = max((stop.moment.throughout.high for stop in stops), default=293.15) - 273.15
    return low // 10 * 10, max(-(-high // 10) * 10, low // 10 * 10 + 20)


def _drawn(panel: Panel, top: float, low: float, high: float, rows: dict[str, Row], lives: tuple[Life, ...], fahrenheit: bool) -> list[str]:
    def y(kelvin: float) -> float:
        return top + PLOT * (1 - (min(max(kelvin - 273.15, low), high) - low) / (high - low))

    first, last = panel.spans[0].x0, panel.spans[-1].x1
    parts = [f'<text x="20" y="{top - 8:.0f}" font-weight="600" font-size="{HEAD}">{escape(panel.name.upper())}</text>', *_axis(first, last, top, low, high, fahrenheit)]
    parts += [_band(span, y) for span in panel.spans]
    parts += [_shear(span, top + PLOT) for span in panel.spans]
    parts += [_foot(span, top + PLOT + STRIP) for span in panel.spans]
    for x, row, text in panel.labels:
        at = top - 12 - row * ROW
        parts.append(f'<path d="M{x:.0f} {at + 2:.0f}V{top:.0f}" stroke="#000" stroke-width="0.8"/><path d="M{x - 4:.0f} {top - 1:.0f}h8l-4 7z"/>'
                     f'<text x="{x + 4:.0f}" y="{at:.0f}">{escape(text)}</text>')
    parts += _limits(panel, y, low, high, rows, lives, fahrenheit)
    inside = {moment.index for life in lives for moment in life.path}
    parts += [f'<path d="M{span.x0:.0f} {y(span.stop.moment.start.high):.1f}L{span.x1:.0f} {y(span.stop.moment.end.high):.1f}" stroke="#000" stroke-width="4" fill="none"/>'
              for span in panel.spans if span.stop.moment.index in inside]
    return parts


def _axis(first: float, last: float, top: float, low: float, high: float, fahrenheit: bool) -> list[str]:
    step = 20 if high - low > 40 else 10
    out = [f'<rect x="{first:.0f}" y="{top:.0f}" width="{last - first:.0f}" height="{PLOT}" fill="none" stroke="#888" stroke-width="0.8"/>']
    for celsius in range(int(-(-low // step) * step), int(high) + 1, step):
        at = top + PLOT * (1 - (celsius - low) / (high - low))
        told = f"{celsius * 1.8 + 32:.0f} °F" if fahrenheit else f"{celsius} °C"
        out.append(f'<path d="M{first:.0f} {at:.1f}H{last:.0f}" stroke="#ccc" stroke-width="0.6"/><text x="{first - 6:.0f}" y="{at + 4:.1f}" text-anchor="end">{told}</text>')
    return out


def _band(span: Span, y) -> str:
    """From the start to the end of a step, as wide as it is open."""
    start, end = span.stop.moment.start, span.stop.moment.end
    points = ((span.x0, start.high), (span.x1, end.high), (span.x1, end.low), (span.x0, start.low))
    return (f'<polygon points="{" ".join(f"{x:.0f},{y(kelvin):.1f}" for x, kelvin in points)}" fill="#d9d9d9" stroke="#000" stroke-width="1.2" '
            f'stroke-linejoin="round"/>')


def _shear(span: Span, base: float) -> str:
    """A bar as high as the shear: hollow, hatched, solid; with the tip speed where it is high."""
    shear = span.stop.moment.shear
    rank = int(shear.rank.high)
    if rank not in HEIGHTS:
        return ""
    fill = {LOW: "#fff", MEDIUM: "url(#half)", HIGH: "#000"}[rank]
    tip = f'<text x="{(span.x0 + span.x1) / 2:.0f}" y="{base + STRIP - 8:.0f}" text-anchor="middle" fill="#fff" font-size="10">{shear.tip.high:.3g} m/s</text>' if (
        rank == HIGH and shear.tip is not None and span.x1 - span.x0 >= NARROW) else ""
    return (f'<rect x="{span.x0 + 1:.0f}" y="{base + STRIP - HEIGHTS[rank]:.0f}" width="{span.x1 - span.x0 - 2:.0f}" height="{HEIGHTS[rank]}" fill="{fill}" '
            f'stroke="#000" stroke-width="0.8"/>{tip}')


def _foot(span: Span, y: float) -> str:
    """The number of the step, and how long it takes."""
    duration = span.stop.moment.duration
    middle = (span.x0 + span.x1) / 2
    time = f'<text x="{middle:.0f}" y="{y + 25:.0f}" text-anchor="middle" fill="#444" font-size="10">{words.time(duration)}</text>' if (
        duration is not None and duration.high and span.x1 - span.x0 >= 5.4 * len(words.time(duration))) else ""
    return f'<text x="{middle:.0f}" y="{y + 13:.0f}" text-anchor="middle">{span.stop.moment.step.number}</text>{time}'


def _limits(panel: Panel, y, low: float, high: float, rows: dict[str, Row], lives: tuple[Life, ...], fahrenheit: bool) -> list[str]:
    """Dashed lines at the figures of what is in the vessel: of one material, or the lowest of each kind and the highest that melts."""
    found: dict[str, tuple[float, str, float, float]] = {}
    for span in panel.spans:
        for code in span.stop.moment.contents:
            row = rows.get(code)
            if row is None or lives and all(row is not life.exposure.row for life in lives):
                continue
            for kind, told in LIMITS:
                figure = row.material.figure(kind)
                if figure is None or kind == "melts" and not row.material.is_a("structures oil"):
                    continue
                value = figure.value.high if kind == "melts" else figure.value.low
                if not low <= value - 273.15 <= high:
                    continue
                old = found.get(kind)
                if old is None or (value > old[0] if kind == "melts" else value < old[0]):
                    found[kind] = (value, f"{told} {_degrees(value, fahrenheit)}: {row.name}", span.x0, span.x1)
                elif value == old[0]:
                    found[kind] = (*old[:3], span.x1)
    return _apart(sorted(found.values(), reverse=True), y, panel.spans[-1].x1)


def _apart(lines: list[tuple[float, str, float, float]], y, right: float) -> list[str]:
    """The lines with their names at the right, one above the other where they lie close."""
    out, above = [], -INFINITY
    for kelvin, told, x0, _ in lines:
        at = y(kelvin)
        text = max(at + 4, above + ROW)
        above = text
        name = told if len(told) <= 46 else told[:45] + "…"
        out.append(f'<path d="M{x0:.0f} {at:.1f}H{right:.0f}" stroke="#000" stroke-dasharray="7 4"/><text x="{right + 6:.0f}" y="{text:.1f}" font-size="11">{escape(name)}</text>')
    return out


def _degrees(kelvin: float, fahrenheit: bool) -> str:
    return f"{(kelvin - 273.15) * 1.8 + 32:.0f} °F" if fahrenheit else f"{kelvin - 273.15:.0f} °C"
