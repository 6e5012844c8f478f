"""Runs of words: joined, begun with a capital, ended with a full stop, counted."""

from procsheet.sheet.model import Run, Words
from procsheet.sheet.pieces import capital


def ended(runs: list[Run]) -> list[Run]:
    """With a full stop."""
    return [*runs, Run("." if not runs[-1].text.endswith(".") else "")] if runs else []


def capitalised(runs: list[Run]) -> list[Run]:
    first = next((index for index, run in enumerate(runs) if run.text.strip()), None)
    if first is None or runs[first].kind not in ("plain",):
        return runs
    return [*runs[:first], runs[first]._replace(text=capital(runs[first].text)), *runs[first + 1:]]


def joined(lists: list[list[Run]]) -> list[Run]:
    return capitalised([run for place, pieces in enumerate(lists) for run in ([Run(", ")] if place else []) + pieces])


def merged(runs: list[Run]) -> Words:
    """Neighbours of plain words are one run; nothing is empty."""
    out: list[Run] = []
    for run in runs:
        if not run.text and run.kind != "blank":
            continue
        if out and run.kind == "plain" == out[-1].kind:
            out[-1] = Run(out[-1].text + run.text)
        else:
            out.append(run)
    return tuple(out)


def count(runs: list[Run]) -> int:
    """Words as a reader counts them; a number with its unit is one."""
    text = " ".join("x" if run.kind in ("number", "vessel", "blank") else run.text for run in runs)
    return sum(any(char.isalnum() for char in word) for word in text.split())
