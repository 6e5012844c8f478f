"""Fatty acid and base do not meet where the soap is wanted: too early, too late or too cold.

Why it matters
    The soap is to form on the drops, hot and all at once, when the phases meet. A base in the oil makes lumps of hard soap; one that
    comes later finds an emulsion that has nothing to hold it; in the cold the acid has set, and the base stays free.

Wrong
    phase B: fat
        14 %  stearic acid
    phase C: base
        1 %  potassium hydroxide
    method
        charge B into side
        heat side to 75 °C until melted
        heat main to 75 °C
        add side to main with homogeniser, then for 5 min
        cool main to 40 °C with anchor
        add C to main

Right
    phase B: fat
        14 %  stearic acid
    phase C: base
        1 %  potassium hydroxide
    method
        dissolve C in main
        charge B into side
        heat side to 75 °C until melted
        heat main to 75 °C
        add side to main with homogeniser, then for 5 min

Limits
    A base that comes after the phases have met is a stop, where by then the fatty acid has set and nothing else emulsifies, else a
    warning. A solid base in the oil, with less than 10 % of water, is a warning. Meeting below 70 °C is a hint, below 60 °C a warning.

Exceptions
    Other emulsifiers that hold the drops meanwhile; a base for a carbomer, or as needed for the pH; soap boiled on purpose (type soap).
    Phases too far apart, and acid that has set, are told by other rules.

Source
    common practice, no source
"""

from procsheet.findings import Finding, Label
from procsheet.intervals import SMALL
from procsheet.model.material import SOLID
from procsheet.rules.drops import is_fatty_acid, joining, makes_soap, sheared_first
from procsheet.rules.emulsion import equal_temps
from procsheet.rules.emulsion.emulsifier_present import holds
from procsheet.rules.words import celsius, listed

NAME = "soap-in-situ"
LEVEL = "WARN"
LATE = "STOP"
MAIN = 2.0                              # times as much fatty acid as other emulsifier: the soap is meant to hold the drops (common practice, no source)
LUMPS = "Solid base in hot fat makes hard soap around each grain: lumps that no longer dissolve, and a base that is missing in the water."
NOTHING = "The soap is the emulsifier. Until it forms nothing holds the drops, and in a cold batch it hardly forms at all."
COLD = "In the cold the soap forms slowly and in patches: coarse drops, and free base beside fatty acid."


def check(batch):
    joined = joining(batch)
    if joined is None or not makes_soap(batch):
        return
    rows = [batch.graph.rows[code] for code in joined.contents if code in batch.graph.rows]
    acids = [row for row in batch.method.rows if is_fatty_acid(row)]
    lumps = next(filter(None, (_dry(batch, moment, acids) for moment in batch.trace.history(joined) if moment is not joined)), None)
    made = sheared_first(batch, joined)
    if lumps is not None:
        yield lumps
    elif not any(_is_base(row) for row in batch.trace.holds(made, "base", "borate")) and any(row in acids for row in rows):
        yield from _late(batch, joined, made, acids)
    elif joined.step.number not in {finding.step for finding in equal_temps.check(batch)}:
        yield from _cold(batch, joined, acids)


def _is_base(row) -> bool:
    return row.material.is_a("borate") or row.material.is_a("base") and row.kind == "figure"


def _dry(batch, moment, acids) -> Finding | None:
    """A solid base that comes together with the fatty acid, and next to no water."""
    bases = [row for row in batch.trace.holds(moment, "base") if _is_base(row) and row.material.text("form") in SOLID]
    wet = batch.trace.share(moment, "water") - sum(moment.contents[row.code] for row in bases) / moment.mass
    if not bases or wet >= batch.limit(NAME, "water in the vessel") or not any(row.code in moment.contents for row in acids):
        return None
    names = listed(row.name for row in bases)
    return Finding(LEVEL, NAME, f"{names} goes dry into the fat in {moment.vessel}", Label(moment.span, "no water to dissolve it"),
                   tuple(Label(row.span) for row in (*bases, *acids)[:3]), LUMPS,
                   f"Dissolve {names} in the water phase, and let it meet the fat when the phases meet.", "common practice (practice)", material=bases[0].name,
                   step=moment.step.number)


def _late(batch, joined, made, acids):
    late = next((one for one in batch.trace.later(made) if any(_is_base(row) and row.code in one.added for row in batch.trace.holds(one, "base", "borate"))), None)
    if late is None or _held(batch, made, acids):
        return
    names = listed(row.name for row in batch.trace.holds(late, "base", "borate") if row.code in late.added)
    melts = min((figure.value.low for row in acids if (figure := row.material.figure("melts")) is not None), default=0.0)
    alone = not batch.trace.holds(made, "emulsifier")
    yield Finding(LATE if late.peak.high < melts and alone else LEVEL, NAME, f"{names} goes in at {celsius(late.start)}, after the fat has met the water: no soap is there to hold the drops",
                  Label(late.span, "too late"), (Label(joined.span, "the phases meet here"), *(Label(row.span, "becomes soap with it") for row in acids[:2])), NOTHING,
                  f"Dissolve {names} in the water before line {joined.span.line}.", "common practice (practice)", step=late.step.number)


def _held(batch, made, acids) -> bool:
    """Whether something else holds the drops, and the fatty acid is not the most of it; or comes late itself, which emulsifier-present tells of."""
    if any(holds(batch, row) and not row.material.is_a("perfume", "preservative") for row in batch.method.rows if row.code not in made.contents):
        return True
    others = [row for row in batch.trace.holds(made, "emulsifier", "holds drops", "carbomer", "soap", "self-emulsifying") if holds(batch, row)]
    return bool(others) and sum(made.contents.get(row.code, 0.0) for row in acids) < MAIN * sum(made.contents[row.code] for row in others)


def _cold(batch, joined, acids):
    there = [row for row in acids if row.code in joined.contents]
    warned, hinted = (batch.limit(NAME, f"a {word}") for word in ("warning", "hint"))
    if there and joined.peak.high < hinted - SMALL and not joined.peak.missing:
        yield Finding(LEVEL if joined.peak.high < warned else "NOTE", NAME,
                      f"{listed(row.name for row in there)} meets the base at {celsius(joined.peak)}; 70–80 °C is usual", Label(joined.span, "soap forms here"),
                      tuple(Label(row.span) for row in there[:2]), COLD, f"Bring both vessels to {celsius(hinted)} or more before line {joined.span.line}.",
                      batch.source(NAME, "a hint"), step=joined.step.number)
