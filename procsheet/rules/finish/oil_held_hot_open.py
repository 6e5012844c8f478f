"""Plant oil stands hot and open for long.

Why it matters
    Hot oil in the open takes up air. It smells of paint weeks later, in the pack, and it uses up the antioxidant on the first day.

Wrong
    phase B: oil
        20 %  sunflower oil
        3 %   cetyl alcohol
    method
        charge B into side
        heat side to 85 °C until melted
        hold side at 85 °C for 90 min
        add side to main with homogeniser

Right
    phase B: oil
        20 %  sunflower oil
        3 %   cetyl alcohol
    method
        charge B into side
        heat side to 85 °C until melted
        hold side at 85 °C for 15 min covered
        add side to main with homogeniser

Limits
    More than 60 min above 80 °C in an open vessel, as far as times are written or the plant gives them; more than 20 min is a hint. A fifth
    of the vessel or more is plant oil or butter.

Exceptions
    A lid, nitrogen, vacuum; mineral oil, esters, silicones and caprylic/capric triglyceride, which hold. Soap.

Source
    public teaching pages for 80 °C and 20 min; common practice, no source, for 60 min
"""

from procsheet.findings import Finding, Label
from procsheet.rules.words import celsius, listed, minutes

NAME = "oil-held-hot-open"
LEVEL = "WARN"
HINT = "NOTE"
KINDS = ("plant oil", "butter")
WHY = "Hot oil in the open takes up air. It turns rancid in the pack, weeks later, and the antioxidant is used up on the first day."


def check(batch):
    if batch.type == "soap":
        return
    hot = batch.limit(NAME, "above which")
    lasting = [(time, moment) for moment in batch.trace.moments if _is_open_oil(batch, moment) and (time := batch.trace.time_above(moment, hot))]
    by_vessel: dict[str, list] = {}
    for time, moment in lasting:
        by_vessel.setdefault(moment.vessel, []).append((time, moment))
    for vessel, found in by_vessel.items():
        total = sum(time for time, _ in found)
        if total > batch.limit(NAME, "a hint"):
            yield _finding(batch, vessel, total, [moment for _, moment in sorted(found, key=lambda one: -one[0])], hot)


def _is_open_oil(batch, moment) -> bool:
    oils = sum(moment.contents[row.code] for row in batch.trace.holds(moment, *KINDS))
    kettle = batch.plan.kettles.get(moment.vessel)
    return (moment.cover == "open" and not moment.closed and not (kettle is not None and kettle.closed) and not moment.facts.emulsified
            and oils >= batch.limit(NAME, "of plant oil") * moment.mass and moment.mass > 0)


def _finding(batch, vessel: str, total: float, moments, hot: float) -> Finding:
    words = "a warning" if total > batch.limit(NAME, "a warning") else "a hint"
    longest = moments[0]
    names = listed(row.name for row in batch.trace.holds(longest, *KINDS))
    return Finding(LEVEL if words == "a warning" else HINT, NAME, f"{names} in {vessel} stand open above {celsius(hot)} for {minutes(total)}",
                   Label(longest.span, "takes up air here"), tuple(Label(one.span, "and here") for one in moments[1:3]), WHY,
                   f"Write `covered` or `under nitrogen` in line {longest.span.line}, hold it for 15 min at most, and add the antioxidant just before the oil is used.",
                   batch.source(NAME, words), step=longest.step.number)
