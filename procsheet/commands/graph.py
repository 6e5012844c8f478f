"""Draw the flow from materials to product."""

import sys
from pathlib import Path

from procsheet.commands.check import report
from procsheet.commands.common import OK, STOPPED, compiled, stem, write


def run(chosen) -> int:
    chosen.batch = chosen.units = chosen.plant = None
    chosen.choose = chosen.without = chosen.vessel = []
    made = compiled(chosen.file, chosen)
    if made.batch is None:
        print(report(made, False), file=sys.stderr)
        return STOPPED
    if chosen.why:
        from procsheet.reasons import reasons, told
        print("\n".join(told(made.batch, reasons(made.batch))))
        return OK
    if chosen.json:
        import json
        from procsheet.graph.picture import as_data
        print(json.dumps(as_data(made.batch.graph), ensure_ascii=False, indent=1))
        return OK
    from procsheet.graph.picture import draw
    picture = draw(made.batch.graph)
    if chosen.output == "-":
        sys.stdout.write(picture)
        return OK
    target = Path(chosen.output or f"{stem(chosen.file)}.svg")
    write(target, picture)
    print(target)
    return OK
