"""What goes along inside the PDF: every text the papers were made from, what was asked for, and the compiled batch for machines."""

import json
from fractions import Fraction
from pathlib import Path
from typing import NamedTuple

from procsheet import __version__
from procsheet.show import as_data as finding_as_data
from procsheet.sheet.digest import digest

METHOD, ASKED, COMPILED = "method", "asked.json", "compiled.json"
SCHEMA = 1                              # of both JSON files; counted up when a name in them changes its meaning


class Enclosed(NamedTuple):
    """A file inside the PDF. relation: as PDF/A-3 calls it."""

    name: str
    content: bytes
    what: str
    relation: str                       # 'Source', 'Data' or 'Supplement'


def enclosed(compiled, asked: dict) -> tuple[Enclosed, ...]:
    """Method, house data, plant and other methods under their own names; `asked` is what the command was given."""
    name = Path(compiled.source.name).name if compiled.source.name.endswith(".method") else f"{METHOD}.method"
    texts = [Enclosed(f"source/{shown}", path.read_bytes(), "what the papers were made from", "Source") for shown, path in sorted(compiled.files.items())]
    plant = [Enclosed(f"plant/{Path(asked['plant']).name}", Path(asked["plant"]).read_bytes(), "the plant it is planned for", "Source")] if asked.get("plant") else []
    told = {**asked, "plant": Path(asked["plant"]).name if asked.get("plant") else None, "method": name, "digest": digest(compiled), "procsheet": __version__, "schema": SCHEMA}
    return (Enclosed(f"source/{name}", compiled.source.text.encode(), "the method", "Source"), *texts, *plant, Enclosed(ASKED, _json(told), "what was asked for", "Supplement"),
            Enclosed(COMPILED, _without_paths(_json(as_data(compiled)), compiled.source.name, asked.get("plant")), "the compiled batch for machines", "Data"))


def _without_paths(content: bytes, *paths: str | None) -> bytes:
    """Files by their names alone: where they lay on whose machine is nobody's business."""
    for path in filter(None, paths):
        content = content.replace(json.dumps(path)[1:-1].encode(), Path(path).name.encode())
    return content


def _json(value) -> bytes:
    return json.dumps(value, ensure_ascii=False, indent=1, sort_keys=True).encode()


def as_data(compiled) -> dict:
    """The compiled batch: masses in kg, temperatures in K, times in s. Names and meanings stand in DEVELOPERS.md."""
    batch, method = compiled.batch, compiled.method
    return {"schema": SCHEMA, "product": method.header.product, "code": method.header.code, "revision": method.header.revision, "type": method.header.type,
            "mass": float(batch.plan.mass), "plant": batch.plan.plant.name, "vessels": {name: kettle.tag for name, kettle in batch.plan.kettles.items() if kettle},
            "formula": [{"code": row.code, "phase": row.phase, "material": row.name, "share": _share(row.mass, method), "kind": row.kind} for row in method.rows],
            "weighing": [{"row": line.row.code, "use": line.use, "target": float(line.target), "least": _or_none(line.low), "most": _or_none(line.high), "unit": "m3" if line.row.measured == "volume" else "kg",
                          "balance": line.balance, "step": line.step} for line in batch.plan.lines],
            "steps": [{"step": moment.step.number, "part": moment.part, "verb": moment.step.verb, "vessel": moment.vessel, "start": _ends(moment.start), "end": _ends(moment.end),
                       "lasts": _ends(moment.duration), "cover": moment.cover, "mass": moment.mass} for moment in batch.trace.moments],
            "findings": [finding_as_data(finding) for finding in compiled.findings],
            "signed": [{"finding": finding_as_data(one.finding), "reason": one.reason, "by": one.by} for one in compiled.signed]}


def _share(mass: Fraction | None, method) -> float | None:
    return float(mass / method.mass) if mass is not None and method.mass else None


def _or_none(value: Fraction | None) -> float | None:
    return None if value is None else float(value)


def _ends(value) -> list[float | None] | None:
    return None if value is None else [end if abs(end) < 1e300 else None for end in value[:2]]
