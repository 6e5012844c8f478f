"""What each kettle and each material lives through, step by step."""

import shutil
import sys
from pathlib import Path

from procsheet.commands.check import report
from procsheet.commands.common import OK, STOPPED, Unusable, compiled, write


def run(chosen) -> int:
    """Every course's table, or data, or one picture. A method with mistakes is walked all the same; what is wrong with it `check` says."""
    from procsheet.journey.stops import stops
    made = compiled(chosen.file, chosen)
    if not made.batches:
        print(report(made, False), file=sys.stderr)
        return STOPPED
    walked = [(batch, stops(batch, made.source), _lives(batch, chosen.material)) for batch in made.batches]
    if chosen.material and not any(lives for _, _, lives in walked):
        raise Unusable(_no_material(made, chosen.material))
    if chosen.json:
        print(_data(made, walked))
    elif chosen.output:
        _picture(made, next((one for one in walked if one[2]), walked[0]), chosen.output)
    else:
        print("\n\n".join(_told(made, *one) for one in walked))
    return OK


def _lives(batch, name: str) -> list:
    """The lives of every portion of a material that is asked for."""
    from procsheet.model.material import fold
    from procsheet.trace.life import life
    wanted = fold(name) if name else ""
    return [life(batch.trace, one) for one in batch.trace.exposures
            if wanted and (wanted == one.row.code.lower() or wanted in (fold(other) for other in (one.row.name, *one.material.names)))]


def _no_material(made, name: str) -> str:
    from procsheet.model.material import fold
    from procsheet.syntax.slips import did_you_mean
    known = [row.name for row in made.method.rows]
    if any(fold(name) in (row.code.lower(), *map(fold, (row.name, *row.material.names))) for row in made.method.rows):
        return f"{name} stands in the formula, but no step puts it into a vessel"
    return f"nothing called {name} goes into a vessel. {did_you_mean(name, known, 'Name it as the formula does, or by its code, such as A1.')}"


def _told(made, batch, stops, lives) -> str:
    from procsheet.journey.table import life_told, table
    from procsheet.rules.scale import is_fahrenheit
    width = shutil.get_terminal_size((120, 24)).columns if sys.stdout.isatty() else 120
    course = ", ".join(batch.graph.course.name)
    head = f"{made.method.header.product or made.source.name}, {float(batch.plan.mass):.4g} kg{f', {course}' if course else ''}"
    fahrenheit = is_fahrenheit(made.source.text)
    if lives:
        names = {code: row.name for code, row in batch.graph.rows.items()}
        return "\n\n".join([head, *(life_told(one, names, fahrenheit=fahrenheit) for one in lives)])
    return f"{head}\n\n{table(stops, batch.graph.rows, width=width, fahrenheit=fahrenheit)}"


def _data(made, walked) -> str:
    import json

    from procsheet.journey.data import as_data, life_as_data
    return json.dumps([{"course": list(batch.graph.course.name), "kg": float(batch.plan.mass), "stops": as_data(stops), "lives": [life_as_data(one) for one in lives]}
                       for batch, stops, lives in walked], ensure_ascii=False, indent=1)


def _picture(made, one, output: str) -> None:
    from procsheet.journey.picture import draw
    from procsheet.rules.scale import is_fahrenheit
    batch, stops, lives = one
    picture = draw(stops, batch.graph, lives=tuple(lives), fahrenheit=is_fahrenheit(made.source.text))
    if output == "-":
        sys.stdout.write(picture)
        return
    write(Path(output), picture)
    print(output)
