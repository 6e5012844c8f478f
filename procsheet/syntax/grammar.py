"""The grammar, read from its file and kept for the user."""

import hashlib
from functools import lru_cache
from pathlib import Path

from lark import Lark, Transformer
from lark.lexer import Lexer

from procsheet import cache

STARTS = ["step", "row", "limit", "block", "entry"]


class Nothing(Lexer):
    """The words are made by tokens.py; lark is handed them ready."""

    def __init__(self, conf):
        pass

    def lex(self, data):
        return iter(data)


def grammar_dir() -> Path:
    """Where the grammar and its pages lie, in a checkout or in an installed copy."""
    here = Path(__file__).resolve().parents[1]
    return here / "grammar" if (here / "grammar").is_dir() else here.parent / "grammar"


@lru_cache(maxsize=1)
def parser(builder: Transformer) -> Lark:
    """The grammar ready to read lines, made in about 70 ms, or in a tenth of that from the user's cache."""
    text = (grammar_dir() / "procsheet.lark").read_text(encoding="utf-8")
    return Lark(text, parser="lalr", lexer=Nothing, start=STARTS, transformer=builder, cache=_cache_file(text))


def _cache_file(text: str) -> str | bool:
    """A file of its own for each grammar and user; False where there is no place to keep it."""
    folder = cache.folder()
    return False if folder is None else str(folder / f"grammar-{hashlib.sha256(text.encode()).hexdigest()[:16]}.lark")
