"""Labels and tables of a recipe, and a code read back from how it is drawn."""

import re

from procsheet.labels.label import Labels, labels
from procsheet.pipeline import Compiled, Request, compile_method
from procsheet.plan.size import read_size
from procsheet.source import source
from tests.made import RECIPES

STROKE = re.compile(r"([Mmh])(-?[\d.]+)(?: ?(-?[\d.]+))?")


def recipe(name: str, size: str = "150 kg") -> Compiled:
    path = RECIPES / f"{name}.method"
    return compile_method(source(path.name, path.read_text(encoding="utf-8")), RECIPES, Request(order=read_size(size), plant=RECIPES / "plants" / "filler.plant"))


def cream(number: str = "H26-0412") -> Labels:
    return labels(recipe("harbour-hand-cream"), number)


def squares(svg: str) -> list[list[bool]]:
    """The dark squares of a code, row by row, its white margin included: the strokes of its path walked."""
    wide = int(re.search(r'viewBox="0 0 (\d+) \1"', svg)[1])
    dark = [[False] * wide for _ in range(wide)]
    x = y = 0.0
    for kind, first, second in STROKE.findall(re.search(r' d="([^"]+)"', svg)[1]):
        if kind == "h":
            for at in range(int(x), int(x + float(first))):
                dark[int(y)][at] = True
            x += float(first)
        else:
            x, y = (float(first), float(second)) if kind == "M" else (x + float(first), y + float(second))
    return dark
