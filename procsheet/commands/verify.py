"""Make the papers anew from what is inside a PDF, and tell what differs."""

import json
import tempfile
from io import BytesIO
from pathlib import Path
from types import SimpleNamespace

from procsheet.commands.common import OK, STOPPED, Unusable

ESCAPES = ("..", ":", "\\")


def run(chosen) -> int:
    inside = enclosed_in(Path(chosen.key or chosen.file))
    if "asked.json" not in inside:
        raise Unusable(f"{chosen.key or chosen.file} holds no method to make it anew from{'' if chosen.key else '; of a coded copy its key does: --key FILE'}")
    found = differences(inside, Path(chosen.file).read_bytes())
    print("\n".join(found) if found else f"{chosen.file}: made anew from the method inside, the same: content {json.loads(inside['asked.json'])['digest']}")
    return STOPPED if found else OK


def enclosed_in(path: Path) -> dict[str, bytes]:
    """The files inside a PDF, by name."""
    from pypdf import PdfReader
    from pypdf.errors import PyPdfError
    try:
        reader = PdfReader(BytesIO(path.read_bytes()))
        return {name: content[0] for name, content in reader.attachments.items()}
    except FileNotFoundError:
        raise Unusable(f"{path} is not there") from None
    except (OSError, PyPdfError, ValueError, KeyError, AttributeError):
        raise Unusable(f"{path} is no PDF that can be read") from None


def differences(inside: dict[str, bytes], pdf: bytes) -> list[str]:
    """What does not agree, in words; nothing where all does."""
    from procsheet import __version__
    from procsheet.sheet.digest import digest
    asked = json.loads(inside["asked.json"])
    with tempfile.TemporaryDirectory() as folder:
        made, html = _made(inside, asked, Path(folder))
        if made.batch is None or made.stops:
            return ["the method inside cannot be made into papers any more", *(f"  {finding.level} {finding.name}: {finding.title}" for finding in made.findings if finding.level == "STOP")]
        now = digest(made)
        out = [] if asked["procsheet"] == __version__ else [f"made with procsheet {asked['procsheet']}, checked with {__version__}"]
        if now != asked["digest"]:
            out.append(f"content: {asked['digest']} when it was made, {now} now: the material data or the program changed since")
        return out + _pages(pdf, html)


def _made(inside: dict[str, bytes], asked: dict, folder: Path):
    """The method inside compiled again as it was asked for, and its pages."""
    from procsheet.commands.common import compiled
    from procsheet.commands import confidential, sheet
    for name, content in inside.items():
        if not name.startswith(("source/", "plant/")) or any(one in name for one in ESCAPES) or Path(name).is_absolute():
            continue
        target = folder / name
        target.parent.mkdir(parents=True, exist_ok=True)
        target.write_bytes(content)
    chosen = SimpleNamespace(**{**asked, "plant": str(folder / "plant" / asked["plant"]) if asked["plant"] else None})
    made = compiled(str(folder / "source" / asked["method"]), chosen)
    page = confidential.page if asked.get("coded") else sheet.page
    return made, page(made, chosen) if made.batch is not None and not made.stops else ""


def _pages(pdf: bytes, html: str) -> list[str]:
    """Pages whose words are not those that are made now."""
    from procsheet.sheet.pdf import PdfNotPossible, to_pdf
    try:
        anew = to_pdf(html)
    except PdfNotPossible:
        return []
    was, now = _words(pdf), _words(anew)
    out = [f"page {number}: says something else than the method inside" for number, (one, other) in enumerate(zip(was, now), 1) if one != other]
    return out + ([f"{len(was)} pages here, {len(now)} when made anew"] if len(was) != len(now) else [])


def _words(pdf: bytes) -> list[list[str]]:
    from pypdf import PdfReader
    return [page.extract_text().split() for page in PdfReader(BytesIO(pdf)).pages]
