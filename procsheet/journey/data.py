"""The stops and lives for machines: °C, s, kg, m³, m/s; every range as [least, most], null where there is no end."""

from procsheet.intervals import INFINITY, Interval
from procsheet.journey.stops import Stop
from procsheet.trace.life import Life


def as_data(stops: tuple[Stop, ...]) -> list[dict]:
    return [_stop(stop) for stop in stops]


def _stop(stop: Stop) -> dict:
    moment = stop.moment
    return {"line": stop.line, "step": moment.step.number, "part": moment.part, "vessel": moment.vessel, "verb": moment.step.verb, "words": stop.words,
            "celsius": {"start": celsius(moment.start), "end": celsius(moment.end), "missing": moment.end.missing},
            "seconds": {"begins": ends(stop.begins), "ends": ends(stop.ends), "missing": stop.ends.missing},
            "shear": {"least": int(moment.shear.rank.low), "most": int(moment.shear.rank.high), "tip_speed": ends(moment.shear.tip), "tools": list(moment.shear.tools)},
            "cover": moment.cover, "pascal": moment.pressure, "pH": ends(stop.pH) if not stop.pH.missing else None,
            "kg": {code: mass for code, mass in moment.contents.items()}, "volume": ends(stop.volume), "phases": stop.phases, "drops": stop.drops,
            "alcohol": stop.alcohol, "electrolyte": stop.electrolyte, "emulsified": moment.facts.emulsified, "outside": moment.facts.outside,
            "neutralised": moment.facts.neutralised, "activated": moment.facts.activated, "fats": stop.fats, "melting": stop.melting, "hydrated": stop.gums, "water_lost": ends(stop.lost)}


def life_as_data(life: Life) -> dict:
    return {"row": life.exposure.row.code, "material": life.exposure.row.name, "use": life.exposure.use, "lines": [moment.span.line for moment in life.path],
            "hottest": {"celsius": celsius(life.hottest.throughout), "line": life.hottest.span.line},
            "coldest": {"celsius": celsius(life.coldest.throughout), "line": life.coldest.span.line},
            "strongest": {"rank": int(life.strongest.shear.rank.high), "tip_speed": ends(life.strongest.shear.tip), "line": life.strongest.span.line},
            "pH": ends(life.pH) if not life.pH.missing else None, "seconds": ends(life.lasts), "meets": {code: moment.span.line for code, moment in life.meets.items()}}


def ends(value: Interval | None) -> list[float | None] | None:
    return None if value is None else [None if abs(end) == INFINITY else end for end in value[:2]]


def celsius(value: Interval) -> list[float]:
    return [round(end - 273.15, 3) for end in value[:2]]
