"""A water-in-oil emulsion is not homogenised once all its water is in, or, with wax in it, not once more when it is cold.

Why it matters
    While the water goes in the last of it is only stirred in: its drops stay coarse and sink. Wax that sets around the drops as the batch cools
    leaves coarse crystals; a last pass when it is cold breaks them, and the cream gets its body and keeps it.

Wrong
    type water-in-oil emulsion
    phase B: oils
        20 %  caprylic/capric triglyceride
        4 %  sorbitan oleate
        3 %  microcrystalline wax
    method
        charge B into side
        heat side to 85 °C until melted
        heat main to 85 °C
        add main to side slowly, over 20 min with homogeniser
        homogenise side for 5 min
        cool side to 25 °C with anchor
        transfer side to main

Wrong
    type water-in-oil emulsion
    phase B: oils
        20 %  caprylic/capric triglyceride
        4 %  sorbitan oleate
    method
        charge B into side
        homogenise side for 2 min
        add main to side slowly, over 20 min with anchor
        transfer side to main

Right
    type water-in-oil emulsion
    phase B: oils
        20 %  caprylic/capric triglyceride
        4 %  sorbitan oleate
        3 %  microcrystalline wax
    method
        charge B into side
        heat side to 85 °C until melted
        heat main to 85 °C
        add main to side slowly, over 20 min with homogeniser
        homogenise side for 5 min
        cool side to 25 °C with anchor
        homogenise side for 2 min
        transfer side to main

Limits
    30 °C for the last pass, from 0.5 % of wax and castor wax together on. Where the whole batch goes through high shear as the water goes in, that
    is enough for oils that do not set.

Exceptions
    Silicone outside and no wax. Where no high shear comes after the phases meet at all, `enough-shear` speaks; where the oil was poured into the
    water, `order-wo`. What stands no high shear, such as capsules, goes in after it. Published lotions are made without: it can be signed for.

Source
    supplier page on a glyceryl oleate emulsifier, the last pass below 30 °C; common practice, no source, for the rest
"""

from procsheet.findings import Finding, Label
from procsheet.rules.drops import joining
from procsheet.rules.water_in_oil import order_wo
from procsheet.rules.words import celsius, listed, share
from procsheet.trace.trace import HIGH

NAME = "homogenise-after"
LEVEL = "WARN"
MOST = 0.2                              # of all the water: less is a rinse or a make-up (common practice, no source)
WAXES = ("wax", "oil gellant")
WHY = "The last of the water keeps coarse drops, and wax that sets as the batch cools leaves coarse crystals: the cream stays thin, and sweats in the drum."


def check(batch):
    joined = joining(batch) if batch.is_water_in_oil else None
    if joined is None or any(True for _ in order_wo.check(batch)):
        return
    path = list(batch.trace.path(joined))
    hard = [moment for moment in path if moment.shear.rank.high >= HIGH]
    last = _last_water(batch, path)
    waxes = [row for row in batch.trace.holds(last, *WAXES) if row.material.figure("melts") is not None]
    waxy = sum(map(batch.of_batch, waxes)) >= batch.limit(NAME, "of wax")
    if not any(moment.index >= last.index for moment in hard):
        if any(moment.shear.rank.high >= HIGH for moment in batch.trace.history(last)):
            yield _finding(batch, last, "no high shear comes once all the water is in", waxes,
                           f"Put a step after line {last.span.line}: homogenise {last.vessel} for 5 min with homogeniser at 12 m/s")
    elif waxy and not any(_is_cold(batch, moment) for moment in hard) and (cooled := _cooled(batch, path)) is not None:
        cold = celsius(batch.limit(NAME, "last pass"))
        yield _finding(batch, cooled, f"{share(sum(map(batch.of_batch, waxes)))} of {listed(row.name for row in waxes)} sets in it, and no high shear comes below {cold}", waxes,
                       f"Put a step after line {cooled.span.line}: homogenise {cooled.vessel} for 2 min with homogeniser, below {cold}, before capsules or perfume go in")


def _last_water(batch, path):
    """The step with which all the water is in, but for a rinse or a make-up."""
    weight, total = batch.trace.weight, max(batch.trace.weight(moment.contents, "water") for moment in path)
    return next((moment for moment in path if weight(moment.contents, "water") >= (1 - MOST) * total), path[0])


def _is_cold(batch, moment) -> bool:
    return moment.trough.low <= max(batch.limit(NAME, "last pass"), batch.plan.plant.room.high)


def _cooled(batch, path):
    """The last cooling, where it was hot before; None where it never was, or never gets cold in the kettle."""
    was_hot = any(moment.start.low > batch.limit(NAME, "hot") for moment in path)
    return next((moment for moment in reversed(path) if was_hot and moment.step.verb == "cool" and moment.end.high <= batch.limit(NAME, "hot")), None)


def _finding(batch, moment, title, waxes, fix) -> Finding:
    return Finding(LEVEL, NAME, title, Label(moment.span, "as it is left here"), tuple(Label(row.span, "sets as it cools") for row in waxes[:3]), WHY, f"{fix}.",
                   batch.source(NAME), step=moment.step.number)
