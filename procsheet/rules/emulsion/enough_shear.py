"""An emulsion has no high-shear stage after its phases have met.

Why it matters
    Coarse drops rise or settle: the emulsion looks right in the kettle and separates in the drum.

Wrong
    phase B: oils
        10 %  caprylic/capric triglyceride
        3 %  cetearyl glucoside
    method
        heat main to 75 °C
        charge B into side
        heat side to 75 °C until melted
        add side to main with anchor
        cool main to 30 °C with anchor

Right
    phase B: oils
        10 %  caprylic/capric triglyceride
        3 %  cetearyl glucoside
    method
        heat main to 75 °C
        charge B into side
        heat side to 75 °C until melted
        add side to main with anchor
        homogenise main for 5 min
        cool main to 30 °C with anchor

Limits
    A rotor-stator, saw-tooth, mill or the words `at high shear`, from the joining on. Where fats set, it counts only while they are
    molten (a batch whose first high shear is colder is told by emulsify-hot), but for water-in-oil, which is sheared cold on purpose.
    Under 3 min in all, or under 10 m/s where the speed is known: a hint. A tool that is not named, or not known, is an open point; so
    is `stirring vigorously`, which may be either.

Exceptions
    Soap made in the batch, beeswax with borax, self-emulsifying bases; cationic conditioner bases are a hint. Multiple emulsions,
    whose second stage wants little shear.

Source
    common practice, no source; technical report on rotor-stators, for tip speeds
"""

from procsheet.findings import Finding, Label
from procsheet.rules.drops import emulsifies_itself
from procsheet.rules.words import listed, minutes
from procsheet.trace.trace import HIGH

NAME = "enough-shear"
LEVEL = "WARN"
WHY = "Coarse drops rise or settle: the emulsion looks right in the kettle and separates in the drum, weeks before anybody opens it."


def check(batch):
    if not batch.is_emulsion or batch.type == "multiple emulsion" or emulsifies_itself(batch):
        return
    for moment in batch.trace.moments:
        if moment.facts.met == moment.index:
            yield from _judged(batch, moment, list(batch.trace.path(moment)))


def _judged(batch, joined, path):
    hard = [moment for moment in path if moment.shear.rank.low >= HIGH]
    hot = [moment for moment in hard if moment is joined or not _set(batch, moment)]
    if hot:
        yield from _short(batch, joined, hot)
        return
    unsaid = next((moment for moment in _until_cold(path) if moment.shear.rank.missing or moment.shear.rank.high >= HIGH), None)
    if unsaid is not None:
        what = unsaid.shear.rank.missing or "which tool stirs vigorously"
        yield Finding("OPEN", NAME, f"{what} in line {unsaid.span.line} is not said, so whether the drops get fine enough was not checked", Label(unsaid.span),
                      fix=f"Name the tool in line {unsaid.span.line}: with homogeniser at 12 m/s, or with anchor.", step=unsaid.step.number)
        return
    if hard:
        return                                              # emulsify-hot tells of it
    last = max(_until_cold(path), key=lambda moment: moment.index, default=joined)
    lamellar = [row.name for row in batch.method.rows if row.material.is_a("cationic surfactant")]
    yield Finding("NOTE" if lamellar else LEVEL, NAME, "the emulsion is never put under high shear" + (f"; a base of {listed(lamellar)} may do without" if lamellar else ""),
                  Label(joined.span, f"the phases meet here, under {joined.shear.told}"),
                  (), WHY, f"Add a step after line {last.span.line}: homogenise {joined.vessel} for 5 min with homogeniser at 12 m/s, before it cools.",
                  batch.source(NAME), step=joined.step.number)


def _set(batch, moment) -> bool:
    """Whether the fats of an emulsion have all set at a moment."""
    solids = [row.material.figure("melts") for row in batch.trace.holds(moment, "structures oil") if row.material.text("form") != "paste"]
    melts = [figure.value.low for figure in solids if figure is not None]
    return bool(melts) and not batch.is_water_in_oil and moment.peak.high < min(melts) and _was_hot(batch, moment, min(melts))


def _was_hot(batch, moment, limit) -> bool:
    return any(one.peak.low >= limit for one in batch.trace.history(moment))


def _until_cold(path):
    """The steps from the joining to the first cooling."""
    for moment in path:
        if moment.step.verb == "cool":
            return
        yield moment


def _short(batch, joined, hot):
    """High shear there is, but little of it."""
    if any(moment.duration is None for moment in hot):
        return
    time, least = sum(moment.duration.high for moment in hot), batch.limit(NAME, "high shear")
    tips = [moment.shear.tip.high for moment in hot if moment.shear.tip is not None]
    slow = len(tips) == len(hot) and max(tips) < batch.limit(NAME, "tip speed")
    if time < least or slow:
        fast = f" at {max(tips):.3g} m/s" if tips else ""
        usual = f"{minutes(least)} at {batch.limit(NAME, 'tip speed'):.3g} m/s is usual"
        yield Finding("NOTE", NAME, f"the emulsion is under high shear for {minutes(time)}{fast} in all; {usual}", Label(hot[-1].span, "the last of it"), (), WHY,
                      "Check the drops under the microscope before cooling, and write the size that must be met.", batch.source(NAME), step=hot[-1].step.number)
