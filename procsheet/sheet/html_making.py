"""The making pages: stages, steps over the whole width, vessels side by side, branches for the operator."""

from math import ceil
from typing import NamedTuple

from procsheet.sheet.amounts import paddings
from procsheet.sheet.bars import bar_class
from procsheet.sheet.marks import HEADS, TICK, box, box_grid, box_row, caution, given, table, text, words
from procsheet.sheet.model import Addition, Box, Branch, Cue, Gate, Lane, Lanes, Making, Portions, Setting, Stage, Step

LONG = 20           # additions: a longer step may break between them
SETTINGS = 3        # on a line
SHORT, BESIDE = 5, 8        # letters of a vessel that fit under the number in a lane, and beside the bar of a wide step
FINE, TIGHT = 8, 18 # letters of an amount, and of one word of a name, that are set smaller


class Form(NamedTuple):
    """How wide things are: in a step over the whole page, or in one of two columns. Widths in mm."""

    css: str
    say: float                      # the sentence
    boxes: tuple[int, float]        # how many in a row, how wide
    addition: tuple[float, ...]     # tick, material, amount, then the boxes
    room: float                     # for an amount [em]
    portions: tuple[int, float, float]      # most in a row, width of the labels, of them all
    rounds: tuple[int, float]       # in a row, width of each


WIDE = Form("wide", 88, (3, 23), (9, 54, 25, 23, 23, 23), 3.5, (8, 21, 136), (4, 45.5))
NARROW = Form("narrow", 72, (4, 20.5), (8.5, 36.5, 24, 13), 3.4, (5, 17, 65), (2, 44.5))


def making(page: Making) -> str:
    first, *rest = page.stages or (Stage("", "", ()),)
    return (f'<div class="stage"><h1>Making</h1>{stage_name(first)}</div>{parts(first.parts, WIDE)}'
            + "".join(f'<div class="stage">{stage_name(stage)}</div>{parts(stage.parts, WIDE)}' for stage in rest)
            + f'<div class="closing">{box_row(page.closing)}{box_row(page.packs)}</div>')


def stage_name(stage: Stage) -> str:
    return f"<h2>{text(stage.number)}&ensp;<b>{text(stage.title)}</b></h2>" if stage.title else ""


def parts(within: tuple[Step | Branch | Lanes, ...], form: Form, lane: str = "") -> str:
    return "".join(part(each, form, lane) for each in within)


def part(each: Step | Branch | Lanes, form: Form, lane: str) -> str:
    if isinstance(each, Lanes):
        return lanes(each)
    if isinstance(each, Branch):
        return branch(each, form, lane)
    return wide_step(each) if form is WIDE else narrow_step(each, lane)


def wide_step(each: Step) -> str:
    inside = each.inside and f"<p>{text(each.inside)}</p>"
    tight = " tight" if max(map(len, each.vessel.split()), default=0) > BESIDE else ""
    number = (f'<b class="count">{text(each.number)}</b><div class="where{tight}"><p>{text(each.vessel)}</p>{inside}</div>'
              f"{HEADS if each.second else ''}")
    top = table("do", (17.5, WIDE.say, 69), f'<tr><td>{number}</td><td class="say">{say(each)}</td>'
                                            f"<td>{box_grid(each.boxes, *WIDE.boxes)}</td></tr>")
    return framed(each, WIDE, top, additions(each, WIDE) + portions(each.portions, WIDE))


def narrow_step(each: Step, lane: str) -> str:
    """In a lane the vessel is named only where it is another one than the lane's; a long name stands above the sentence."""
    where = " ".join(filter(None, (each.vessel if each.vessel != lane else "", each.inside)))
    vessel = where and f'<p class="where">{text(where)}</p>'
    below, above = (vessel, "") if len(where) <= SHORT else ("", vessel)
    number = f'<b class="count">{text(each.number)}</b>{below}{HEADS if each.second else ""}'
    top = table("do", (10, NARROW.say), f'<tr><td>{number}</td><td class="say">{above}{say(each)}</td></tr>')
    return framed(each, NARROW, top, additions(each, NARROW) + portions(each.portions, NARROW) + box_grid(each.boxes, *NARROW.boxes))


def framed(each: Step, form: Form, top: str, below: str) -> str:
    """The step beside its bar: cautions, then what is done, which stay together; a long step may break below them."""
    long = " long" if len(each.additions) > LONG else ""
    return (f'<div class="step {form.css} {bar_class(each.bars)}{long}">'
            f'<div class="top">{"".join(map(caution, each.cautions))}{top}</div>{below}</div>')


def say(each: Step) -> str:
    return f'<p class="sentence">{words(each.sentence)}</p>{settings(each.settings)}{"".join(map(cue, each.cues))}'


def settings(all: tuple[Setting, ...]) -> str:
    cells = [f"<td><p>{text(each.name)}</p><b>{given(each.value)}</b> {text(each.unit)}</td>" for each in all]
    rows = "".join(f"<tr>{''.join(cells[n:n + SETTINGS])}</tr>" for n in range(0, len(cells), SETTINGS))
    return rows and f'<table class="settings">{rows}</table>'


def cue(each: Cue) -> str:
    return f'<p class="cue"><b>{text(each.head)}</b>&ensp;{words(each.words)}</p>'


def additions(step: Step, form: Form) -> str:
    columns = form.addition
    one_unit = len({each.unit for each in step.additions}) == 1
    pads = paddings(tuple(each.amount if one_unit else "" for each in step.additions), room=form.room)
    rows = "".join(addition(each, pad, form) for each, pad in zip(step.additions, pads))
    head = f'<tr><th colspan="{len(columns)}">materials of step {text(step.number)}</th></tr>'
    return rows and table("additions", columns, rows, head=head if len(step.additions) > LONG else "")


def addition(each: Addition, pad: float, form: Form) -> str:
    """A material to add, and room to sign for it: beside it on a wide step, in a lane a second person signs below the first."""
    check = Box("checked by" if form is WIDE else "check", second=True)
    if form is WIDE:
        added = box(Box("added by"), 1 if each.second else 2) + (box(check) if each.second else "")
        return f"<tr>{material(each, pad)}{box(Box('time'))}{added}</tr>"
    first = f"<tr>{material(each, pad, 2 if each.second else 1)}{box(Box('by'))}</tr>"
    return f"<tbody>{first}<tr>{box(check)}</tr></tbody>" if each.second else f"<tbody>{first}</tbody>"


def material(each: Addition, pad: float, rows: int = 1) -> str:
    """Tick, code and name, amount; `rows` high."""
    css = ' class="fine"' if len(each.amount) >= FINE else ""
    tight = ' class="tight"' if max(map(len, each.name.split()), default=0) > TIGHT else ""
    return (f'<td rowspan="{rows}">{TICK}</td><td rowspan="{rows}"{tight}><b class="code">{text(each.code)}</b>&ensp;{text(each.name)}</td>'
            f'<td class="amount" rowspan="{rows}"><b{css} style="padding-right:{pad:g}em">{given(each.amount)}</b> {text(each.unit)}</td>')


def portions(grid: Portions | None, form: Form) -> str:
    """A grid of cells to write in, in several even rows where one would be too narrow."""
    if not grid:
        return ""
    most, label, width = form.portions
    count = len(grid.heads)
    across = ceil(count / ceil(count / most))
    return "".join(portion_table(grid, slice(n, n + across), label, round(width / across, 2)) for n in range(0, count, across))


def portion_table(grid: Portions, cut: slice, label: float, each: float) -> str:
    captions = "".join(f'<th scope="col">{text(caption)}</th>' for caption in ("", *grid.heads[cut]))
    rows = "".join(f'<tr><th scope="row">{text(row.label)}</th>{"".join(map(portion, row.cells[cut]))}</tr>' for row in grid.rows)
    return table("portions", (label, *(each,) * len(grid.heads[cut])), rows, head=f"<tr>{captions}</tr>")


def portion(cell: str) -> str:
    return f'<td class="box">{text(cell)}</td>'


def branch(each: Branch, form: Form, lane: str) -> str:
    end = f'<p class="end">{words(each.end)}</p>' if each.end else ""
    tick = "" if each.rounds else TICK
    return (f'<div class="branch"><div class="if">{tick}<p>{words(each.head)}</p>{rounds(each.rounds, form)}</div>'
            f"{parts(each.parts, form, lane)}{end}</div>")


def rounds(count: int, form: Form) -> str:
    across, width = form.rounds
    cells = [f"<td>{TICK}</td>{box(Box(f'round {n}: time, by'))}<td></td>" for n in range(1, count + 1)]
    rows = "".join(f"<tr>{''.join(cells[n:n + across])}</tr>" for n in range(0, count, across))
    return rows and table("rounds", (9, width - 12, 3) * across, rows)


def lanes(each: Lanes) -> str:
    """Two columns, the lanes in their order below each other, cut where both are as long as they can be."""
    tall = [sum(map(weight, lane.parts)) for lane in each.lanes]
    half = min(range(1, max(len(tall), 2)), key=lambda cut: max(sum(tall[:cut]), sum(tall[cut:])))
    columns = [f"<td>{''.join(map(lane, column))}</td>" for column in (each.lanes[:half], each.lanes[half:])]
    return table("lanes", (89, 4, 89), f"<tr>{columns[0]}<td></td>{columns[1]}</tr>") + gate(each.gate)


def weight(each: Step | Branch) -> int:
    """About how tall a part is, in lines."""
    if isinstance(each, Branch):
        return 2 + each.rounds // 2 + sum(map(weight, each.parts))
    return 5 + 3 * len(each.cautions) + 2 * len(each.additions) + len(each.cues) + 2 * bool(each.settings) + 3 * bool(each.portions)


def lane(each: Lane) -> str:
    note = each.note and f" <span>{text(each.note)}</span>"
    name = f'<div class="lane-head head-{each.bar}"><p><b>{text(each.vessel)}</b> {text(each.what)}{note}</p></div>'
    return table("lane", (89,), f"<tr><td>{parts(each.parts, NARROW, each.vessel)}</td></tr>",
                 head=f'<tr><th scope="col">{name}</th></tr>')


def gate_boxes(boxes: tuple[Box, ...]) -> str:
    """In one row, as far as six boxes go."""
    columns = min(sum(each.width for each in boxes), 6)
    return box_grid(boxes, columns, round(175 / columns, 2)) if boxes else ""


def gate(each: Gate | None) -> str:
    if not each:
        return ""
    return f'<div class="gate"><p><b>{text(each.head)}</b> {words(each.words)}</p>{gate_boxes(each.boxes)}</div>'
