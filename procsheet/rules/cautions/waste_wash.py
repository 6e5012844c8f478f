"""What is washed out of a vessel must not go down the drain.

Why it matters
    Alcohol in a drain burns, and what is poison to water life or floats as silicone stops the works of the town.

Wrong
    product Spirit
    type hydroalcoholic
    basis 10 kg
    to 100 %  purified water
    60 %      ethanol 96 %
    vessel main
    method
        charge all into main
        fill main

Right
    product Plain
    type gel
    basis 10 kg
    to 100 %  purified water
    5 %       glycerin
    vessel main
    method
        charge all into main
        fill main

Limits
    At the step that empties the last vessel: a fifth of alcohol, a twentieth of silicone, or 3 % of materials whose data carry H400 or H410,
    together, in what it held.

Needs
    hazard

Source
    common practice, no source; local rules on waste water and the plant's own procedures decide
"""

from procsheet.rules.caution import caution, hazards
from procsheet.rules.words import listed, share

NAME = "waste-wash"
LEVEL = "CAUTION"
ADVICE = "Scrape and drain the vessel well; the first rinsings go into the waste drum and not into the drain, as local rules say."
OUT = ("fill", "pour", "discharge")
HARMS = {"h400", "h410"}


def check(batch):
    last = next((moment for moment in reversed(batch.trace.moments) if moment.step.verb in OUT and moment.mass > 0), None)
    if last is None:
        return
    rows = [batch.graph.rows[code] for code in last.contents if code in batch.graph.rows]
    groups = (("alcohol", [row for row in rows if row.material.is_a("alcohol")]), ("silicone", [row for row in rows if row.material.is_a("silicone phase")]),
              ("harmful to water life", [row for row in rows if HARMS & hazards(row.material)]))
    told = [f"{listed(row.name for row in found)}, {share(_part(last, found))}" for words, found in groups if found and _part(last, found) >= batch.limit(NAME, words) - 1e-9]
    if told:
        yield caution(NAME, last, f"Wash water with {'; '.join(told)}", ADVICE)


def _part(moment, rows) -> float:
    return sum(moment.contents.get(row.code, 0.0) for row in rows) / moment.mass
