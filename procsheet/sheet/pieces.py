"""Pieces of text: joined, listed, with a capital, as a sentence."""

import re


def line(*pieces: str, by: str = " ") -> str:
    """The pieces that say something, joined."""
    return by.join(filter(None, pieces))


def listed(words: list[str]) -> str:
    """`A, B and C`."""
    return f"{', '.join(words[:-1])} and {words[-1]}" if len(words) > 1 else "".join(words)


def sentence(text: str) -> str:
    """With a capital and a full stop."""
    return f"{capital(text)}{'' if text.endswith(('.', '!', '?')) else '.'}" if text else ""


def capital(text: str) -> str:
    """`Xanthan gum`; a name such as `d-panthenol` or `pH` keeps its first letter."""
    return text if text[1:2] and text[1:2] in "-H" else text[:1].upper() + text[1:]


def spoken(name: str) -> str:
    """The name of an option, without its dashes: `by-paddle`, `pre-wetted`."""
    return re.sub(r"(?<!\bpre)(?<!\bnon)(?<!\bself)-", " ", name)


def plural(word: str, count: int) -> str:
    return word if count == 1 else f"{word}es" if word.endswith(("s", "x", "ch")) else f"{word}s"


def numbered(numbers: list[int]) -> str:
    """`step 5`, `steps 5 and 7`, `steps 5 to 8 and 10`."""
    numbers = sorted(set(numbers))
    told = [text for run in _runs(numbers) for text in ([f"{run[0]} to {run[-1]}"] if len(run) > 2 else map(str, run))]
    return f"step{'s' if len(numbers) > 1 else ''} {listed(told)}"


def _runs(numbers: list[int]) -> list[list[int]]:
    """Numbers that follow each other, together."""
    runs: list[list[int]] = []
    for number in numbers:
        if runs and runs[-1][-1] == number - 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    return runs
