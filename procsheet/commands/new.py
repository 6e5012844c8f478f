"""Begin a method that passes, or a material's block to fill in from its supplier's sheet."""

import re
from pathlib import Path

from procsheet.commands.common import OK, Unusable, write


def run(chosen) -> int:
    if chosen.name[0] == "material" and len(chosen.name) > 1:
        return _material(" ".join(" ".join(chosen.name[1:]).split()), chosen)
    name = " ".join(" ".join(chosen.name).split())
    target = Path(chosen.output or f"{_stem(name)}.method")
    if target.exists():
        raise Unusable(f"{target} is there already; nothing was changed")
    starter = (Path(__file__).parents[1] / "starter.method").read_text(encoding="utf-8")
    write(target, starter.replace("PRODUCT", name))
    print(f"{target}: change what is yours, then: procsheet check {target}")
    return OK


def _stem(name: str) -> str:
    return re.sub(r"[^a-z0-9]+", "-", name.lower()).strip("-") or "new"


def _material(name: str, chosen) -> int:
    """A block with every line a supplier's sheet may fill, the decisive ones first; added to a materials file that is there."""
    from procsheet.commands.common import read
    from procsheet.model.index import index
    from procsheet.model.material import fold
    target = Path(chosen.output or f"{_stem(name)}.materials")
    before = read(str(target))[0] if target.exists() else None
    if before is not None and index(before).told("material", fold(name)):
        raise Unusable(f"{target} has a block of {name} already; nothing was changed")
    text = block(name, chosen.kind)
    write(target, f"{before.text.rstrip()}\n\n{text}" if before is not None else text)
    print(f"{target}: fill in what the supplier's sheet says, take the # away, and name the file in the method: materials \"{target.name}\"")
    return OK


ASKED = ("INCI", "CAS", "form", "dissolves in", "melts", "flash point", "density", "add below", "never above", "shear", "pH", "own pH", "hydrates for", "pre-wet in",
         "never with", "use", "limit", "assay", "composed of", "hazard", "weigh as", "supplier", "pack")


def block(name: str, kind: str) -> str:
    """The block as text."""
    from procsheet.model.library import Library, decisive, shipped
    from procsheet.syntax.properties import MATERIAL
    from procsheet.syntax.slips import did_you_mean
    library = Library(shipped())
    known = library.kind(kind) if kind else None
    if kind and known is None:
        raise Unusable(f"there is no kind called {kind}. {did_you_mean(kind, library.kinds())}")
    rows = {row.name: row for row in MATERIAL}
    first = [rows[key] for key in decisive(line for line in (known.lines if known else ()) if line.key == "decisive")]
    rest = [rows[key] for key in ASKED if rows[key] not in first]
    lines = [f"material {name}", f"    kind {kind}" if known else _asked(rows["kind"], "")]
    lines += [_asked(row, "; the checks of its kind cannot do without it") for row in first] + [_asked(row, "") for row in rest]
    return ("# From the supplier's sheet: put the true figure in place of each example, name the sheet, take the # away.\n"
            '# A figure is told with its source: density 0.82 g/mL at 60 °C from "supplier data sheet of March 2026" (supplier)\n' + "\n".join(lines) + "\n")


def _asked(row, more: str) -> str:
    return f"    # {row.example or row.form:<48}  -- {row.meaning}{more}"
