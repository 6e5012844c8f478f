"""Much pigment or mineral sun filter is dispersed in oil with no dispersant beside it.

Why it matters
    High shear parts the grains; only a dispersant keeps them apart. Without one they clump again within hours: the paste thickens, the shade goes
    dull, and a sun filter that measured well in the kettle protects less in the tube.

Wrong
    type water-in-oil emulsion
    phase B: powder
        15 %  C12-15 alkyl benzoate
        15 %  zinc oxide
    phase C: oils
        15 %  caprylic/capric triglyceride
        4 %  PEG-30 dipolyhydroxystearate
    method
        charge B into pail
        homogenise pail for 10 min with dissolver
        charge C into side
        add pail to side with propeller
        add main to side slowly, over 20 min with homogeniser
        transfer side to main

Right
    type water-in-oil emulsion
    phase B: powder
        15 %  C12-15 alkyl benzoate
        1.5 %  polyhydroxystearic acid
        15 %  zinc oxide
    phase C: oils
        15 %  caprylic/capric triglyceride
        4 %  PEG-30 dipolyhydroxystearate
    method
        charge B into pail
        homogenise pail for 10 min with dissolver
        charge C into side
        add pail to side with propeller
        add main to side slowly, over 20 min with homogeniser
        transfer side to main

Limits
    More than 5 % of such powder in the batch. Where the paste goes through a mill as well it is a hint.

Exceptions
    An emulsifier, lecithin or a liquid fatty acid in the same vessel does the work of a dispersant; so does castor oil, which wets by itself. Powder wetted
    in water. Where nothing opens the powder, `pigment-wet` speaks.

Source
    public threads on zinc oxide, more than 5 % without a dispersant; a published method mixes it with esters alone: so it can be signed for
"""

from procsheet.findings import LOWER, Finding, Label
from procsheet.rules.powders.pigment_wet import LEFT_OUT, is_pigment
from procsheet.rules.words import listed, share
from procsheet.trace.trace import HIGH

NAME = "no-dispersant"
LEVEL = "WARN"
KEEPS_APART = ("dispersant", "emulsifier", "w/o emulsifier", "surfactant", "liquid fatty acid")
WETS = "castor oil"
OIL = ("oil", "silicone")
NEARLY = 1e-9
WHY = "High shear parts the grains and nothing keeps them apart: they clump again within hours, the shade goes dull, and a sun filter protects less."


def check(batch):
    rows = [row for row in batch.method.rows if is_pigment(batch, row)]
    if batch.type == "powder" or batch.type in LEFT_OUT or sum(map(batch.of_batch, rows)) <= batch.limit(NAME) + NEARLY:
        return
    opened: dict[int, dict] = {}
    for one in batch.trace.exposures:
        if any(one.row is row for row in rows) and (moment := _opened(batch, one)) is not None:
            opened.setdefault(moment.index, {})[one.row.code] = one.row
    bare = {index: held for index, held in opened.items() if not _kept_apart(batch, batch.trace.moments[index])}
    if sum(batch.of_batch(row) for held in bare.values() for row in held.values()) > batch.limit(NAME) + NEARLY:
        index = max(bare, key=lambda one: sum(map(batch.of_batch, bare[one].values())))
        yield _finding(batch, batch.trace.moments[index], list(bare[index].values()))


def _opened(batch, one):
    """The first high shear on it in oil, before any emulsion is made."""
    for moment in batch.trace.path(one.moment):
        if batch.is_emulsion and batch.both_phases(moment.contents):
            return None
        if moment.shear.rank.low >= HIGH and batch.trace.weight(moment.contents, *OIL) > batch.trace.weight(moment.contents, "water", "alcohol"):
            return moment
    return None


def _kept_apart(batch, moment) -> bool:
    return bool(batch.trace.holds(moment, *KEEPS_APART)) or any(WETS in batch.graph.rows[code].material.name for code in moment.contents if code in batch.graph.rows)


def _finding(batch, moment, rows) -> Finding:
    milled = any("mill" in tool for later in batch.trace.path(moment) if later.vessel == moment.vessel for tool in later.shear.tools)
    total = sum(map(batch.of_batch, rows))
    later = [row for row in batch.method.rows if row.material.is_a("dispersant")]
    fix = (f"Put {later[0].name} into {moment.vessel} before the powder." if later else
           f"Put a dispersant into {moment.vessel} before the powder, such as polyhydroxystearic acid, a tenth of the powder; or a part of the emulsifier.")
    return Finding(LOWER[LEVEL] if milled else LEVEL, NAME, f"{share(total)} of {listed(row.name for row in rows)} is dispersed in {moment.vessel} with no dispersant beside it",
                   Label(moment.span, "nothing keeps the grains apart"), tuple(Label(row.span, "clumps") for row in rows[:3]), WHY, fix, batch.source(NAME),
                   material=rows[0].name if len(rows) == 1 else "", step=moment.step.number)
