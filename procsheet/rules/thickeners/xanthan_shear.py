"""A swollen gum goes through high shear for long.

Why it matters
    High shear is right to disperse a gum. Once it has swollen, long high shear cuts the chains, and beats in air that the gel does not let go:
    a white, frothy, thinner gel.

Wrong
    type gel
    phase B: gum
        3 %  glycerin
        0.5 %  xanthan gum
    method
        charge B into pail
        stir pail by hand
        add pail to main with propeller
        hydrate main for 30 min with propeller
        homogenise main for 20 min

Right
    type gel
    phase B: gum
        3 %  glycerin
        0.5 %  xanthan gum
    method
        charge B into pail
        stir pail by hand
        add pail to main with homogeniser, then for 5 min
        hydrate main for 30 min with propeller

Limits
    All high shear after the gum has had its time in the water counts together: over 5 min, in an emulsion or paste over 30 min, a hint. In a gel, where
    nothing lets the air out afterwards, a warning.

Exceptions
    Dispersing. Gums in the drops of water-in-oil. Gums whose data say `shear any`. Under vacuum no air comes in.

Needs
    shear, hydrates for

Source
    three public threads on gels beaten with a blade; common practice, no source, for the times
"""

from procsheet.findings import Finding, Label
from procsheet.rules import polymers
from procsheet.rules.words import minutes
from procsheet.trace.swelling import USUAL, swelling
from procsheet.trace.trace import HIGH

NAME = "xanthan-shear"
LEVEL = "NOTE"
AIRY = "WARN"
NEARLY = 1.0                            # s
WHY = "Long high shear cuts the swollen chains and beats in air that the gel does not let go: a white, frothy, thinner gel."


def check(batch):
    if batch.makes_water_in_oil:
        return
    swollen = swelling(batch.trace)
    told = set()
    for one in batch.trace.exposures:
        if _minds(one.material) and one.row.code not in told and (found := _sheared(batch, one, swollen)) is not None:
            told.add(one.row.code)
            yield _finding(batch, one.row, *found)
            return


def _minds(material) -> bool:
    return material.is_a("gum", "stock gel") and material.is_a("anionic gum", "holds grains") and not material.is_a("carbomer") and material.text("shear") != "any"


def _sheared(batch, one, swollen):
    """The level, the seconds and the moments of high shear on it once it has swollen."""
    hard = [(moment, time) for moment in batch.trace.path(one.moment) if moment.shear.rank.low >= HIGH and moment.duration is not None
            and moment.part == 0 and (time := _on_swollen(batch, one, moment, swollen)) > 0]
    total = sum(time for _, time in hard)
    thick = batch.is_emulsion or batch.type == "paste"
    if total <= batch.limit(NAME, "or paste" if thick else "in a gel") + NEARLY:
        return None
    last = hard[-1][0]
    airy = not thick and not any(polymers.lets_air_out(moment) for moment in batch.trace.path(last))
    return (AIRY if airy else LEVEL), total, [moment for moment, _ in hard]


def _on_swollen(batch, one, moment, swollen) -> float:
    """Seconds of a step beyond what the gum still needs to swell."""
    before = [swollen[parent].get(one.row.code, False) for parent in moment.parents if one.row.code in batch.trace.moments[parent].contents]
    figure = one.material.figure("hydrates for")
    need = 0.0 if one.material.is_a("stock gel") or before and all(before) else figure.value.high if figure else USUAL
    return moment.duration.low - need


def _finding(batch, row, level, seconds, hard) -> Finding:
    longest = max(hard, key=lambda moment: moment.duration.low)
    also = tuple(Label(moment.span, "and here") for moment in hard if moment is not longest)
    air = ", and nothing lets the air out afterwards" if level == AIRY else ""
    return Finding(level, NAME, f"{row.name} goes through high shear for {minutes(seconds)} after it has swollen{air}", Label(longest.span, "cuts the gum and beats air in"),
                   also or (Label(row.span, "a gum that has swollen"),), WHY,
                   f"Take a propeller or anchor for line {longest.span.line}, or cut it to 5 min in all; let the air out afterwards: deaerate {longest.vessel} under vacuum.",
                   batch.source(NAME), material=row.name, step=longest.step.number)
