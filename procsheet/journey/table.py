"""The stops as a table for a terminal, and one portion's life below it."""

import textwrap

from procsheet.journey import words
from procsheet.journey.stops import Stop
from procsheet.model.method import Row
from procsheet.rules import scale
from procsheet.rules.words import celsius
from procsheet.trace.life import Life

HEADS = ("line", "vessel", "step", "°C", "shear", "since start")
LEAST = 24                              # letters that a step's words get at least


def table(stops: tuple[Stop, ...], rows: dict[str, Row], *, width: int = 120, fahrenheit: bool = False) -> str:
    """A row a stop: what is done, how warm, under what shear, when; below it, where it changes, what the vessel holds and what is true of it."""
    names = {code: row.name for code, row in rows.items()}
    lines = [(str(stop.line), stop.moment.vessel, stop.words, words.warmth(stop, fahrenheit), stop.moment.shear.told, words.time(stop.begins)) for stop in stops]
    heads = tuple("°F" if head == "°C" and fahrenheit else head for head in HEADS)
    wide = [max(len(head), *(len(line[column]) for line in lines)) if lines else len(head) for column, head in enumerate(heads)]
    wide[2] = max(LEAST, min(wide[2], width - sum(wide) + wide[2] - 2 * (len(wide) - 1)))
    out = [_line(heads, wide), _line(tuple("-" * one for one in wide), wide)]
    told: dict[str, str] = {}
    for stop, line in zip(stops, lines):
        out += _wrapped(line, wide)
        holds = "; ".join([words.held(stop), *words.states(stop, names)])
        if told.get(stop.moment.vessel) != holds:
            out += textwrap.wrap(holds, width, initial_indent=" " * (wide[0] + 2), subsequent_indent=" " * (wide[0] + 4))
        told[stop.moment.vessel] = holds
    assumed = [row.name for row in rows.values() if row.material.heat_capacity()[1]]
    if assumed:
        out += ["", *textwrap.wrap(f"Heat capacities not in their own data, taken as usual for their kind: {', '.join(dict.fromkeys(assumed))}.", width)]
    return "\n".join(out)


def _wrapped(row: tuple[str, ...], wide: list[int]) -> list[str]:
    """The row, with the step's words on as many lines as they need."""
    parts = textwrap.wrap(row[2], wide[2]) or [""]
    return [_line((*row[:2], parts[0], *row[3:]), wide), *(_line(("", "", part), wide) for part in parts[1:])]


def _line(cells: tuple[str, ...], wide: list[int]) -> str:
    return "  ".join(f"{cell:<{size}}" for cell, size in zip(cells, wide)).rstrip()


def life_told(life: Life, codes: dict[str, str], *, fahrenheit: bool = False) -> str:
    """One portion in a few lines: where it goes in, how hot and how sheared it gets, for how long, whom it meets. codes: row code -> name."""
    name, path = life.exposure.row.name, life.path
    lines = [f"{name}{f', {life.exposure.use}' if life.exposure.use else ''}: goes in at line {path[0].span.line}, into {path[0].vessel}",
             f"  hottest     {celsius(life.hottest.throughout)} at line {life.hottest.span.line}",
             f"  coldest     {celsius(life.coldest.throughout)} at line {life.coldest.span.line}",
             f"  most shear  {life.strongest.shear.told} at line {life.strongest.span.line}",
             f"  until pack  {words.time(life.lasts)}"]
    for kind in ("add below", "heat limit", "flash point", "melts"):
        figure = life.exposure.material.figure(kind)
        if figure is not None:
            time = life.above(figure.value.low)
            lines.append(f"  {kind:<10}  {celsius(figure.value)}: above {celsius(figure.value.low)} for {words.time(time) if time.high else 'no time'}")
    for fact, told in (("emulsified", "once emulsified"), ("neutralised", "once neutralised"), ("activated", "once the clay is opened")):
        after = life.sheared_after(fact)
        lines += [f"  {told}: {after.shear.told} at line {after.span.line}"] if after is not None else []
    lines += [f"  pH          {words.span(*life.pH[:2], 1)}"] if not life.pH.missing else []
    met: dict[int, list[str]] = {}
    for code, moment in life.meets.items():
        met.setdefault(moment.span.line, []).append(codes.get(code, code))
    lines += [line for at, names in sorted(met.items()) for line in textwrap.wrap(f"{', '.join(names)}", 100, initial_indent=f"  meets, line {at}: ", subsequent_indent=" " * 6)]
    return scale.told("\n".join(lines)) if fahrenheit else "\n".join(lines)
