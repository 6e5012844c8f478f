"""A plant as its file tells it: kettles, tools, balances, containers, media."""

from fractions import Fraction
from typing import NamedTuple

from procsheet import units
from procsheet.findings import Finding
from procsheet.intervals import Interval
from procsheet.model import quantities
from procsheet.source import NOWHERE, Span
from procsheet.syntax import tree
from procsheet.syntax.slips import slip


class Tool(NamedTuple):
    """A stirrer or high-shear head. diameter [m]; speed [1/s]; pumps [m³/s]; covered_from [m³]; power_number [1]; stirrer: a quoted tool said to be one."""

    name: str
    diameter: float | None = None
    speed: Interval | None = None
    pumps: float | None = None
    covered_from: float | None = None
    stirrer: bool = False
    power_number: float | None = None


class Kettle(NamedTuple):
    """A vessel of the plant. working [m³]; diameter [m]; jacket_area [m²]; coefficient [W/(m² K)]; flow [m³/s] of the jacket's medium, None where it does not
    cool or warm on its way; power [W] of the drive; vacuum [Pa abs]; load_cells [kg]."""

    tag: str
    main: bool = False
    working: Interval | None = None
    diameter: float | None = None
    jacket_area: float | None = None
    coefficient: float | None = None
    hot_only: bool = False
    flow: float | None = None
    power: float | None = None
    tools: tuple[Tool, ...] = ()
    vacuum: float | None = None
    load_cells: Fraction | None = None
    closed: bool = False
    inerted: bool = False
    nitrogen: bool = False

    def tool(self, name: str) -> Tool | None:
        return next((tool for tool in self.tools if tool.name == name), None)


class Balance(NamedTuple):
    """capacity, reads and least [kg], exactly; least None where the file does not say."""

    tag: str
    capacity: Fraction
    reads: Fraction
    least: Fraction | None


class Container(NamedTuple):
    name: str
    holds: Fraction | None              # m³


class Plant(NamedTuple):
    name: str
    file: str = ""
    hot: float | None = None            # K
    cold: float | None = None
    room: Interval = quantities.ROOM
    metric: bool = True
    temperature_tolerance: float = 2.0  # K
    weighing_tolerance: Fraction = Fraction(1, 200)
    filling_loss: Fraction | None = None
    weighing_loss: Fraction = Fraction(0)
    kettles: tuple[Kettle, ...] = ()
    balances: tuple[Balance, ...] = ()
    containers: tuple[Container, ...] = ()
    operators: int | None = None
    shift: float | None = None          # s
    cleaning: float | None = None       # s a kettle
    rules: tuple[tree.Entry, ...] = ()

    def kettle(self, tag: str) -> Kettle | None:
        return next((kettle for kettle in self.kettles if kettle.tag.lower() == tag.lower()), None)


NO_PLANT = Plant("")                    # tolerances as assumed where no plant is named


def read_plant(parsed: tree.DataTree) -> tuple[Plant, list[Finding]]:
    """The plant of a file, and what in it is not understood."""
    fields: dict = {"kettles": (), "balances": (), "containers": (), "rules": ()}
    findings: list[Finding] = []
    for entry in parsed.blocks:
        reader = READERS.get(entry.key)
        if reader is not None:
            wrong = reader(entry, fields)
            findings += wrong or []
    name = fields.pop("name", "")
    if not name:
        findings.append(slip(Span(parsed.file, 1, 1, 2), "this plant has no name", "Begin the file with: plant Pilot bay"))
    return Plant(name or "plant", parsed.file, **fields), findings


# ---- figures behind words


def _figures(entry: tree.Entry) -> list[tree.Quantity]:
    return [word for word in entry.words if isinstance(word, tree.Quantity)]


def _of(entry: tree.Entry, *dimensions: str) -> tree.Quantity | None:
    return next((figure for figure in _figures(entry) if units.dimension(figure.unit) in dimensions), None)


def _number(entry: tree.Entry, *dimensions: str) -> float | None:
    figure = _of(entry, *dimensions)
    value = quantities.middle(figure) if figure is not None else None
    return float(value) if value is not None else None


def _exact(entry: tree.Entry, *dimensions: str) -> Fraction | None:
    figure = _of(entry, *dimensions)
    return quantities.middle(figure) if figure is not None else None


def _after(entry: tree.Entry, word: str) -> tree.Quantity | None:
    """The figure that follows a word: `hot 95 °C`."""
    words = entry.words
    for index, one in enumerate(words[:-1]):
        if getattr(one, "text", "").lower() == word and isinstance(words[index + 1], tree.Quantity):
            return words[index + 1]
    return None


def _said(entry: tree.Entry, *words: str) -> bool:
    text = " ".join(word.text.lower() for word in entry.words if isinstance(word, tree.Word))
    return any(word in text for word in words)


# ---- lines of a plant


def _name(entry, fields):
    fields["name"] = entry.text


def _utilities(entry, fields):
    for word in ("hot", "cold"):
        if (figure := _after(entry, word)) is not None:
            fields[word] = float(quantities.middle(figure))
    if (room := _after(entry, "room")) is not None:
        fields["room"] = quantities.interval(room)


def _print(entry, fields):
    fields["metric"] = not _said(entry, "us", "imperial")


def _tolerance(entry, fields):
    if (figure := _after(entry, "temperature")) is not None:
        fields["temperature_tolerance"] = quantities.difference(figure)
    if (figure := _after(entry, "weighing")) is not None:
        fields["weighing_tolerance"] = quantities.middle(figure)


def _loss(entry, fields):
    fields["filling_loss"] = _exact(entry, "mass")


def _weighing_loss(entry, fields):
    loss = _exact(entry, "share")
    if loss is None or not 0 <= loss <= Fraction(1, 2):
        return [slip(entry.span, "a weighing loss is a share, up to half", "Write it as: weighing loss 0.5 %")]
    fields["weighing_loss"] = loss


def _balance(entry, fields):
    tag = next((word.text for word in entry.words if isinstance(word, tree.Word)), "?")
    capacity, reads, least = (_after(entry, word) for word in ("to", "reads", "at least"))
    if capacity is None or reads is None:
        return [slip(entry.span, "this balance does not say its capacity and what it reads", "Write it as: balance B6 to 6 kg, reads 0.1 g, at least 20 g")]
    made = Balance(tag, quantities.middle(capacity), quantities.middle(reads), quantities.middle(least) if least is not None else None)
    fields["balances"] = (*fields["balances"], made)


def _container(entry, fields):
    name = " ".join(word.text for word in entry.words if isinstance(word, tree.Word))
    fields["containers"] = (*fields["containers"], Container(name, _exact(entry, "volume")))


def _operators(entry, fields):
    figure = next(iter(_figures(entry)), None)
    fields["operators"] = int(float(figure.low)) if figure is not None and not figure.is_open else None


def _shift(entry, fields):
    times = [figure for figure in _figures(entry) if units.dimension(figure.unit) == "time"]
    fields["shift"] = float(quantities.middle(times[0])) if times else None
    cleaning = _after(entry, "cleaning")
    fields["cleaning"] = float(quantities.middle(cleaning)) if cleaning is not None else None


def _rule(entry, fields):
    fields["rules"] = (*fields["rules"], entry)


def _vessel(entry, fields):
    if not entry.lines:
        return [slip(entry.span, "this vessel has no lines of its own", "Write its size and tools in deeper lines below it.")]
    made = Kettle(entry.text)
    for line in entry.lines:
        made = KETTLE.get(line.key, _tool)(line, made)
    fields["kettles"] = (*fields["kettles"], made)


READERS = {"plant": _name, "utilities": _utilities, "print": _print, "tolerance": _tolerance, "filling loss": _loss, "weighing loss": _weighing_loss, "balance": _balance,
           "container": _container, "operators": _operators, "shift": _shift, "rule": _rule, "vessel": _vessel}


# ---- lines of a vessel


def _tool(line: tree.Entry, kettle: Kettle) -> Kettle:
    speed = _of(line, "rotation")
    covered = _after(line, "from")
    tool = Tool(line.key, _number(line, "length"), quantities.interval(speed) if speed else None, _number(line, "volume rate"),
                float(quantities.middle(covered)) if covered is not None else None, _said(line, "stirrer"), _power_number(line))
    return kettle._replace(tools=(*kettle.tools, tool))


def _power_number(line: tree.Entry) -> float | None:
    """`power number 0.35`"""
    figure = _after(line, "number") if _said(line, "power number") else None
    return float(quantities.middle(figure) or 0) or None if figure is not None else None


KETTLE = {
    "main kettle": lambda line, kettle: kettle._replace(main=True),
    "side kettle": lambda line, kettle: kettle,
    "working": lambda line, kettle: kettle._replace(working=_span_of(line)),
    "diameter": lambda line, kettle: kettle._replace(diameter=_number(line, "length")),
    "jacket": lambda line, kettle: kettle._replace(jacket_area=_number(line, "area"), coefficient=_number(line, "heat transfer"), hot_only=_said(line, "hot only"),
                                                   flow=_number(line, "volume rate")),
    "vacuum": lambda line, kettle: kettle._replace(vacuum=_number(line, "gauge pressure", "pressure")),
    "load cells": lambda line, kettle: kettle._replace(load_cells=_exact(line, "mass")),
    "closed": lambda line, kettle: kettle._replace(closed=True),
    "inerted": lambda line, kettle: kettle._replace(inerted=True),
    "nitrogen": lambda line, kettle: kettle._replace(nitrogen=True),
    "power": lambda line, kettle: kettle._replace(power=_number(line, "power")),
}


def _span_of(line: tree.Entry) -> Interval | None:
    figure = _of(line, "volume")
    return quantities.interval(figure) if figure is not None else None


__all__ = ["Balance", "Container", "Kettle", "NOWHERE", "NO_PLANT", "Plant", "Tool", "read_plant"]
