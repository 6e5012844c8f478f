"""Figures and states of a stop as people say them."""

from procsheet.intervals import INFINITY, Interval
from procsheet.journey.stops import Stop
from procsheet.rules.words import listed, weight
from procsheet.trace.fats import MOLTEN, SET, SETTING, SOFT, SOLID

PHASE = {"water": "water phase", "oil": "oil phase", "silicone": "silicone", "alcohol": "alcohol", "powder": "powder", "": "phase not known"}
COVER = {"covered": "lid on", "vacuum": "vacuum", "nitrogen": "nitrogen"}
LITTLE = 0.001                          # of a vessel: a smaller loss is not worth a word


def temperature(value: Interval, fahrenheit: bool) -> str:
    """`75–80`, without the unit."""
    ends = [(end - 273.15) * 1.8 + 32 if fahrenheit else end - 273.15 for end in value[:2]]
    return span(ends[0], ends[1], 0) + ("?" if value.missing else "")


def span(low: float, high: float, digits: int) -> str:
    first, last = f"{low:.{digits}f}".replace("-", "\u2212"), f"{high:.{digits}f}".replace("-", "\u2212")
    return first if first == last else f"{first}–{last}"


def warmth(stop: Stop, fahrenheit: bool) -> str:
    """`20–25 → 75–80`, or one of them where nothing changes."""
    start, end = temperature(stop.moment.start, fahrenheit), temperature(stop.moment.end, fahrenheit)
    return end if start == end else f"{start} → {end}"


def time(value: Interval) -> str:
    """`25 min`, `20–25 min`, `20 min or more`."""
    low, high = value.low / 60, value.high / 60
    if high == INFINITY:
        return f"{_minutes(low)} or more" if low else "?"
    return _minutes(high) if _minutes(low) == _minutes(high) else f"{_minutes(low)} to {_minutes(high)}"


def _minutes(value: float) -> str:
    if value >= 2880:
        return f"{value / 1440:.0f} days"
    return f"{value:.0f} min" if value < 180 else f"{value / 60:.1f} h"


def held(stop: Stop) -> str:
    """`40 kg: water 80 %, oil 19 %`."""
    total = sum(stop.phases.values())
    shares = [(kind, mass / total) for kind, mass in sorted(stop.phases.items(), key=lambda one: -one[1])] if total else []
    return f"{weight(total)}: " + ", ".join(f"{PHASE[kind]} {share * 100:.3g} %" for kind, share in shares if share >= 0.0005)


def states(stop: Stop, names: dict[str, str]) -> list[str]:
    """What is true of it, the weightiest first. names: row code -> name."""
    moment, facts = stop.moment, stop.moment.facts
    out = []
    if facts.emulsified:
        inner = "oil in water" if facts.outside == "water" else "water in oil"
        out.append(f"{inner}, {stop.drops * 100:.0f} % in drops" if stop.drops is not None else inner)
    out += [word for word, true in (("polymer neutralised", facts.neutralised), ("clay opened", facts.activated)) if true]
    for state in (MOLTEN, SOFT, SETTING, SET, SOLID):
        found = [names.get(code, code) for code, how in stop.fats.items() if how == state]
        out += [f"{listed(found)} {state}"] if found else []
    out += [f"{weight(stop.melting)} of fat melts on the way"] if stop.melting else []
    swollen = [names.get(code, code) for code, done in stop.gums.items() if done]
    out += [f"{listed(swollen)} hydrated"] if swollen else []
    out += [f"pH {span(*stop.pH[:2], 1)}"] if not stop.pH.missing else []
    out += [f"alcohol {stop.alcohol * 100:.0f} %"] if stop.alcohol else []
    out += [f"salt {stop.electrolyte * 100:.2g} % of the water"] if stop.electrolyte >= 0.0005 else []
    out += [COVER[moment.cover]] if moment.cover in COVER else []
    total = sum(stop.phases.values())
    if stop.lost.high > LITTLE * total:
        known = stop.lost.high < sum(mass for kind, mass in stop.phases.items() if kind == "water")
        least = f"{weight(stop.lost.low)} to " if stop.lost.low > LITTLE * total else "up to "
        out.append(f"water lost: {least}{weight(stop.lost.high)}" if known else "water lost: how much is not known")
    return out
