"""Lye, acid, salt or an oxidiser stands in a vessel of a metal that it attacks.

Why it matters
    Lye dissolves aluminium and zinc and gives off hydrogen, which can be lit. Acid and salt take up iron and copper from brass and plain steel: the
    product turns brown or green, and what air would spoil in months is gone in days.

Wrong
    product Soap
    type soap
    basis 1 kg
    phase A: fats
        600 g  olive oil
    phase B: lye
        80 g       sodium hydroxide
        to 100 %   purified water
    vessel pot "aluminium stock pot"
    vessel jug "polypropylene"
    method
        charge "purified water" into jug
        dissolve "sodium hydroxide" in jug slowly
        cool jug to 40 °C
        charge A into pot
        add jug to pot slowly with stick blender
        fill pot

Wrong
    product Peel
    type solution
    basis 1 kg
    phase A: peel
        10 %      lactic acid 90 %
        to 100 %  purified water
    vessel main "copper pan"
    method
        charge "purified water" into main
        add "lactic acid 90 %" to main slowly
        fill main

Right
    product Peel
    type solution
    basis 1 kg
    phase A: peel
        10 %      lactic acid 90 %
        to 100 %  purified water
    vessel main "stainless 316L"
    method
        charge "purified water" into main
        add "lactic acid 90 %" to main slowly
        fill main

Limits
    What the vessel's own words name: aluminium, zinc, tin, copper, brass, bronze, iron, plain steel. From 1 % of alkali in aluminium, zinc or tin a stop;
    from 1 % of acid, chloride, oxidiser or reducing agent, or below pH 4.5, in any of them a warning. A vessel of which nothing is said is not judged.

Exceptions
    Stainless, enamelled, lined or coated vessels. Packs.

Source
    common practice, no source
"""

import re

from procsheet.findings import Finding, Label
from procsheet.rules.ph import figure
from procsheet.rules.batch import gravest
from procsheet.rules.words import share
from procsheet.trace.acidity import acidity

NAME = "metal-contact"
LEVEL = "STOP"
WARNING = "WARN"
METAL = re.compile(r"\b(alumini?um|galvani[sz]ed|zinc|tin|copper|brass|bronze|cast iron|iron|(?:mild|carbon|plain) steel)\b", re.IGNORECASE)
SAFE = re.compile(r"stainless|enamel|glass|lined|lacquer|coated|plastic|ptfe", re.IGNORECASE)
LIGHT = re.compile(r"alumini?um|galvani[sz]ed|zinc|tin", re.IGNORECASE)
ATTACKS = ("acid", "chloride", "oxidiser", "reducing agent", "ascorbic")
WHY = "Lye gives off hydrogen in light metal; acid and salt dissolve iron and copper, which colour the product and let air spoil it. Stainless steel 316L stands both."


def check(batch):
    for place in batch.method.places:
        metal = METAL.search(place.text)
        if place.kind == "vessel" and metal is not None and not SAFE.search(place.text):
            found = gravest(_met(batch, place, metal[0], moment, value) for moment, value in zip(batch.trace.moments, acidity(batch.trace)) if moment.vessel == place.name)
            if found is not None:
                yield found


def _met(batch, place, metal: str, moment, value) -> Finding | None:
    lye = _most(batch, moment, "base")
    if lye is not None and LIGHT.fullmatch(metal):
        return _finding(batch, place, moment, LEVEL, lye, f"{share(moment.contents[lye.code] / moment.mass)} of {lye.name} stands in {place.name}, which is {metal}")
    row = _most(batch, moment, *ATTACKS)
    if row is not None:
        return _finding(batch, place, moment, WARNING, row, f"{share(moment.contents[row.code] / moment.mass)} of {row.name} stands in {place.name}, which is {metal}")
    if not value.missing and value.high < batch.limit(NAME, "below which"):
        return _finding(batch, place, moment, WARNING, None, f"{place.name} is {metal} and holds pH {figure(value)}")
    return None


def _most(batch, moment, *groups):
    """The row of these groups that a vessel holds most of, from the least that counts; alkalis that are not corrosive do not count."""
    rows = [row for row in batch.trace.holds(moment, *groups) if groups != ("base",) or row.material.has("corrosive")]
    pure = {row.code: moment.contents[row.code] * row.material.share(*groups) for row in rows}
    row = max(rows, key=lambda one: pure[one.code], default=None)
    return row if row is not None and pure[row.code] >= batch.limit(NAME, "in the vessel") * moment.mass else None


def _finding(batch, place, moment, level, row, title) -> Finding:
    also = [Label(moment.span, "attacks it here")] + ([Label(row.span, "attacks it")] if row is not None else [])
    return Finding(level, NAME, title, Label(place.span, "is attacked"), tuple(also), WHY, f"Take a vessel of stainless steel, glass or polypropylene as {place.name}, and say so in line {place.span.line}.",
                   batch.source(NAME, "in the vessel"), material=row.name if row is not None else "", step=moment.step.number)
