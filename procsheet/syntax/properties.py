"""The table of properties: what can be measured, what is known of a material, what a plant has, what a header says."""

from typing import NamedTuple


class Measured(NamedTuple):
    """Something `check`, `limits`, `until` and `adjust` may name. `takes` is its dimension, or text; words in quotes always fit."""

    name: str
    takes: tuple[str, ...]
    example: str                        # a value, as it is written behind it
    also: tuple[str, ...] = ()


MEASURED = (
    Measured("pH", ("number",), "5.0-5.5", ("ph",)),
    Measured("viscosity", ("viscosity", "kinematic viscosity"), "9000-14000 mPa.s at 25 °C"),
    Measured("relative density", ("number",), "0.98-1.02", ("specific gravity",)),
    Measured("density", ("density",), "0.98-1.02 g/mL at 20 °C"),
    Measured("temperature", ("temperature",), "below 40 °C"),
    Measured("appearance", ("text",), '"smooth, white"'),
    Measured("colour", ("text", "number"), '"as the standard"', ("color", "shade")),
    Measured("odour", ("text",), '"as the standard"', ("odor", "smell")),
    Measured("drop size", ("length",), "at most 5 µm", ("droplet size", "particle size")),
    Measured("fineness", ("length", "number"), "at most 10 µm", ("fineness of grind",)),
    Measured("refractive index", ("number",), "1.398-1.402"),
    Measured("clarity", ("text", "turbidity", "number"), '"clear against a printed line"', ("turbidity",)),
    Measured("solids", ("share",), "24-26 %", ("dry residue",)),
    Measured("water", ("share",), "at most 0.5 %", ("water content",)),
    Measured("loss on drying", ("share",), "at most 2 %"),
    Measured("assay", ("share", "density", "activity", "volume share"), "19-21 %"),
    Measured("alcohol", ("volume share", "share"), "78-82 % v/v"),
    Measured("yield value", ("pressure", "gauge pressure"), "at least 10 Pa"),
    Measured("SPF", ("number",), "at least 30", ("spf",)),
    Measured("melting point", ("temperature",), "60-65 °C"),
    Measured("set point", ("temperature",), "50-53 °C", ("congealing point",)),
    Measured("pay-off", ("text", "mass"), '"even, no drag"', ("payoff",)),
    Measured("hardness", ("number", "force", "length", "text"), "2-4 mm", ("penetration",)),
    Measured("foam height", ("length", "volume"), "at least 100 mm"),
    Measured("weight", ("mass",), "95-105 g", ("mass",)),
    Measured("volume", ("volume",), "98-102 mL"),
    Measured("time", ("time",), "at most 30 s"),
    Measured("micro", ("text", "count per mass", "count per volume"), '"to the plan"', ("microbiology", "total count")),
    Measured("stable", ("time", "text"), "3 months at 45 °C", ("stability",)),
    Measured("centrifuge", ("text",), '"no separation after 30 min at 3000 rpm"'),
)
MEASURED_WORD = {word: row for row in MEASURED for word in (row.name, *row.also)}


class Property(NamedTuple):
    """A line of a material, plant, header or pack: its name, how it is written, what it means."""

    name: str
    form: str
    meaning: str
    text: bool = False                  # the value is the rest of the line, word for word
    numeric: str = ""                   # the dimension its figure must have
    example: str = ""                   # a line as it is written
    wrong: str = ""                     # a slip that is often made; without one, the reference page makes one up
    also: str = ""                      # the other spelling of its name


MATERIAL = (
    Property("also called", "also called NAME", "another name it is known by; one a line", text=True,
             example="also called cetostearyl alcohol"),
    Property("INCI", "INCI NAME", "its name on the ingredient list", text=True, example="INCI Cetearyl Alcohol"),
    Property("CAS", "CAS NUMBER", "registry number", text=True, example="CAS 67762-27-0"),
    Property("kind", "kind NAME", "the family whose defaults and checks apply", text=True, example="kind fatty alcohol"),
    Property("counts as", "counts as GROUP, GROUP", "groups that the checks know", example="counts as electrolyte, divalent salt"),
    Property("form", "form WORD", "liquid, flakes, powder ...", text=True, example="form flakes"),
    Property("dissolves in", "dissolves in water, oil, silicone, alcohol, none", "where it goes", example="dissolves in oil"),
    Property("melts", "melts T", "from the first to the last melting", numeric="temperature",
             example='melts 49-56 °C from "pharmacopoeia range" (standard)'),
    Property("sets", "sets T", "where a melt becomes solid", numeric="temperature", example="sets 48 °C"),
    Property("boils", "boils T", "at ordinary pressure", numeric="temperature", example="boils 78 °C"),
    Property("flash point", "flash point T", "closed cup unless the source says otherwise", numeric="temperature",
             example="flash point 73 °C"),
    Property("vapour pressure", "vapour pressure P at T", "of the pure material", numeric="pressure",
             example="vapour pressure 133 Pa at 20 °C", also="vapor pressure"),
    Property("density", "density D at T", "mass of a volume; needed where a row is in mL", numeric="density",
             example="density 0.82 g/mL at 60 °C"),
    Property("heat capacity", "heat capacity C at T", "heat to warm it by one degree", numeric="heat capacity",
             example="heat capacity 2.3 kJ/kg/K"),
    Property("HLB", "HLB N", "of an emulsifier", numeric="number", example="HLB 15"),
    Property("required HLB", "required HLB N", "of an oil, for an oil-in-water emulsion", numeric="number", example="required HLB 10.5"),
    Property("ionic", "ionic anionic | cationic | nonionic | amphoteric", "charge in water", text=True, example="ionic anionic"),
    Property("thickens", "thickens water, oil", "which phase it thickens", example="thickens water"),
    Property("hydrates for", "hydrates for t", "time it needs to swell", numeric="time", example="hydrates for 30 min"),
    Property("pre-wet in", "pre-wet in KIND 1:3-1:10", "wetted first in so much of this", example="pre-wet in polyol 1:3-1:10"),
    Property("add below", "add below T", "the batch must be below this when it goes in", numeric="temperature", example="add below 40 °C"),
    Property("add after", "add after emulsified", "not before this has happened", text=True, example="add after emulsified"),
    Property("never above", "never above T", "at no time after it went in", numeric="temperature", example="never above 90 °C"),
    Property("never below", "never below T", "at no time after it went in", numeric="temperature", example="never below 10 °C"),
    Property("at most", "at most t above T", "how long it stands this heat", example="at most 2 h above 70 °C"),
    Property("shear", "shear any | medium | low | at most 5 m/s for at most 10 min | low after neutralising", "what mixing it stands",
             example="shear low after neutralising"),
    Property("pH", "pH 3-8", "of the product in which it keeps working", numeric="number", example="pH 3-8"),
    Property("own pH", "own pH 3-4", "as supplied, or on its usual dilution", numeric="number", example="own pH 3-4"),
    Property("salt tolerance", "salt tolerance Q", "salt up to which it keeps its work", example="salt tolerance 1 %"),
    Property("needs", "needs WHAT", "without it, it does not work", example="needs polar activator 25-50 %"),
    Property("never with", "never with KIND [above Q] [below pH N] [before hydration]", "a partner that spoils it",
             example="never with cationic above 0.1 % below pH 5"),
    Property("use", "use Q", "usual amount in the finished batch", numeric="share", example="use 1-6 %"),
    Property("limit", 'limit Q [as WHAT] [together] [[only] in USE or USE | not in USE] [for "purpose"] "regulation, entry" ["condition"] [read YEAR | state DATE]',
             "most that a regulation allows of it, on its own or `together` with what stands in the same entry, and when that text was read or of "
             "what date it is; data, not legal advice", numeric="share",
             example='limit 0.5 % as acid together in leave-on "EU 1223/2009, annex V, entry 1" read 2026'),
    Property("prohibited", 'prohibited "regulation, entry" [in USE or USE] [read YEAR | state DATE]',
             "a regulation does not allow it, or not for this use; data, not legal advice",
             example='prohibited "EU 1223/2009, annex II, entry 1730" state 2024'),
    Property("declare above", 'declare above Q [in USE] "regulation, entry"', "share from which the label names it", numeric="share",
             example='declare above 0.001 % in leave-on "EU 1223/2009, annex III, entry 70" read 2026'),
    Property("reckon as", "reckon as WHAT Q", "its share that counts where a limit is given as acid, as zinc ...", numeric="share",
             example="reckon as acid 84.75 %"),
    Property("assay", "assay Q", "share of the named substance as supplied", numeric="share", example="assay 38 %"),
    Property("oil phase", "oil phase Q", "oil share in which an emulsifier works", numeric="share", example="oil phase 30-40 %"),
    Property("pKa", "pKa N", "of an acid, for its share at a pH", numeric="number", example="pKa 4.2"),
    Property("weigh as", 'weigh as "grade wording"', "what the weighing list prints", example='weigh as "35 % grade"'),
    Property("before weighing", 'before weighing "roll the can"', "printed beside the weighing line",
             example='before weighing "roll the can"'),
    Property("once open", "once open t", "how long an opened pack keeps", numeric="time", example="once open 24 h"),
    Property("strainer", "strainer at least 500 µm", "finest strainer it passes", numeric="length", example="strainer at least 500 µm"),
    Property("pump", 'pump "no gear pump"', "printed where it is pumped", example='pump "no gear pump"'),
    Property("hazard", "hazard H225, H319", "statements of the safety data sheet", example="hazard H225, H319"),
    Property("dust", "dust", "a powder that dusts", example="dust"),
    Property("corrosive", "corrosive", "attacks skin and eyes", example="corrosive"),
    Property("sensitiser", "sensitiser", "may cause an allergy", example="sensitiser", also="sensitizer"),
    Property("light", "light", "must be kept from light", example="light"),
    Property("wear", 'wear ["what the data sheet says"]', "printed with the caution", example='wear "goggles and gloves"'),
    Property("supplier", 'supplier "words"', "where it comes from", text=True, example='supplier "from two makers"'),
    Property("pack", "pack Q at PRICE, shelf life t, store T", "how it is bought",
             example="pack 25 kg at 4.10 EUR per kg, shelf life 24 months, store 15-25 °C"),
    Property("made from", 'made from "other.method"', "it is the product of another method", example='made from "stock.method"'),
    Property("composed of", "composed of INCI Q, INCI Q", "its parts on the ingredient list", text=True,
             example="composed of Water 62 %, Sorbitol 38 %"),
    Property("mass of a drop", "mass of a drop Q", "for rows in drops", numeric="mass", example="mass of a drop 0.03 g"),
    Property("molar mass", "molar mass N", "g/mol", numeric="number", example="molar mass 40.0"),
    Property("affinity", "affinity NAME", "the phase it belongs to", text=True, example="affinity oil"),
    Property("decisive", "decisive NAME, NAME", "properties a kind cannot do without", example="decisive melts, use"),
)

PLANT = (
    Property("utilities", "utilities hot T, cold T, room T", "jacket media and room",
             example="utilities hot 95 °C, cold 12 °C, room 20-25 °C"),
    Property("print", "print metric | US", "units on paper", example="print metric"),
    Property("tolerance", "tolerance temperature T, weighing Q", "what a plain figure carries",
             example="tolerance temperature 2 °C, weighing 0.5 %"),
    Property("filling loss", "filling loss Q", "left in hoppers and lines", numeric="mass", example="filling loss 2 kg"),
    Property("weighing loss", "weighing loss Q", "left in scoops and containers, and bought on top", numeric="share",
             example="weighing loss 0.5 %"),
    Property("vessel", "vessel TAG", "a block of its own", example="vessel K60"),
    Property("pump", "pump TAG RATE, keeps Q", "its flow, and what stays in it", example="pump P1 20 L/min, keeps 1.5 kg"),
    Property("balance", "balance TAG to Q, reads Q, at least Q", "its most, its step, and the least it may weigh",
             example="balance B6 to 6 kg, reads 0.1 g, at least 20 g"),
    Property("container", "container NAME Q", "what the plant empties into", example="container drum 60 L"),
    Property("operators", "operators N", "people for one batch", example="operators 2"),
    Property("shift", "shift t, cleaning t a kettle", "working time, and time between two batches",
             example="shift 8 h, cleaning 90 min a kettle"),
    Property("rule", "rule NAME", "a block of its own: limit and level", example="rule equal-temps"),
)
KETTLE = (
    Property("main kettle", "main kettle", "takes the whole batch", example="main kettle"),
    Property("side kettle", "side kettle", "for one phase", example="side kettle"),
    Property("working", "working Q", "least and most it works with", numeric="volume", example="working 12-60 L"),
    Property("diameter", "diameter Q", "inside", numeric="length", example="diameter 0.42 m"),
    Property("jacket", "jacket AREA, COEFFICIENT [, flow RATE] [, hot only]", "heat transfer; with a flow, its medium cools or warms on the way", example="jacket 0.55 m2, 380 W/m2/K"),
    Property("vacuum", "vacuum to P", "the deepest it reaches", numeric="gauge pressure", example="vacuum to -0.8 bar"),
    Property("load cells", "load cells read Q", "the vessel stands on a scale with this step", numeric="mass",
             example="load cells read 0.2 kg"),
    Property("closed", "closed", "has a lid that closes", example="closed"),
    Property("nitrogen", "nitrogen", "can be blanketed", example="nitrogen"),
    Property("power", "power Q", "of the stirrer's drive", numeric="power", example="power 4 kW"),
    Property("inerted", "inerted", "rated and inerted for flammable vapour", example="inerted"),
)
RULE = (
    Property("limit", 'limit Q from "source" (grade)', "the figure the check compares with",
             example='limit 5 °C from "house experience" (practice)'),
    Property("level", 'level WARN because "reason"', "STOP, WARN, NOTE or off",
             example='level WARN because "our emulsifier forgives more"'),
)
HEADER = (
    Property("product", "product NAME", "the name on every page", text=True, example="product Harbour Hand Cream"),
    Property("type", "type KIND OF PRODUCT", "says what is outside when the product is done", text=True,
             example="type oil-in-water emulsion", wrong="type cream"),
    Property("used as", "used as USE, USE", "how it is used, where neither its name nor its type say so; limits of use depend on it",
             example="used as rinse-off, hair", wrong="used as washed off"),
    Property("basis", "basis Q", "the batch the formula is written for: 1 kg, 10 L, or the sum", example="basis 1 kg"),
    Property("code", "code CODE", "the product's own number; papers need it", text=True, example="code HHC-014"),
    Property("revision", 'revision N [because "why"] [on DATE]', "which state of the method this is, and why it changed",
             example='revision 3 because "more glycerin" on 2026-03-02', wrong="version 3"),
    Property("made for", 'made for "NAME"', "whose product it is", example='made for "Harbour Soap Company"',
             wrong='client "Harbour Soap Company"'),
    Property("written by", 'written by "INITIALS"', "who wrote the method", example='written by "R.T."', wrong='author "R.T."'),
    Property("checked by", 'checked by "INITIALS"', "who checked it", example='checked by "M.O."', wrong='approved by "M.O."'),
    Property("proven", 'proven on "bench.plant" | proven at Q', "where and at what size it has worked", example='proven on "bench.plant"'),
    Property("materials", 'materials "house.materials"', "your own material data, beside the shipped ones",
             example='materials "house.materials"'),
    Property("yield", "yield bulk 97-99.5 %", "expected, with limits", example="yield bulk 97-99.5 %"),
    Property("bulk keeps", 'bulk keeps t at T in "drum"', "how long the unfilled product may wait",
             example='bulk keeps 7 days at 15-25 °C in "drum"'),
)
PACK = (
    Property("declared", "declared Q", "on the label", example="declared 75 mL"),
    Property("directions", 'directions "text"', "words for the pack", example='directions "Shake before use."'),
    Property("fill tolerance", "fill tolerance Q", "allowed difference of one pack", example="fill tolerance 2 %"),
    Property("batch code", 'batch code "where"', "where the batch number stands on the pack", example='batch code "on the crimp"'),
)
TYPES = ("oil-in-water emulsion", "water-in-oil emulsion", "water-in-silicone emulsion", "multiple emulsion", "gel", "solution",
         "surfactant solution",
         "hydroalcoholic", "anhydrous", "suspension", "paste", "powder", "soap")
# what a product is used as, in words of which one rules out the others of its row; then what may be true or not of any
USES = {
    "way": ("leave-on", "rinse-off", "oral care"),
    "part": ("face", "hands", "body", "hair", "lips", "eyes", "nails"),
    "form": ("spray", "deodorant", "depilatory", "hair dye", "baby care"),
    "no cosmetic": ("medicine", "biocide", "household"),
}
GRADES = ("standard", "handbook", "data set", "paper", "supplier", "practice", "memory")
