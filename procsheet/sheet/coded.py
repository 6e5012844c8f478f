"""The confidential copy: codes in place of material names. The key is a sheet of its own, for the brand.

Amounts stay, since they are weighed; hazards stay, since people need them; plain water keeps its name. What another method makes stands as one
material already. Nothing of the method goes along inside the file.
"""

import re
from html import escape
from typing import NamedTuple

from procsheet.model.method import Method, Row
from procsheet.sheet.model import Sheet

LEAST = 8                               # letters of a single-word alias that is hidden: shorter ones are words of the trade, such as `salt`


class Key(NamedTuple):
    """A material and the code it goes by. hidden: every way of writing it that must not be read."""

    code: str
    name: str
    inci: str
    cas: str
    rows: tuple[str, ...]
    hidden: tuple[str, ...]


class Leak(Exception):
    """A hidden name is still to be read; nothing may be written."""


def keys(method: Method) -> tuple[Key, ...]:
    """One key a material, in the order of the formula; water has none."""
    found: dict[str, list[Row]] = {}
    for row in method.rows:
        if not row.material.is_a("water"):
            found.setdefault(row.material.name, []).append(row)
    return tuple(_key(f"RM-{number:02}", rows) for number, rows in enumerate(found.values(), 1))


def _key(code: str, rows: list[Row]) -> Key:
    material = rows[0].material
    inci = ", ".join(line.text for line in material.lines.get("INCI", ()))
    cas = ", ".join(line.text for line in material.lines.get("CAS", ()))
    names = [*(row.name for row in rows), material.name, *inci.split(", "), *cas.split(", "), *(name for name in material.names if " " in name or len(name) >= LEAST)]
    hidden = sorted({name.strip() for name in names if name.strip()} - {"Aqua"}, key=lambda name: (-len(name), name))
    return Key(code, rows[0].name, inci, cas, tuple(row.code for row in rows), tuple(hidden))


def coded(sheet: Sheet, known: tuple[Key, ...]) -> Sheet:
    """The sheet with every name in place of which a code stands."""
    pattern, codes = _pattern(known)
    return _replaced(sheet, lambda text: pattern.sub(lambda found: codes[found[0].lower()], text)) if codes else sheet


def _pattern(known: tuple[Key, ...]):
    codes = {name.lower(): key.code for key in reversed(known) for name in key.hidden}
    words = sorted(codes, key=len, reverse=True)
    return re.compile("|".join(rf"(?<![\w-]){re.escape(word)}(?:e?s)?(?![\w-])" if word[-1:].isalpha() else rf"(?<![\w-]){re.escape(word)}(?![\w])" for word in words) or "(?!)",
                      re.IGNORECASE), _with_plurals(codes)


def _with_plurals(codes: dict[str, str]) -> dict[str, str]:
    return {form: code for name, code in codes.items() for form in (name, f"{name}s", f"{name}es")}


def _replaced(value, change):
    """The same value, every string in it changed."""
    if isinstance(value, str):
        return change(value)
    if isinstance(value, tuple):
        parts = [_replaced(part, change) for part in value]
        return type(value)(*parts) if hasattr(value, "_fields") else tuple(parts)
    return value


def leaks(text: str, known: tuple[Key, ...]) -> list[str]:
    """Hidden names that can still be read in a text."""
    pattern, _ = _pattern(known)
    plain = " ".join(text.split())
    return sorted({found[0] for found in pattern.finditer(plain)})


def check(texts: list[str], known: tuple[Key, ...]) -> None:
    """Raises Leak where any of the texts tells a hidden name."""
    found = [name for text in texts for name in leaks(text, known)]
    if found:
        raise Leak(f"the coded copy would still tell: {', '.join(sorted(set(found)))}")


def key_sheet(method: Method, known: tuple[Key, ...], digest: str) -> str:
    """The key as a page of its own."""
    header = method.header
    rows = "".join(f"<tr><td>{key.code}</td><td>{', '.join(key.rows)}</td><td>{escape(key.name)}</td><td>{escape(key.inci)}</td><td>{escape(key.cas)}</td></tr>" for key in known)
    title = " ".join(filter(None, (header.code, header.product, "key")))
    return (f'<!DOCTYPE html><html lang="en"><head><meta charset="utf-8"><title>{escape(title)}</title><style>@page{{size:A4;margin:20mm}}'
            'body{font:10.5pt "IBM Plex Sans",Helvetica,Arial,sans-serif}table{width:100%;border-collapse:collapse}td,th{text-align:left;padding:1.5mm;border-bottom:.25pt solid #888}'
            f"tr{{break-inside:avoid}}h1{{font-size:16pt}}</style></head><body><h1>Key to the coded copy</h1><p>{escape(header.product)}, {escape(header.code)}, revision {escape(header.revision)}; "
            f"content {digest}.</p><p><b>Keep it apart from the papers.</b> It stays with the brand.</p><table><tr><th>Code</th><th>Row</th><th>Material</th><th>INCI</th><th>CAS</th></tr>{rows}</table>"
            "</body></html>\n")
