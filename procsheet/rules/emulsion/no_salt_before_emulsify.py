"""Much salt is in the water when the emulsion is made, or comes to an emulsifier that does not stand it.

Why it matters
    Salt takes the charge off the drops while they are small and bare, and drives soap and other charged emulsifiers out of the water:
    the emulsion comes out coarse, soaps on rubbing, and thins.

Wrong
    phase B: oils
        15 %  caprylic/capric triglyceride
        4 %  glyceryl stearate SE
    phase C: salt
        2 %  sodium chloride
    method
        dissolve C in main
        heat main to 75 °C
        charge B into side
        heat side to 75 °C
        add side to main with homogeniser

Right
    phase B: oils
        15 %  caprylic/capric triglyceride
        4 %  glyceryl stearate SE
    phase C: salt
        0.4 %  sodium chloride
    method
        dissolve C in main
        heat main to 75 °C
        charge B into side
        heat side to 75 °C
        add side to main with homogeniser

Limits
    Of the batch, in the vessel when the phases meet: over 0.5 % beside an anionic emulsifier or soap a hint, over 1 %, or over the
    figure of the emulsifier's own data, a warning. Afterwards over 2 % in all, or over its figure. Beside nonionic emulsifiers over 2 %
    at the joining a hint: where the aluminium salt of a roll-on goes in is written both ways. Of a solution only the salt in it counts.

Exceptions
    Preservative salts and the emulsifier itself; cationic bases and carbomers, which have rules of their own; oil outside, which needs
    salt.

Needs
    ionic, never with electrolyte

Source
    common practice, no source; public threads on creams with magnesium chloride
"""

from procsheet.findings import Finding, Label
from procsheet.rules.drops import joining, makes_soap
from procsheet.rules.words import listed, share

NAME = "no-salt-before-emulsify"
LEVEL = "WARN"
NEARLY = 1e-6
WHY = "Salt takes the charge off the drops while they are small and bare: they run together, the emulsion comes out coarse, and it soaps when it is rubbed in."


def check(batch):
    joined = joining(batch)
    if batch.type != "oil-in-water emulsion" or joined is None or batch.trace.holds(joined, "cationic surfactant"):
        return
    emulsifiers, own = _sensitive(batch, joined)
    before = _salt(batch, joined.contents)
    level = _level(batch, bool(emulsifiers), own, before)
    if level is not None:
        yield _finding(batch, joined, joined, emulsifiers, before, level, _limit(batch, emulsifiers, own, level))
        return
    most = own or batch.limit(NAME, "at any time")
    salted = (one for one in batch.trace.later(joined) if emulsifiers and _salt(batch, one.added) and not batch.trace.holds(one, "carbomer"))
    over = next((one for one in salted if _salt(batch, one.contents) > most + NEARLY), None)
    if over is not None:
        yield _finding(batch, joined, over, emulsifiers, _salt(batch, over.contents), LEVEL, most)


def _sensitive(batch, joined):
    """The emulsifiers there that stand little salt, and the least that their own data allow."""
    rows = [row for row in batch.trace.holds(joined, "emulsifier", "soap") if not row.material.is_a("carbomer", "surfactant", "solubiliser")]
    own = [figure.value.low for row in rows for figure in row.material.figures("never with") if "electrolyte" in figure.words]
    charged = [row for row in rows if row.material.text("ionic") == "anionic" or row.material.is_a("soap")]
    if not charged and makes_soap(batch):
        charged = [row for row in batch.trace.holds(joined, "fatty acid", "borate")]
    return charged, min(own, default=None)


def _salt(batch, held) -> float:
    """The share of the batch that is dissolved electrolyte, in what a vessel holds or a step adds."""
    rows = ((batch.graph.rows[code], mass) for code, mass in held.items() if code in batch.graph.rows)
    return sum(mass * row.material.share("electrolyte") for row, mass in rows if _is_salt(row)) / float(batch.plan.mass)


def _is_salt(row) -> bool:
    return row.material.share("electrolyte") > 0 and not row.material.is_a("preservative", "emulsifier", "borate", "base", "chelator")


def _level(batch, sensitive: bool, own, there: float) -> str | None:
    if not sensitive:
        return "NOTE" if there > batch.limit(NAME, "beside any emulsifier") + NEARLY else None
    if there > (own or batch.limit(NAME, "a warning")) + NEARLY:
        return LEVEL
    return "NOTE" if there > batch.limit(NAME, "ionic emulsifier: a hint") + NEARLY else None


def _limit(batch, emulsifiers, own, level) -> float:
    if not emulsifiers:
        return batch.limit(NAME, "beside any emulsifier")
    return (own or batch.limit(NAME, "a warning")) if level == LEVEL else batch.limit(NAME, "ionic emulsifier: a hint")


def _finding(batch, joined, moment, emulsifiers, there, level, most) -> Finding:
    salts = [row for row in batch.trace.holds(moment, "water phase") if _is_salt(row)]
    main = max(salts, key=lambda row: batch.of_batch(row, "electrolyte"))
    enters = next((one for one in reversed(batch.trace.history(joined)[:-1]) if main.code in one.added), moment) if moment is joined else moment
    beside = f"beside {listed(row.name for row in emulsifiers)}" if emulsifiers else "in the water"
    when = "when the phases meet" if moment is joined else "in the finished emulsion"
    also = [Label(main.span, f"{share(batch.of_batch(main, 'electrolyte'))} of the batch")] + [Label(row.span, "charged: salt drives it out") for row in emulsifiers[:2]]
    also += [Label(joined.span, "the phases meet here")] if enters is not joined else []
    fix = (f"Dissolve {main.name} in a part of the water, and add it after the emulsion has been homogenised and cooled" if moment is joined else
           f"Bring {main.name} down to {share(most)} or less")
    return Finding(level, NAME, f"{share(there)} of electrolyte is {beside} {when}; {share(most)} is usual at most", Label(enters.span, f"{main.name} goes in here"),
                   tuple(also), WHY,
                   f"{fix}; or take a nonionic emulsifier that stands salt.", batch.source(NAME), material=main.name, step=enters.step.number)
