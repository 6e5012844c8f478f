"""A gellant of the oil is not warm enough to open, or cools unstirred.

Why it matters
    A castor wax or like gellant swells in the oil within a range of heat and sets as a net while it cools under the stirrer. Colder it stays
    grain; unstirred it sets as lumps and the oil bleeds.

Wrong
    type anhydrous
    phase B: gel
        95 %  caprylic/capric triglyceride
        4 %  dextrin palmitate
    method
        charge B into side
        heat side to 60 °C with propeller
        cool side to 30 °C with propeller

Wrong
    type water-in-oil emulsion
    phase B: gel
        40 %  caprylic/capric triglyceride
        4 %  trihydroxystearin
    method
        charge B into side
        heat side to 60 °C with propeller
        cool side to 30 °C unstirred

Right
    type anhydrous
    phase B: gel
        95 %  caprylic/capric triglyceride
        4 %  dextrin palmitate
    method
        charge B into side
        heat side to 90 °C with propeller
        cool side to 30 °C with propeller

Limits
    The heat of its own data, at least once while it is in oil. `cool with shear` or `with shear` in its data: no cooling step unstirred.

Exceptions
    Temperatures that nobody knows. Sticks and balms, which set in the mould. Gellants that build a wax: melt-margin
    tells of their heat.

Needs
    needs

Source
    the gellant's own data; from memory, for 60-85 °C
"""

from procsheet.findings import Finding, Label
from procsheet.rules.words import celsius
from procsheet.trace.trace import NONE

NAME = "hco-temp"
LEVEL = "WARN"
OILS = ("oil", "silicone")
WHY = "It swells in the oil in the heat and sets as a net while it cools under the stirrer: colder it stays grain, unstirred it sets as lumps and the oil bleeds."


def check(batch):
    told = set()
    for one in batch.trace.exposures:
        figure = next((figure for figure in one.material.figures("needs") if "heat" in figure.words), None)
        if figure is not None and one.material.is_a("oil gellant") and one.row.code not in told and (found := _cold(batch, one, figure) or _still(batch, one)):
            told.add(one.row.code)
            yield _finding(batch, one.row, figure, *found)


def _cold(batch, one, figure):
    """The warmest step of it, where that is not warm enough for certain."""
    hottest = batch.trace.hottest_from(one.moment)
    need = figure.value.low - batch.plan.plant.temperature_tolerance
    if one.material.is_a("structures oil") or hottest.peak.high >= need or hottest.peak.missing or not batch.trace.weight(hottest.contents, *OILS):
        return None
    return hottest, f"is never warmer than {celsius(hottest.peak.high)}; it opens at {celsius(figure.value.low)}", "too cold to open it", f"Heat {hottest.vessel} to {celsius(figure.value)} here, and cool it under the stirrer"


def _still(batch, one):
    """A cooling step without a stirrer."""
    if not any("with shear" in words for words in one.material.words("needs")) or batch.type == "anhydrous":
        return None
    still = next((moment for moment in batch.trace.path(one.moment) if moment.step.verb == "cool" and moment.shear.rank.high <= NONE), None)
    return still and (still, f"cools unstirred in {still.vessel}", "sets in lumps", f"Stir {still.vessel} with an anchor while it cools")


def _finding(batch, row, figure, moment, what, label, fix) -> Finding:
    return Finding(LEVEL, NAME, f"{row.name} {what}", Label(moment.span, label), (Label(row.span, "a gellant of the oil"),), WHY, f"{fix}.",
                   f"data of {row.material.name}: {figure.told}", material=row.name, step=moment.step.number)
