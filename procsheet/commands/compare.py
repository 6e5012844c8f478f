"""What changed from one method to another, and what that does."""

import sys
from pathlib import Path

from procsheet.commands.common import OK, STOPPED, Unusable, coloured, compiled, write


def run(chosen) -> int:
    from procsheet.changes.compare import compare, unchanged_revision
    old, new = (compiled(name, chosen) for name in (chosen.old, chosen.new))
    for made, name in ((old, chosen.old), (new, chosen.new)):
        if made.method is None:
            raise Unusable(f"{name} could not be read; procsheet check {name} says why")
    changes = compare(old, new)
    unnumbered = unchanged_revision(changes, new)
    if chosen.json:
        import json
        print(json.dumps({"old": changes.old, "new": changes.new, "changes": [one._asdict() for one in changes.changes]}, ensure_ascii=False, indent=1))
    elif chosen.output:
        from procsheet.changes.page import page
        write(Path(chosen.output), page(changes, new.method.header.revision_reason))
        print(chosen.output)
    else:
        print("\n".join(told(changes)))
    if unnumbered is not None:
        from procsheet.show import show
        print("\n" + show(unnumbered, {new.source.name: new.source}, colour=coloured(sys.stdout)), file=sys.stderr if chosen.json or chosen.output else sys.stdout)
    return STOPPED if unnumbered is not None or new.stops else OK


def told(changes) -> list[str]:
    """One line a change, under the heading of its section."""
    from procsheet.show import wrap
    out = [f"from {changes.old}", f"to   {changes.new}"]
    section = ""
    for one in changes.changes:
        if one.section != section:
            section = one.section
            out += ["", section]
        out += wrap(one.said + (f" (line {one.line})" if one.line else ""), "  ", "    ")
    return [*out, "", f"{len(changes.content)} change{'s' if len(changes.content) != 1 else ''} of content" if changes.changes else "nothing changed"]
