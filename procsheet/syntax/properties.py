"""The table of properties: what can be measured, what is known of a material, what a plant has, what a header says."""

from typing import NamedTuple


class Measured(NamedTuple):
    """Something `check`, `limits`, `until` and `adjust` may name. `takes` is its dimension, or text."""

    name: str
    takes: tuple[str, ...]
    also: tuple[str, ...] = ()


MEASURED = (
    Measured("pH", ("number",), ("ph",)),
    Measured("viscosity", ("viscosity", "kinematic viscosity")),
    Measured("relative density", ("number",), ("specific gravity",)),
    Measured("density", ("density",)),
    Measured("temperature", ("temperature",)),
    Measured("appearance", ("text",)),
    Measured("colour", ("text", "number"), ("color", "shade")),
    Measured("odour", ("text",), ("odor",)),
    Measured("drop size", ("length",), ("droplet size", "particle size")),
    Measured("fineness", ("length", "number"), ("fineness of grind",)),
    Measured("refractive index", ("number",)),
    Measured("clarity", ("text", "turbidity", "number"), ("turbidity",)),
    Measured("solids", ("share",), ("dry residue",)),
    Measured("water", ("share",), ("water content",)),
    Measured("loss on drying", ("share",)),
    Measured("assay", ("share", "density", "activity", "volume share")),
    Measured("alcohol", ("volume share", "share")),
    Measured("yield value", ("pressure", "gauge pressure")),
    Measured("SPF", ("number",), ("spf",)),
    Measured("melting point", ("temperature",)),
    Measured("set point", ("temperature",), ("congealing point",)),
    Measured("pay-off", ("text", "mass"), ("payoff",)),
    Measured("hardness", ("number", "force", "length", "text"), ("penetration",)),
    Measured("foam height", ("length", "volume")),
    Measured("weight", ("mass",), ("mass",)),
    Measured("volume", ("volume",)),
    Measured("time", ("time",)),
    Measured("micro", ("text", "count per mass", "count per volume"), ("microbiology", "total count")),
    Measured("stable", ("time", "text"), ("stability",)),
    Measured("centrifuge", ("text",)),
)
MEASURED_WORD = {word: row for row in MEASURED for word in (row.name, *row.also)}


class Property(NamedTuple):
    """A line of a material, plant, header or pack: its name, how it is written, what it means."""

    name: str
    form: str
    meaning: str
    text: bool = False                  # the value is the rest of the line, word for word
    numeric: str = ""                   # the dimension a bare figure must have


MATERIAL = (
    Property("also called", "also called NAME", "another name it is known by; one a line", text=True),
    Property("INCI", "INCI NAME", "its name on the ingredient list", text=True),
    Property("CAS", "CAS NUMBER", "registry number", text=True),
    Property("kind", "kind NAME", "the family whose defaults and checks apply", text=True),
    Property("counts as", "counts as GROUP, GROUP", "groups that the checks know"),
    Property("form", "form WORD", "liquid, flakes, powder ...", text=True),
    Property("dissolves in", "dissolves in water, oil, silicone, alcohol, none", "where it goes"),
    Property("melts", "melts T", "from the first to the last melting", numeric="temperature"),
    Property("sets", "sets T", "where a melt becomes solid", numeric="temperature"),
    Property("boils", "boils T", "", numeric="temperature"),
    Property("flash point", "flash point T", "closed cup unless the source says otherwise", numeric="temperature"),
    Property("vapour pressure", "vapour pressure P at T", "", numeric="pressure"),
    Property("density", "density D at T", "", numeric="density"),
    Property("heat capacity", "heat capacity C at T", "", numeric="heat capacity"),
    Property("HLB", "HLB N", "", numeric="number"),
    Property("required HLB", "required HLB N", "of an oil, for an oil-in-water emulsion", numeric="number"),
    Property("ionic", "ionic anionic | cationic | nonionic | amphoteric", "charge in water", text=True),
    Property("thickens", "thickens water, oil", "which phase it thickens"),
    Property("hydrates for", "hydrates for t", "time it needs to swell", numeric="time"),
    Property("pre-wet in", "pre-wet in KIND 1:3-1:10", "wetted first in so much of this"),
    Property("add below", "add below T", "the batch must be below this when it goes in", numeric="temperature"),
    Property("add after", "add after emulsified", "not before this has happened", text=True),
    Property("never above", "never above T", "at no time after it went in", numeric="temperature"),
    Property("never below", "never below T", "at no time after it went in", numeric="temperature"),
    Property("at most", "at most t above T", "how long it stands this heat"),
    Property("shear", "shear any | medium | low | at most 5 m/s for at most 10 min | low after neutralising", "what mixing it stands"),
    Property("pH", "pH 3-8", "of the product in which it keeps working", numeric="number"),
    Property("own pH", "own pH 3-4", "as supplied, or on its usual dilution", numeric="number"),
    Property("salt tolerance", "salt tolerance Q", "salt up to which it keeps its work", numeric="share"),
    Property("needs", "needs WHAT", "without it, it does not work"),
    Property("never with", "never with KIND [above Q] [below pH N] [before hydration]", "a partner that spoils it"),
    Property("use", "use Q", "usual amount in the finished batch", numeric="share"),
    Property("limit", 'limit Q "regulation, entry"', "most that a regulation allows; not legal advice"),
    Property("assay", "assay Q", "share of the named substance as supplied", numeric="share"),
    Property("oil phase", "oil phase Q", "oil share in which an emulsifier works", numeric="share"),
    Property("pKa", "pKa N", "", numeric="number"),
    Property("weigh as", 'weigh as "grade wording"', "what the weighing list prints"),
    Property("before weighing", 'before weighing "roll the can"', "printed beside the weighing line"),
    Property("once open", "once open t", "how long an opened pack keeps", numeric="time"),
    Property("strainer", "strainer at least 500 µm", "finest strainer it passes", numeric="length"),
    Property("pump", 'pump "no gear pump"', "printed where it is pumped"),
    Property("hazard", "hazard H225, H319", "statements of the safety data sheet"),
    Property("dust", "dust", "a powder that dusts"),
    Property("corrosive", "corrosive", "attacks skin and eyes"),
    Property("sensitiser", "sensitiser", "may cause an allergy"),
    Property("light", "light", "must be kept from light"),
    Property("wear", 'wear "what the data sheet says"', "printed with the caution"),
    Property("supplier", 'supplier "words"', "", text=True),
    Property("pack", "pack Q at PRICE, shelf life t, store T", "how it is bought"),
    Property("made from", 'made from "other.method"', "it is the product of another method"),
    Property("composed of", "composed of INCI Q, INCI Q", "its parts on the ingredient list", text=True),
    Property("mass of a drop", "mass of a drop Q", "for rows in drops", numeric="mass"),
    Property("molar mass", "molar mass N", "g/mol", numeric="number"),
    Property("affinity", "affinity NAME", "the phase it belongs to", text=True),
    Property("decisive", "decisive NAME, NAME", "properties a kind cannot do without"),
)

PLANT = (
    Property("utilities", "utilities hot T, cold T, room T", "jacket media and room"),
    Property("print", "print metric | US", "units on paper"),
    Property("tolerance", "tolerance temperature T, weighing Q", "what a plain figure carries"),
    Property("filling loss", "filling loss Q", "left in hoppers and lines", numeric="mass"),
    Property("vessel", "vessel TAG", "a block of its own"),
    Property("pump", "pump TAG RATE, keeps Q", ""),
    Property("balance", "balance TAG to Q, reads Q, at least Q", ""),
    Property("container", "container NAME Q", ""),
    Property("operators", "operators N", "people for one batch"),
    Property("shift", "shift t, cleaning t a kettle", ""),
    Property("rule", "rule NAME", "a block of its own: limit and level"),
)
KETTLE = (
    Property("main kettle", "main kettle", "takes the whole batch"),
    Property("side kettle", "side kettle", "for one phase"),
    Property("working", "working Q", "least and most it works with", numeric="volume"),
    Property("diameter", "diameter Q", "inside", numeric="length"),
    Property("jacket", "jacket AREA, COEFFICIENT [, hot only]", "heat transfer"),
    Property("vacuum", "vacuum to P", "", numeric="gauge pressure"),
    Property("load cells", "load cells read Q", "", numeric="mass"),
    Property("closed", "closed", "has a lid that closes"),
    Property("nitrogen", "nitrogen", "can be blanketed"),
    Property("power", "power Q", "of the stirrer's drive", numeric="power"),
    Property("inerted", "inerted", "rated and inerted for flammable vapour"),
)
RULE = (
    Property("limit", 'limit Q from "source" (grade)', "the figure the check compares with"),
    Property("level", 'level WARN because "reason"', "STOP, WARN, NOTE or off"),
)
HEADER = (
    Property("product", "product NAME", "the name on every page", text=True),
    Property("type", "type KIND OF PRODUCT", "says what is outside when the product is done", text=True),
    Property("basis", "basis Q", "the batch the formula is written for: 1 kg, 10 L, or the sum"),
    Property("code", "code CODE", "", text=True),
    Property("revision", 'revision N [because "why"] [on DATE]', ""),
    Property("made for", 'made for "NAME"', ""),
    Property("written by", 'written by "INITIALS"', ""),
    Property("checked by", 'checked by "INITIALS"', ""),
    Property("proven", 'proven on "bench.plant" | proven at Q', "where and at what size it has worked"),
    Property("materials", 'materials "house.materials"', "your own material data, beside the shipped ones"),
    Property("yield", "yield bulk 97-99.5 %", "expected, with limits"),
    Property("bulk keeps", 'bulk keeps t at T in "drum"', "how long the unfilled product may wait"),
)
PACK = (
    Property("declared", "declared Q", "on the label"),
    Property("directions", 'directions "text"', "words for the pack"),
    Property("fill tolerance", "fill tolerance Q", ""),
    Property("batch code", 'batch code "where"', ""),
)
TYPES = ("oil-in-water emulsion", "water-in-oil emulsion", "water-in-silicone emulsion", "multiple emulsion", "gel", "solution", "surfactant solution",
         "hydroalcoholic", "anhydrous", "suspension", "paste", "powder", "soap")
GRADES = ("standard", "handbook", "data set", "paper", "supplier", "practice", "memory")
