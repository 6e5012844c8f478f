"""Water, or something dissolved in water, goes into a product that is made without.

Why it matters
    Water does not dissolve in fat. It spits in the hot melt, stands in beads at the bottom of the tin, and there mould grows: a balm has no
    preservative that would work in it.

Wrong
    product Balm
    type anhydrous
    basis 1 kg
    phase A: balm
        20 %      white beeswax
        to 100 %  jojoba oil
        3 %       rose water
    vessel main
    method
        charge A into main
        heat main to 80 °C until melted
        fill main

Right
    product Balm
    type anhydrous
    basis 1 kg
    phase A: balm
        20 %      white beeswax
        to 100 %  jojoba oil
        3 %       bisabolol
    vessel main
    method
        charge A into main
        heat main to 80 °C until melted
        fill main

Limits
    Water, hydrolats, extracts, solutions and dispersions in water, from 0.1 % on. Preservatives that are sold in water do not count.

Exceptions
    A product whose liquid is a glycol or glycerin, not oil. Water that is boiled off again: `dry`, or 100 °C and above after it went in.

Source
    common practice, no source
"""

from procsheet.findings import Finding, Label
from procsheet.rules.words import listed, share

NAME = "balm-no-water"
LEVEL = "STOP"
IN_WATER = ("solution", "dispersion", "gel")
NOT_AQUEOUS = ("preservative", "inverse emulsion polymer", "film former")
WHY = "Water does not dissolve in fat: it spits in the hot melt, stands in beads at the bottom of the pack, and there mould grows."


def check(batch):
    rows = sorted((row for row in batch.method.rows if _brings_water(batch, row) and not _boiled_off(batch, row)), key=lambda row: -batch.of_batch(row))
    if batch.type == "anhydrous" and rows and not _is_glycol(batch):
        yield _finding(batch, rows)


def _brings_water(batch, row) -> bool:
    material = row.material
    wet = material.is_a("water") or material.text("form") in IN_WATER and not material.is_a(*NOT_AQUEOUS)
    return wet and batch.trace.affinities[row.code] == "water" and batch.of_batch(row) >= batch.limit(NAME, "made without")


def _boiled_off(batch, row) -> bool:
    entries = [one for one in batch.trace.exposures if one.row.code == row.code]
    hot = batch.limit(NAME, "boiled off")
    return bool(entries) and all(any(moment.step.verb == "dry" or moment.peak.low >= hot for moment in batch.trace.path(one.moment)) for one in entries)


def _is_glycol(batch) -> bool:
    oils = sum(batch.of_batch(row) for row in batch.method.rows if batch.trace.affinities[row.code] in ("oil", "silicone"))
    return sum(batch.of_batch(row) for row in batch.method.rows if row.material.is_a("polyol", "solvent")) > oils


def _finding(batch, rows) -> Finding:
    row, others = rows[0], rows[1:]
    entry = next((one.moment for one in batch.trace.exposures if one.row.code == row.code), None)
    also = [Label(one.span, "is watery, too") for one in others] + ([Label(entry.span, "goes into fat here")] if entry is not None else [])
    names = listed(one.name for one in rows)
    verb = "goes" if len(rows) == 1 else "go"
    return Finding(LEVEL, NAME, f"{share(sum(map(batch.of_batch, rows)))} of {names} {verb} into a product without water", Label(row.span, "does not mix with fat"), tuple(also), WHY,
                   f"Leave {names} out, or take a form that dissolves in oil; or make an emulsion of it: type water-in-oil emulsion, with its emulsifier and a preservative.",
                   batch.source(NAME, "made without"), material=row.name, step=entry.step.number if entry is not None else 0)
