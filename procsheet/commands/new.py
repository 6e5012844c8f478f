"""Begin a method that passes."""

from pathlib import Path

from procsheet.commands.common import OK, Unusable, write


def run(chosen) -> int:
    import re
    name = " ".join(chosen.name.split())
    stem = re.sub(r"[^a-z0-9]+", "-", name.lower()).strip("-") or "new"
    target = Path(chosen.output or f"{stem}.method")
    if target.exists():
        raise Unusable(f"{target} is there already; nothing was changed")
    starter = (Path(__file__).parents[1] / "starter.method").read_text(encoding="utf-8")
    write(target, starter.replace("PRODUCT", name))
    print(f"{target}: change what is yours, then: procsheet check {target}")
    return OK
