"""The files a method names: house materials, plants, other methods. Only its own folder and what lies below is read."""

from fractions import Fraction
from pathlib import Path
from typing import Callable

from procsheet.findings import Finding, Label
from procsheet.model.index import Index, opened
from procsheet.model.library import Library, shipped
from procsheet.model.material import Material, fold
from procsheet.source import Source, Span, source
from procsheet.syntax import tree
from procsheet.syntax.parse import parse_method
from procsheet.syntax.slips import slip

LARGEST = 4_000_000                     # bytes of a file that is read


class Files:
    """Reads what a method names, each file once, and keeps what was wrong."""

    def __init__(self, folder: Path):
        self.folder = folder
        self.findings: list[Finding] = []
        self.named: dict[str, Path] = {}                    # what was read: as it is written -> where it lies

    # ---- reading

    def read(self, path: str, span: Span, what: str) -> Source | None:
        """A named file below the method's folder, or None and a finding."""
        return self._opened(path, span, what, lambda target: read_source(target, path))

    def _index(self, word: tree.Text) -> Index | None:
        """The names of a house's materials file: it is read when it has changed, and else not opened."""
        return self._opened(word.text, word.span, "materials", lambda target: opened(((word.text, target),)))

    def _opened(self, path: str, span: Span, what: str, way: Callable[[Path], object]):
        from procsheet.model.resolve import inside
        if not inside(path):
            self.findings.append(slip(span, f"`{path}` lies outside the folder of this method", "Name a file in the same folder or below it."))
            return None
        target = self.folder / path
        try:
            if not target.resolve().is_relative_to(self.folder.resolve()):
                self.findings.append(slip(span, f"`{path}` leads outside the folder of this method", "Name a file in the same folder or below it."))
                return None
            found = way(target)
            self.named[path] = target
            return found
        except (OSError, UnicodeDecodeError, ValueError) as problem:
            self.findings.append(_cannot_read(path, what, span, problem))
            return None

    # ---- materials

    def library(self, parsed: tree.MethodTree) -> tuple[Library, dict]:
        """Where materials are looked for, and what is told of those that other methods make."""
        own: list[Index] = []
        for entry in parsed.header:
            if entry.key == "materials":
                for word in entry.words:
                    if isinstance(word, tree.Text) and (read := self._index(word)) is not None:
                        own.append(read)
        library = Library((*own, *shipped()))
        names = {row.name for phase in parsed.phases for row in phase.rows}
        return library, {fold(name): made for name in sorted(names) if (made := self.made(name, library, ())) is not None}

    def made(self, name: str, library: Library, path: tuple[str, ...]):
        """What another method makes this material of, and says of it; None where it is bought."""
        blocks, _, _ = library.find(name)
        made_from = next((line for block in blocks for line in block.lines if line.key == "made from"), None)
        file = next((word for word in made_from.words if isinstance(word, tree.Text)), None) if made_from is not None else None
        if file is None:
            return None
        if file.text in path:
            self.findings.append(Finding("STOP", "made-in-a-circle", "a material is made from itself: " + " → ".join([*path, file.text]), Label(file.span),
                                         why="Nobody can weigh it.", fix="Take one of the `made from` lines out.", cannot_be_accepted=True))
            return None
        read = self.read(file.text, file.span, "method")
        return self._from_method(read, library, (*path, file.text)) if read is not None else None

    def _from_method(self, written: Source, library: Library, path: tuple[str, ...]):
        from procsheet.model.resolve import Made, resolve
        parsed = parse_method(written).tree
        inner = {fold(row.name): made for phase in parsed.phases for row in phase.rows if (made := self.made(row.name, library, path)) is not None}
        method = resolve(parsed, library, made=inner).method
        dried = any(step.verb == "dry" and not step.has("optional") for step in method.steps())
        rows = [row for row in method.rows if row.mass and row.kind != "corrector" and not (dried and row.material.is_a("water"))]
        total = sum((row.mass for row in rows), Fraction(0)) or Fraction(1)
        shares: dict[str, tuple[Material, Fraction]] = {}
        for row in rows:
            for part, share in row.material.parts or ((row.material, Fraction(1)),):
                known = shares.get(part.name, (part, Fraction(0)))
                shares[part.name] = (part, known[1] + share * row.mass / total)
        return Made(tuple(shares.values()), parsed.as_material)

    # ---- plants

    def plant_source(self, asked: Path | None, parsed: tree.MethodTree) -> tuple[Source | None, list[Finding]]:
        """The text of the plant asked for on the command line, else of the one the method was proven on."""
        if asked is not None:
            return read_source(asked, str(asked)), []
        entry = next((entry for entry in parsed.header if entry.key == "proven"), None)
        word = next((word for word in entry.words if isinstance(word, tree.Text)), None) if entry is not None else None
        if word is None:
            return None, []
        before = len(self.findings)
        read = self.read(word.text, word.span, "plant")
        wrong, self.findings = self.findings[before:], self.findings[:before]
        return read, wrong


def read_source(path: Path, name: str) -> Source:
    """A text file, UTF-8. Raises OSError, UnicodeDecodeError, or ValueError where it is no plausible text."""
    if path.stat().st_size > LARGEST:
        raise ValueError("is too large")
    return source(name, path.read_text(encoding="utf-8-sig"))


def _cannot_read(path: str, what: str, span: Span, problem: Exception) -> Finding:
    reason = "is not there" if isinstance(problem, FileNotFoundError) else "is no plain text" if isinstance(problem, UnicodeDecodeError) else "cannot be read"
    level = "WARN" if what == "plant" else "STOP"
    return Finding(level, "file-missing", f"the {what} file `{path}` {reason}", Label(span), fix="Put it beside the method, or correct its name.",
                   cannot_be_accepted=level == "STOP")

