"""The product is more acid than its emulsifier stands.

Why it matters
    Soap and fatty acyl emulsifiers turn into fatty acid or come apart in acid, and let go of the drops: the cream looks right for some
    days, then parts. Only the batch with the acid in it shows that.

Wrong
    phase B: oils
        10 %  caprylic/capric triglyceride
        5 %  glyceryl stearate SE
    phase C: acid
        as needed, at most 2 %  lactic acid
    method
        heat main to 75 °C
        charge B into side
        heat side to 75 °C
        add side to main with homogeniser
        cool main to 30 °C with anchor
        adjust main to pH 3.8-4.2 with C

Right
    phase B: oils
        10 %  caprylic/capric triglyceride
        5 %  cetearyl olivate and sorbitan olivate
    phase C: acid
        as needed, at most 2 %  lactic acid
    method
        heat main to 75 °C
        charge B into side
        heat side to 75 °C
        add side to main with homogeniser
        cool main to 30 °C with anchor
        adjust main to pH 3.8-4.2 with C

Limits
    The emulsifier's own lowest pH, or the pH its data warn of, against each pH that the method gives to the emulsion: adjusted,
    checked, or in its limits. Below it a warning; partly below a hint, and up to half a unit above for a ready base that holds soap.
    Soap made in the batch: pH 6.5. Where no pH is said, 1 % or more of an acid that no base takes up is a warning for these
    emulsifiers.

Exceptions
    Nonionic emulsifiers without a figure stand acid; another, stable emulsifier beside it makes it a hint.

Needs
    pH, never with acid

Source
    two public threads on creams with fruit acids; common practice, no source, for soap
"""

from procsheet.findings import LEVELS, Finding, Label
from procsheet.intervals import BEYOND, STRADDLES, below
from procsheet.rules.drops import joining, makes_soap
from procsheet.rules.emulsion.emulsifier_present import holds
from procsheet.rules.ph import figure as told_ph, free_acids, stated
from procsheet.rules.words import listed, share

NAME = "acid-stable-emulsifier"
LEVEL = "WARN"
NEAR = 0.5                              # pH: so little above its limit soap lets go in part (common practice, no source)
WHY = "In acid the emulsifier turns into fatty acid or comes apart and lets go of the drops: the cream looks right for some days, then it parts in the pack."


def check(batch):
    joined = joining(batch)
    if joined is None:
        return
    made = [row for row in batch.trace.holds(joined, "emulsifier", "soap") if not row.material.is_a("carbomer")]
    stable = [row for row in made if _limit(batch, row) is None and not row.material.is_a("w/o emulsifier") and row.material.text("ionic") == "nonionic" and holds(batch, row)]
    soap = batch.trace.holds(joined, "fatty acid", "liquid fatty acid") if makes_soap(batch) else []
    for row in [*made, *soap[:1]]:
        limit = _limit(batch, row, row in soap)
        if limit is not None:
            yield from _judged(batch, joined, row, limit, bool(stable))


def _limit(batch, row, soap: bool = False):
    """The lowest pH that an emulsifier stands, and where that comes from; None where nothing says."""
    if soap or row.material.is_a("soap"):
        return batch.limit(NAME, "that soap stands"), batch.source(NAME, "that soap stands")
    figure = row.material.figure("pH")
    if figure is not None:
        return figure.value.low, f"data of {row.material.name}: pH {figure.told}"
    warned = next((one for one in row.material.figures("never with") if "acid" in one.words and "pH" in one.words), None)
    return (warned.value.high, f"data of {row.material.name}: acid below pH {warned.told}") if warned is not None else None


def _judged(batch, joined, row, limit, stable: bool):
    lowest, source = limit
    said = [one for one in stated(batch, row) if one.moment is None or one.moment.facts.emulsified]
    found = [(level, one) for one in said if (level := _level(row, one.value, lowest)) is not None]
    if found:
        level, one = min(found, key=lambda each: (LEVELS.index(each[0]), each[1].value.low))
        yield Finding("NOTE" if stable else level, NAME, f"the emulsion is at pH {told_ph(one.value)}; {row.name} holds it from pH {lowest:.3g} on", one.place,
                      (Label(row.span, f"lets go below pH {lowest:.3g}"),), WHY, _fix(row, lowest), source, material=row.name,
                      step=one.moment.step.number if one.moment is not None else 0)
    elif not said and (acids := [acid for acid in free_acids(batch) if not acid.material.is_a("preservative", "fatty acid", "liquid fatty acid")]):
        total = sum(batch.of_batch(acid, "acid") for acid in acids)
        if total >= batch.limit(NAME, "where no pH is said") - 1e-9:
            title = f"{share(total)} of {listed(acid.name for acid in acids)} goes into an emulsion with {row.name}, and no pH is said"
            yield Finding("NOTE" if stable else LEVEL, NAME, title, Label(acids[0].span, "acid, and no base"),
                          (Label(row.span, f"lets go below pH {lowest:.3g}"),), WHY, _fix(row, lowest), source, material=row.name)


def _level(row, value, lowest: float) -> str | None:
    verdict = below(value, lowest)
    if verdict == BEYOND:
        return LEVEL
    near = row.material.is_a("self-emulsifying") and value.low < lowest + NEAR
    return "NOTE" if verdict == STRADDLES or near else None


def _fix(row, lowest: float) -> str:
    return f"Keep the emulsion at pH {lowest:.3g} or above; or hold it with a nonionic emulsifier that stands acid in place of {row.name}."
