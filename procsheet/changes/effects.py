"""What follows from the changes: findings that come and go, and what each material lives through."""

from collections.abc import Iterator

from procsheet.changes.change import Change
from procsheet.findings import Finding
from procsheet.intervals import INFINITY
from procsheet.model.material import fold
from procsheet.rules.batch import Batch
from procsheet.rules.words import celsius, minutes
from procsheet.trace.life import Life, life
from procsheet.trace.trace import SHEAR_WORDS

KELVIN, SECONDS = 1.0, 60.0             # smaller changes are not told


def findings(old: tuple[Finding, ...], new: tuple[Finding, ...]) -> Iterator[Change]:
    before, after = _told(old), _told(new)
    for key, one in before.items():
        if key not in after:
            yield Change("findings", one.name, one.title, "", f"no longer found: {one.level} {one.name}, {one.title}")
    for key, one in after.items():
        if key not in before:
            yield Change("findings", one.name, "", one.title, f"now found: {one.level} {one.name}, {one.title}", one.at.span.line)
        elif before[key].level != one.level:
            yield Change("findings", one.name, before[key].level, one.level, f"{one.name} is now {one.level}, it was {before[key].level}: {one.title}", one.at.span.line)


def _told(found: tuple[Finding, ...]) -> dict[tuple[str, str], Finding]:
    every = [one for finding in found for one in (finding, *finding.folded) if one.level in ("STOP", "WARN")]
    return {(one.name, fold(one.material)): one for one in reversed(every)}


def lives(old: Batch, new: Batch) -> Iterator[Change]:
    before, after = _lives(old), _lives(new)
    for name, one in after.items():
        if name in before:
            yield from _life(before[name], one)


def _lives(batch: Batch) -> dict[str, Life]:
    """The life of each material's first portion."""
    out: dict[str, Life] = {}
    for exposure in batch.trace.exposures:
        if fold(exposure.row.name) not in out:
            out[fold(exposure.row.name)] = life(batch.trace, exposure)
    return out


def _life(one: Life, other: Life) -> Iterator[Change]:
    name = other.exposure.row.name
    was, now = one.hottest.throughout.high, other.hottest.throughout.high
    if abs(was - now) >= KELVIN:
        yield Change("what it lives through", name, celsius(was), celsius(now), f"{name} comes to {celsius(now)} at the most, it was {celsius(was)}", other.hottest.span.line)
    was, now = one.strongest.shear.rank.high, other.strongest.shear.rank.high
    if was != now:
        words = [SHEAR_WORDS[int(rank)] for rank in (was, now)]
        yield Change("what it lives through", name, *words, f"{name} goes through {words[1]}, it was {words[0]}", other.strongest.span.line)
    figure = other.exposure.material.figure("add below")
    if figure is not None:
        was, now = (each.above(figure.value.low).high for each in (one, other))
        if INFINITY not in (was, now) and abs(was - now) >= SECONDS:
            yield Change("what it lives through", name, minutes(was), minutes(now), f"{name} is above {figure.written} for {minutes(now)} at the most, it was {minutes(was)}")
