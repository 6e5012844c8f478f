"""What differs between a batch where it was proven and the same in another plant or size."""

from procsheet.commands.common import OK, Unusable, compiled, read

SAYS = "Read from both traces. It shows what differs and claims no equivalence; a trial batch decides."


def run(chosen) -> int:
    from procsheet.journey.differences import differences
    from procsheet.model.files import Files
    from procsheet.pipeline import proven
    made = compiled(chosen.file, chosen)
    if made.batch is None:
        raise Unusable(f"{chosen.file} could not be followed to its end; procsheet check {chosen.file} says why")
    bench = proven(made.written, Files(read(chosen.file)[1]), made.tree)
    if bench is None:
        raise Unusable(f"{chosen.file} names no plant it was proven on; write it like: proven on \"bench.plant\"")
    found = differences(bench, made.batch)
    if chosen.json:
        import json
        print(json.dumps([_data(one) for one in found], ensure_ascii=False, indent=1))
    else:
        print("\n".join(told(bench, made.batch, found)))
    return OK


def _data(one) -> dict:
    ends = {name: None if value is None else list(value[:2]) for name, value in (("proven", one.proven), ("here", one.here))}
    return {"step": one.step, "what": one.what, "of": one.of, "unit": one.unit, **ends, "ratio": one.ratio, "marked": one.marked, "advice": one.advice}


def told(bench, here, found) -> list[str]:
    """A table: step, what, both figures, their ratio; `!` where it lies outside 0.7 to 1.4."""
    names = [f"{batch.plan.plant.name or 'no plant'}, {float(batch.plan.mass):.4g} kg" for batch in (bench, here)]
    rows = [("step", "what", "of", *names, "ratio", ""),
            *((str(one.step or ""), one.what, one.of, shown(one.proven, one.unit), shown(one.here, one.unit), _ratio(one), one.advice) for one in found)]
    wide = [max(len(row[at]) for row in rows) for at in range(6)]
    return [*("  ".join(f"{cell:<{wide[at]}}" if at < 6 else cell for at, cell in enumerate(row)).rstrip() for row in rows), "", SAYS]


def _ratio(one) -> str:
    return "" if one.ratio is None else f"{one.ratio:.2g}{' !' if one.marked else ''}"


def shown(value, unit: str) -> str:
    """A figure with its unit; times in minutes or hours; `?` where it is not known."""
    from procsheet.intervals import INFINITY
    if value is None:
        return "?"
    if unit == "s":
        return _time(value)
    low, high = f"{value.low:.3g}", "any" if value.high == INFINITY else f"{value.high:.3g}"
    return f"{low if low == high else f'{low}–{high}'} {unit}".strip()


def _time(value) -> str:
    from procsheet.intervals import INFINITY
    high = value.high if value.high != INFINITY else value.low
    size, unit = (3600, "h") if high >= 7200 else (60, "min")
    low, high = f"{value.low / size:.2g}", "?" if value.high == INFINITY else f"{value.high / size:.2g}"
    return f"{low if low == high else f'{low}–{high}'} {unit}"
