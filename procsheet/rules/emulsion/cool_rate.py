"""A cream is cooled fast through the setting of its fats.

Why it matters
    Fat that is chilled sets in other crystals than fat that has time: the cream has another viscosity than the proven one, or grains,
    and at the wall it sets before the middle has moved.

Wrong
    phase B: oils
        5 %  stearyl alcohol
        3 %  cetearyl glucoside
    method
        heat main to 75 °C
        charge B into side
        heat side to 75 °C
        add side to main with homogeniser, then for 5 min
        cool main to 30 °C at 5 °C/min with anchor

Right
    phase B: oils
        5 %  stearyl alcohol
        3 %  cetearyl glucoside
    method
        heat main to 75 °C
        charge B into side
        heat side to 75 °C
        add side to main with homogeniser, then for 5 min
        cool main to 30 °C at 0.3-1 °C/min with anchor

Limits
    Where a rate, a time, an ice bath or `quickly` is written: over 1 °C/min from 20 kg on a warning, below that a hint; over 3 °C/min,
    `quickly` or an ice bath a warning. With 3 % or more of fat that sets on the way.

Exceptions
    No rate at all: most methods that work name none. Emulsions made by phase inversion, cooled fast on purpose; oil outside; melts
    without water, where sources disagree: butters want it fast, waxes slow.

Needs
    melts

Source
    common practice, no source, for the rates; trade article on troubleshooting topical products, for what fast cooling does
"""

from procsheet.findings import Finding, Label
from procsheet.intervals import INFINITY
from procsheet.rules import cooling
from procsheet.rules.drops import part
from procsheet.rules.words import celsius, listed

NAME = "cool-rate"
LEVEL = "WARN"
WHY = "Fat that is chilled sets in other crystals: the viscosity is not the proven one, or grains come out in the drum. At the wall it sets before the middle has moved."


def check(batch):
    if batch.type != "oil-in-water emulsion" or any(row.material.is_a("phase-inversion emulsifier") for row in batch.method.rows):
        return
    for moment in batch.trace.moments:
        if moment.step.verb == "cool" and moment.before_facts.emulsified and moment.part == 0:
            fats = _setting(batch, moment)
            level, words, told = _judged(batch, moment)
            if fats and level is not None:
                yield _finding(batch, moment, fats, level, words, told)


def _setting(batch, moment):
    """The fats that set in the step, enough of them."""
    final = cooling.final(batch, moment)
    fats = [(row, row.material.figure("melts")) for row in batch.trace.holds(moment, "structures oil") if row.material.figure("melts") is not None]
    fats = [row for row, figure in fats if moment.start.high >= figure.value.low and final.low < figure.value.high]
    return fats if part(moment, fats) >= batch.limit(NAME, "fat that sets") else []


def _judged(batch, moment):
    """Level, words of the limit, and what is written; None for nothing."""
    rate = cooling.rate(moment)
    usual, most = (batch.limit(NAME, words) for words in ("in production", "at any size"))
    if rate is not None and rate.low < INFINITY and rate.high > usual + 1e-9:
        told = cooling.told(rate)
        if rate.high > most + 1e-9:
            return LEVEL, "at any size", told
        return LEVEL if float(batch.plan.mass) >= batch.limit(NAME, "production size") else "NOTE", "in production", told
    if rate is None and moment.step.has(*cooling.HURRIED):
        return LEVEL, "in production", "`quickly`" if moment.step.has("quickly") else "an ice bath"
    return None, "", ""


def _finding(batch, moment, fats, level, words, told) -> Finding:
    names = f"{listed(row.name for row in fats)} {'sets' if len(fats) == 1 else 'set'}"
    return Finding(level, NAME, f"the cream is cooled from {celsius(moment.start)} by {told}, while {names}", Label(moment.span, "faster than usual"),
                   tuple(Label(row.span, f"melts at {row.material.figure('melts').written}") for row in fats[:3]), WHY,
                   f"Write in line {moment.span.line} `at 0.3-1 °C/min` instead, or the band that the proven batches had.", batch.source(NAME, words), step=moment.step.number)
