"""Write files in the usual layout."""

import sys
from pathlib import Path

from procsheet.commands.common import OK, STOPPED, coloured, read, write


def run(chosen) -> int:
    from procsheet.show import show
    from procsheet.syntax.format import formatted
    changed = broken = False
    for name in chosen.files:
        text, _ = read(name)
        result, findings = formatted(text)
        if findings:
            broken = True
            print("\n\n".join(show(finding, {text.name: text}, colour=coloured(sys.stderr)) for finding in findings), file=sys.stderr)
        elif name == "-":
            sys.stdout.write(result)
        elif result != text.text:
            changed = True
            print(name)
            if not chosen.check:
                write(Path(name), result)
    return STOPPED if broken or (changed and chosen.check) else OK
