"""A pigment or mineral sun filter is not wetted and opened in a liquid before the emulsion is made, or before the batch is filled.

Why it matters
    The powder comes in lumps of fine grains. Only wetting in a liquid it likes and high shear or a mill opens them; in a finished emulsion or a
    thick melt nothing does any more. What stays shut shows as white dots, streaks and a weak shade, and a sun filter protects less.

Wrong
    phase B: powder
        8 %  titanium dioxide
    phase C: oils
        10 %  caprylic/capric triglyceride
        3 %  polysorbate 60
    method
        charge C into side
        add side to main with homogeniser
        add B to main with anchor

Wrong
    type anhydrous
    phase B: shade
        3 %  castor oil
        1 %  red iron oxide
    method
        charge B into side
        stir side with propeller
        transfer side to pail

Right
    phase B: powder
        8 %  titanium dioxide
    phase C: oils
        10 %  caprylic/capric triglyceride
        3 %  polysorbate 60
    method
        charge C into side
        add B to side, sprinkled, with dissolver
        add side to main with homogeniser

Limits
    From 0.05 % of the batch on. High shear or a mill while it lies in a liquid and no emulsion is made yet; in a mere suspension or paste a
    turbine, a pestle or a look for lumps will do, and a powder blend needs a mill. A fineness that is measured counts as milled.

Exceptions
    Ready pastes and dispersions; dyes that dissolve in oil. Where an emulsion with water outside is made under high shear with the powder in
    its oil, it is a hint up to 2 % and a warning above. Pearl and fillers.

Source
    formulators' forum, titanium dioxide and iron oxides added dry to a water-in-oil emulsion gave white dots and streaks; public threads on zinc
    oxide; the rest is common practice, no source
"""

from procsheet.findings import Finding, Label
from procsheet.rules.batch import TRACE
from procsheet.rules.words import listed
from procsheet.syntax import tree
from procsheet.trace.trace import HIGH, MEDIUM

NAME = "pigment-wet"
LEVEL = "WARN"
KINDS = ("pigment", "uv filter inorganic", "zinc oxide")
LIQUID = ("water", "oil", "silicone", "alcohol")
SUSPENDED = ("suspension", "paste", "gel", "solution", "hydroalcoholic")         # thick enough to rub lumps away in (common practice, no source)
LOOKED_FOR = ("smooth", "lump-free", "wetted", "dispersed")
LEFT_OUT = ("soap", "surfactant solution")
WHY = "The lumps it comes in stay shut: they show as white dots, streaks and a weak shade, and a sun filter protects less. Later nothing opens them."


def check(batch):
    if batch.type in LEFT_OUT:
        return
    faults: dict[tuple, list] = {}
    for one in batch.trace.exposures:
        if is_pigment(batch, one.row) and (fault := _fault(batch, one)):
            faults.setdefault((one.moment.vessel, *fault), []).append(one)
    for (_, level, what), those in faults.items():
        first = min((one.moment for one in those), key=lambda moment: moment.index)
        yield _finding(batch, first, level, what, list({one.row.code: one.row for one in those}.values()))


def is_pigment(batch, row) -> bool:
    """Whether a row is such a powder, and enough of it."""
    material = row.material
    return (material.is_a(*KINDS) and material.text("form") == "powder" and not {"oil", "water"} & set(material.words("dissolves in"))
            and batch.of_batch(row) >= batch.limit(NAME, "from which"))


def _fault(batch, one) -> tuple[str, str] | None:
    """The level, and what is wrong."""
    if batch.is_emulsion and one.moment.before_facts.emulsified:
        return LEVEL, "late"
    path = list(batch.trace.path(one.moment))
    meets = next((moment for moment in path if batch.is_emulsion and batch.both_phases(moment.contents)), None)
    way = path[:path.index(meets)] if meets is not None else path
    tried = [_opened(batch, moment) for moment in way]
    if True in tried or any(_measured(moment) for moment in path):
        return None
    if meets is not None and not batch.is_water_in_oil and any(moment.shear.rank.low >= HIGH for moment in path):
        return ("NOTE" if batch.of_batch(one.row) < batch.limit(NAME, "hint") else LEVEL), "only with the water"
    return ("OPEN" if None in tried else LEVEL), "never"


def _opened(batch, moment) -> bool | None:
    """Whether a step opens the lumps in it; None where its tool is not said."""
    wet = batch.type == "powder" or batch.trace.share(moment, *LIQUID) >= TRACE
    if batch.type in SUSPENDED and (moment.shear.rank.low >= MEDIUM or moment.shear.rank.high >= MEDIUM and moment.step.has("by hand") or _looked_for(moment)):
        return wet
    if moment.shear.rank.low >= HIGH:
        return wet
    return None if moment.shear.rank.high >= HIGH and wet else False


def _looked_for(moment) -> bool:
    until = moment.step.value("until", "each until")
    return isinstance(until, tree.States) and bool(set(until.names) & set(LOOKED_FOR))


def _measured(moment) -> bool:
    """Whether its fineness is measured: `until fineness at most 10 µm`, `check main fineness ...`."""
    said = (moment.step.written.slots.get("MEASURE"), moment.step.value("until", "each until"))
    return any(isinstance(one, tree.Measure) and one.name == "fineness" for one in said)


def _finding(batch, moment, level, what, rows) -> Finding:
    names, one = listed(row.name for row in rows), len({row.name for row in rows}) == 1
    by_when = "before the drops are made" if batch.is_emulsion else "before the batch is filled"
    title = {"late": f"{names} {'goes' if one else 'go'} dry into the emulsion in {moment.vessel}",
             "only with the water": f"{names} {'meets' if one else 'meet'} the water before a mill or high shear has opened {'it' if one else 'them'} in the oil",
             "never": f"no mill, and no high shear in a liquid, opens {names} {by_when}"}[what]
    if level == "OPEN":
        title = f"which tool stirs {names} is not said, so whether {'its' if one else 'their'} lumps are opened was not checked"
    return Finding(level, NAME, title, Label(moment.span, "dry, into what is an emulsion already" if what == "late" else "goes in here"),
                   tuple(Label(row.span, "comes in lumps") for row in rows), WHY, _fix(batch, moment, what, names), batch.source(NAME),
                   material=rows[0].name if one else "", step=moment.step.number)


def _fix(batch, moment, what, names) -> str:
    if batch.type == "powder":
        return f"Put a step after line {moment.span.line}: mill {moment.vessel} with hammer mill until the shade no longer changes."
    if what == "late":
        return f"Wet {names} in as much ester or oil in a vessel of its own, mill it to 20 µm or less, and add the paste to the oil phase before the water goes in."
    return f"Put a step after line {moment.span.line}: mill {moment.vessel} with roll mill until fineness at most 20 µm, or homogenise it with dissolver at 15 m/s."
