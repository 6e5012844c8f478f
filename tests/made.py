"""Short ways to a compiled method in a test."""

from fractions import Fraction
from pathlib import Path

from procsheet.pipeline import Compiled, Request, compile_method
from procsheet.source import source

HERE = Path(__file__).parent
RECIPES = HERE.parent / "recipes"

HAND_CREAM = (HERE / "hand-cream.method").read_text(encoding="utf-8")


def compiled(text: str, request: Request = Request(), folder: Path = HERE) -> Compiled:
    return compile_method(source("test.method", text), folder, request)


def method(phases: str, steps: str, *, kind: str = "gel", basis: str = "1 kg", vessels: str = "main side pail", more: str = "") -> str:
    """The text of a method from its phases and steps."""
    places = "\n".join(f"vessel {name}" for name in vessels.split())
    return f"product Test\ntype {kind}\nbasis {basis}\n\n{phases}\n\n{places}\n\nmethod\n{steps}\n{more}"


def grams(amount: Fraction) -> float:
    return float(amount * 1000)


def told(made: Compiled, *levels: str) -> list[str]:
    """The names of what was found, gravest levels only if asked."""
    return [one.name for finding in made.findings for one in (finding, *finding.folded) if not levels or one.level in levels]
