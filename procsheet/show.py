"""A finding as it is shown in a terminal, and as data."""

import textwrap

from procsheet.findings import Finding, Label
from procsheet.source import Source

WIDTH = 100
COLOURS = {"STOP": "\033[1;31m", "WARN": "\033[1;33m", "CAUTION": "\033[1;35m", "NOTE": "\033[36m", "OPEN": "\033[34m"}
PLAIN = "\033[0m"


def show(finding: Finding, sources: dict[str, Source], *, colour: bool = False) -> str:
    """The finding with its lines of text, `^` under the place to change and `~` under the places that make it so."""
    place = finding.at.span
    where = f"{place.file}:{place.line}:{place.column}" if place.line else place.file or "method"
    level = f"{COLOURS[finding.level]}{finding.level}{PLAIN}" if colour else finding.level
    parts = [f"{where}   {level}   {finding.name}", *wrap(finding.title + _in_courses(finding), "  ")]
    lines = _lines(finding, sources)
    if lines:
        parts += ["", *lines]
    told = [("why", finding.why), ("fix", finding.fix), ("source", finding.source)]
    told += [("also", f"{other.name}: {other.title}") for other in finding.folded]
    if any(text for _, text in told):
        parts.append("")
        for word, text in told:
            if text:
                parts += wrap(text, f"  {word:<8}", "          ")
    return "\n".join(parts)


def _in_courses(finding: Finding) -> str:
    return f" ({', '.join(finding.courses)})" if finding.courses else ""


def wrap(text: str, first: str, rest: str | None = None) -> list[str]:
    return textwrap.wrap(text, WIDTH, initial_indent=first, subsequent_indent=rest if rest is not None else first, break_long_words=False, break_on_hyphens=False)


def _lines(finding: Finding, sources: dict[str, Source]) -> list[str]:
    """The written lines it speaks of, in order, each with its mark."""
    labels = [(label, "~") for label in finding.also] + [(finding.at, "^")]
    labels = [(label, mark) for label, mark in labels if label.span.line and label.span.file in sources]
    labels.sort(key=lambda one: (one[0].span.line, one[0].span.column))
    out = []
    for label, mark in labels:
        out += _line(label, mark, sources[label.span.file])
    return out


def _line(label: Label, mark: str, source: Source) -> list[str]:
    lines = source.lines
    if label.span.line > len(lines):
        return []
    text = lines[label.span.line - 1].replace("\t", " ")
    under = " " * (label.span.column - 1) + mark * max(1, label.span.end - label.span.column)
    return [f"  {label.span.line:>3} | {text}".rstrip(), f"      | {under} {label.text}".rstrip()]


def as_data(finding: Finding) -> dict:
    """The finding for machines."""
    def place(label: Label) -> dict:
        span = label.span
        return {"file": span.file, "line": span.line, "column": span.column, "end": span.end, "text": label.text}
    return {"level": finding.level, "name": finding.name, "title": finding.title, "at": place(finding.at), "also": [place(label) for label in finding.also],
            "why": finding.why, "fix": finding.fix, "source": finding.source, "material": finding.material, "step": finding.step,
            "courses": list(finding.courses), "folded": [as_data(other) for other in finding.folded]}
