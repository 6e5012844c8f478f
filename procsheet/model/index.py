"""Where each name of the materials files is told.

Made on first use and again when a file changes, and kept in the user's cache: a check then opens no materials file at all, and reads only the
blocks of the materials it names, however many there are.
"""

import hashlib
import os
import re
import sqlite3
import tempfile
from functools import lru_cache
from pathlib import Path
from typing import NamedTuple

from procsheet import cache
from procsheet.model import material
from procsheet.model.material import fold
from procsheet.source import Source, source

HEAD = re.compile(r"^(?:(material|kind|rule)[ \t]+(.+?)|[ \t]+(also called|INCI)[ \t]+(.+?))[ \t]*(?:#.*|--.*)?$", re.MULTILINE)
BLOCK_END = re.compile(r"^[^\s#]", re.MULTILINE)
TABLES = """CREATE TABLE blocks (id INTEGER PRIMARY KEY, file TEXT, line INTEGER, text TEXT);
CREATE TABLE names (name TEXT, what TEXT, block INTEGER, PRIMARY KEY (name, what, block)) WITHOUT ROWID;
CREATE INDEX sorts ON names (what);"""


class Told(NamedTuple):
    """A block as it is written: its file, the line it begins on, its text."""

    file: str
    line: int
    text: str


class Index:
    """The names of some files, and the blocks they stand for. what: 'material', 'INCI', 'kind' or 'rule'."""

    def __init__(self, blocks: sqlite3.Connection, files: tuple[tuple[str, Path], ...] = ()):
        self.blocks, self.files = blocks, files

    def told(self, what: str, name: str) -> tuple[Told, ...]:
        """The blocks of a folded name, in the order they are written."""
        found = self.blocks.execute("SELECT file, line, text FROM names JOIN blocks ON id = block WHERE name = ? AND what = ? ORDER BY block", (name, what))
        return tuple(Told(*row) for row in found)

    def names(self, *what: str) -> list[str]:
        """Every folded name of these sorts."""
        return [row[0] for one in what for row in self.blocks.execute("SELECT DISTINCT name FROM names WHERE what = ?", (one,))]

    def all(self, what: str) -> list[Told]:
        """Every block of a sort, once."""
        return [Told(*row) for row in self.blocks.execute("SELECT DISTINCT file, line, text FROM names JOIN blocks ON id = block WHERE what = ? ORDER BY id", (what,))]


def index(*files: Source) -> Index:
    """The index of some texts, kept nowhere."""
    blocks = sqlite3.connect(":memory:", check_same_thread=False)
    _fill(blocks, files)
    return Index(blocks)


def opened(files: tuple[tuple[str, Path], ...]) -> Index:
    """The index of some files, each with the name findings call it by. Raises OSError or UnicodeDecodeError where one cannot be read."""
    return _opened(files, tuple(_state(path) for _, path in files))


@lru_cache(maxsize=32)
def _opened(files: tuple[tuple[str, Path], ...], state: tuple) -> Index:
    place = cache.folder()
    if place is None:
        return _afresh(files)
    who = _short([(name, str(path.resolve())) for name, path in files])
    kept = place / f"materials-{who}-{_short([state, _state(Path(__file__)), _state(Path(material.__file__))])}.sqlite"
    if not kept.exists():
        try:
            _keep(kept, files, place.glob(f"materials-{who}-*.sqlite"))
        except (OSError, sqlite3.Error):
            return _afresh(files)
    try:
        blocks = sqlite3.connect(f"{kept.as_uri()}?immutable=1", uri=True, check_same_thread=False)
        blocks.execute("SELECT 1 FROM names LIMIT 1").fetchone()
    except sqlite3.Error:
        return _afresh(files)
    return Index(blocks, files)


def _afresh(files: tuple[tuple[str, Path], ...]) -> Index:
    made = index(*_read(files))
    made.files = files
    return made


def _read(files: tuple[tuple[str, Path], ...]) -> list[Source]:
    return [source(name, path.read_text(encoding="utf-8-sig")) for name, path in files]


def _state(path: Path) -> tuple[int, int, int]:
    stat = path.stat()
    return stat.st_size, stat.st_mtime_ns, stat.st_ino


def _short(value) -> str:
    return hashlib.sha256(repr(value).encode()).hexdigest()[:16]


def _keep(kept: Path, files: tuple[tuple[str, Path], ...], old) -> None:
    """Write an index whole, then take those of earlier states away."""
    texts, old = _read(files), [one for one in old if one != kept]
    handle, name = tempfile.mkstemp(dir=kept.parent, prefix=".materials-")
    os.close(handle)
    try:
        blocks = sqlite3.connect(name)
        _fill(blocks, texts)
        blocks.commit()
        blocks.close()
        os.replace(name, kept)
    finally:
        Path(name).unlink(missing_ok=True)
    for one in old:
        one.unlink(missing_ok=True)


def _fill(blocks: sqlite3.Connection, files) -> None:
    blocks.executescript(TABLES)
    for file in files:
        for told, names in _blocks(file):
            made = blocks.execute("INSERT INTO blocks (file, line, text) VALUES (?, ?, ?)", told).lastrowid
            blocks.executemany("INSERT OR IGNORE INTO names VALUES (?, ?, ?)", [(name, what, made) for name, what in names])


def _blocks(file: Source):
    """Each block of a file with the names it goes by."""
    heads = [match for match in HEAD.finditer(file.text) if match[1]]
    line, at = 1, 0
    for match in heads:
        line, at = line + file.text.count("\n", at, match.start()), match.start()
        end = BLOCK_END.search(file.text, match.end())
        text = file.text[match.start():end.start() if end else len(file.text)]
        yield Told(file.name, line, text.rstrip("\n")), _names(text)


def _names(block: str) -> list[tuple[str, str]]:
    out, kind = [], ""
    for match in HEAD.finditer(block):
        kind = kind or match[1]
        if match[1] or kind == "material":
            name = (match[2] or match[4]).split(' from "')[0].removesuffix(" from memory").strip().strip('"')
            out.append((fold(name), match[1] or ("INCI" if match[3] == "INCI" else "material")))
    return out
