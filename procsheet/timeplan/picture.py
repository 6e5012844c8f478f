"""The time plan as bars: one lane a vessel and a balance, hours along the top."""

from html import escape

from procsheet.timeplan.schedule import DAY, Schedule, Slot

LEFT, TOP, LANE, BAR, WIDE, RIGHT = 150, 74, 30, 18, 1000, 30     # px
FILLS = {"attended": "#444", "alone": "#bbb"}


def draw(plan: Schedule, title: str) -> str:
    """SVG text. Dark bars need somebody, light ones run alone; an open end has no right edge."""
    lanes = list(dict.fromkeys([slot.task.at or "elsewhere" for slot in plan.slots if not slot.task.weighing] + [slot.task.at for slot in plan.slots if slot.task.weighing]))
    span = max(plan.ends - plan.begins, 60.0)
    height = TOP + LANE * len(lanes) + 60
    parts = [*_hours(plan, span, height - 50), *(f'<text x="{LEFT - 10}" y="{_y(lane, lanes) + 13}" text-anchor="end">{escape(lane)}</text>' for lane in lanes)]
    last: dict[str, float] = {}
    for slot in sorted(plan.slots, key=lambda one: (one.start, one.task.index)):
        parts += _bar(slot, plan, span, _y(slot.task.at or "elsewhere", lanes), last)
    foot = "Dark: somebody is at it. Light: it runs alone. A number is the step." + (" Open at the right: no time is written, it may take longer." if plan.is_open else "")
    return (f'<svg xmlns="http://www.w3.org/2000/svg" width="{LEFT + WIDE + RIGHT}" height="{height}" viewBox="0 0 {LEFT + WIDE + RIGHT} {height}" role="img" '
            f'font-family="IBM Plex Sans, Helvetica, Arial, sans-serif" font-size="12"><title>{escape(title)}</title><rect width="100%" height="100%" fill="#fff"/>'
            f'<text x="20" y="28" font-size="18" font-weight="600">{escape(title)}</text>{"".join(parts)}<text x="20" y="{height - 16}" fill="#444">{escape(foot)}</text></svg>\n')


def _y(lane: str, lanes: list[str]) -> int:
    return TOP + LANE * lanes.index(lane)


def _x(time: float, plan: Schedule, span: float) -> float:
    return LEFT + WIDE * (time - plan.begins) / span


def _hours(plan: Schedule, span: float, bottom: int) -> list[str]:
    step = next(size for size in (600, 1800, 3600, 7200, 14400, 28800, DAY, 7 * DAY, 1e9) if span / size <= 14)
    out, time = [], plan.begins - plan.begins % step
    while time <= plan.ends + step:
        if plan.begins <= time <= plan.ends:
            x = _x(time, plan, span)
            out += [f'<line x1="{x:.1f}" y1="{TOP - 8}" x2="{x:.1f}" y2="{bottom}" stroke="#ddd"/>', f'<text x="{x:.1f}" y="{TOP - 14}" text-anchor="middle" fill="#444">{clock_time(time % DAY)}</text>']
            out += [f'<text x="{x:.1f}" y="{TOP - 30}" text-anchor="middle" fill="#444">day {time // DAY + 1:.0f}</text>'] if time and time % DAY == 0 else []
        time += step
    return out


def _bar(slot: Slot, plan: Schedule, span: float, y: int, last: dict[str, float]) -> list[str]:
    x, wide = _x(slot.start, plan, span), max(WIDE * (slot.end - slot.start) / span, 1.5)
    colour = FILLS["attended" if slot.task.attended else "alone"]
    edge = f'<rect x="{x:.1f}" y="{y}" width="{wide:.1f}" height="{BAR}" fill="{colour}" stroke="#fff" stroke-width="0.5"><title>{escape(told(slot))}</title></rect>'
    number = str(slot.task.step)
    room = wide > 7 * len(number) + 4 and not slot.task.weighing
    text = [f'<text x="{x + wide / 2:.1f}" y="{y + 13}" text-anchor="middle" font-size="11" fill="{"#fff" if slot.task.attended else "#000"}">{number}</text>'] if room else []
    last[slot.task.at] = x + wide
    return [edge, *text]


def told(slot: Slot) -> str:
    return f"{clock_time(slot.start)} to {clock_time(slot.end)}{' or later' if slot.task.is_open else ''}: {slot.task.name}"


def clock_time(seconds: float) -> str:
    """`06:30`, `day 2 06:30`"""
    day, rest = divmod(round(seconds / 60), 1440)
    return f"{f'day {day + 1} ' if day else ''}{rest // 60:02}:{rest % 60:02}"
