"""The table of clauses: what may follow a verb, in any order, and what each means.

`takes` says what stands behind the opener:
    T temperature   t time   t of S a time of a step   P pressure   R a figure with a bound or range   RATE mass, volume or heat per time   SPEED rpm, m/s
    S a named step   TOOL   DEVICE   cycles   "text"   E an end point   n a count   POINT `flash point` and the like   NAME   '' nothing
Clauses with nothing behind them are whole phrases; `kind` is what the program calls them, the first phrase is the plain one.
"""

from typing import NamedTuple


class Clause(NamedTuple):
    kind: str
    opener: str
    takes: str
    question: str
    meaning: str
    example: str = ""
    wrong: str = ""                     # a slip that is often made


WARM, LONG, STIRRED, ADDED = "how warm?", "how long?", "how fast stirred?", "how added?"
UNTIL, WHEN, COVERED, HEATED, ELSE = "until when?", "when?", "covered?", "heated or cooled how?", "else"
QUESTIONS = (WARM, LONG, STIRRED, ADDED, UNTIL, WHEN, COVERED, HEATED, ELSE)

CLAUSES = (
    Clause("at", "at", "T|P|RATE|SPEED|setting", WARM,
           "what the thermometer (gauge, dial) must show before the step starts; it warms nothing itself", "at 75 °C", "at 75"),
    Clause("below", "below", "T", WARM, "the step starts only below this temperature", "below 40 °C", "below 40"),
    Clause("above", "above", "T", WARM, "the step starts only above this temperature", "above 65 °C", "above 65"),
    Clause("at most", "at most", "T", WARM, "the step starts at this temperature or below", "at most 40 °C", "at most 40"),
    Clause("at least", "at least", "T", WARM, "the step starts at this temperature or above", "at least 70 °C", "at least 70"),
    Clause("both at", "both at", "T", WARM, "both vessels must show it", "both at 72-80 °C", "both at 72-80"),
    Clause("both within", "both within", "T", WARM, "the two vessels may differ by so much", "both within 5 °C of each other",
           "both within 5 min"),
    Clause("keeping", "keeping", "T", WARM, "kept all through the step", "keeping 70-75 °C", "keeping 5 min"),
    Clause("never above", "never above", "T|POINT", WARM, "a ceiling all through the step", "never above 80 °C", "never above 80"),
    Clause("never below", "never below", "T|POINT", WARM, "a floor all through the step", "never below 60 °C", "never below 60"),

    Clause("over", "over", "t", LONG, "spread the addition over this time", "over 5 min", "over 5"),
    Clause("for", "for", "t|n", LONG, "how long, or how many passes", "for 8 min", "for 8"),
    Clause("then for", "then for", "t", LONG, "afterwards the tool goes on for this time", "then for 8 min", "then for 8"),
    Clause("each for", "each for", "t", LONG, "so long after each", "each for 2 min", "each for 2"),
    Clause("within", "within", "t", LONG, "done before this time is up", "within 30 min", "within cooling"),

    Clause("tool", "with", "TOOL", STIRRED, "the stirrer, with a high-shear tool beside it if named", "with homogeniser and anchor",
           "with ancor"),

    Clause("until", "until", "E", UNTIL, "the end point to look for", "until melted", "until meltd"),
    Clause("each until", "each until", "E", UNTIL, "the end point after each", "each until dissolved", "each until 5 min"),

    Clause("during", "during", "S", WHEN, "inside a step that goes on", "during cooling", 'during "cooling"'),
    Clause("after", "after", "S|t", WHEN, "not before that step is done", "after emulsified", 'after "cooling"'),
    Clause("just before", "just before", "S", WHEN, "as the last thing before that step", "just before emulsifying", "just before 5 min"),
    Clause("last of", "in the last", "t of S", WHEN, "near the end of a step that goes on", "in the last 5 min of milling",
           "in the last 5 min"),
    Clause("every", "every", "t", WHEN, "again and again", "every 30 min", "every 30"),
    Clause("when", "when", '"text"|E', WHEN, "as soon as this is seen", 'when "it starts to thicken"', "when thickening"),
    Clause("before", "before", '"text"|S', WHEN, "earlier than this is seen", 'before "it sets"', "before 40 °C"),
    Clause("if", "if", '"text"', WHEN, "only when this is seen", 'if "grains are seen"', "if grainy"),
    Clause("if not", "if not", '"text"', WHEN, "what to do when the check fails", 'if not "homogenise 4 min more, once"', "if not stirred"),

    Clause("jacket not below", "jacket not below", "T", HEATED, "a floor for the jacket", "jacket not below 20 °C", "jacket not below 20"),
    Clause("jacket not above", "jacket not above", "T", HEATED, "a ceiling for the jacket", "jacket not above 90 °C",
           "jacket not above 90"),

    Clause("on dilution", "on", "R", ELSE, "measured on this dilution", "on 10 % dilution", "on 10 g dilution"),
    Clause("plus", "plus", "R", ELSE, "so much more, because it evaporates", "plus 3-5 % for evaporation", "plus 3 g for evaporation"),
    Clause("through", "through", "DEVICE|cycles", ELSE, "by way of a device or sieve", 'through "in-line homogeniser"', "through a sieve"),
    Clause("because", "because", '"text"', ELSE, "the reason, printed beside the step", 'because "trial 41"', "because trial"),
    Clause("called", "called", "NAME", ELSE, "a name for the step, so that others can say during, after or before it", "called cooling",
           'called "cooling"'),
)

# phrases that stand alone: kind, phrases (the first is the plain one), question, meaning
PHRASES = (
    ("briefly", ("briefly",), LONG, "a moment; the plant's own figure"),
    ("twice", ("twice",), LONG, "two times over"),
    ("stirring", ("with stirring", "under stirring", "while stirring", "with agitation", "under agitation", "with mixing", "while mixing"),
     STIRRED, "stirred, the tool is left open"),
    ("unstirred", ("without stirring", "unstirred", "without agitation", "without mixing"), STIRRED, "nothing turns"),
    ("by hand", ("by hand",), STIRRED, "whisk, spatula or pestle"),
    ("slow stirring", ("stirring slowly", "with slow stirring", "under slow stirring"), STIRRED, "low shear"),
    ("gentle stirring", ("stirring gently", "gently", "with gentle stirring", "under gentle stirring", "with gentle agitation"), STIRRED,
     "low shear"),
    ("moderate stirring", ("stirring moderately", "moderately", "with moderate stirring", "under moderate stirring",
                           "with moderate agitation"), STIRRED, "medium shear"),
    ("fast stirring", ("stirring fast", "fast", "stirring rapidly", "with fast stirring", "with rapid stirring", "under fast stirring"),
     STIRRED, "medium shear"),
    ("vigorous stirring", ("stirring vigorously", "vigorously", "with vigorous stirring", "under vigorous stirring",
                           "with vigorous agitation"), STIRRED, "medium to high shear"),
    ("low shear", ("at low shear", "low shear", "under low shear"), STIRRED, "sweep, anchor, paddle, propeller"),
    ("medium shear", ("at medium shear", "medium shear", "under medium shear"), STIRRED, "turbine, fast propeller"),
    ("high shear", ("at high shear", "high shear", "under high shear", "with high shear"), STIRRED, "rotor-stator, saw-tooth disc, mill"),
    ("without air", ("without air", "without drawing in air"), STIRRED, "no vortex"),
    ("without foam", ("without foam", "without foaming"), STIRRED, "no froth"),
    ("running before", ("running before",), STIRRED, "the tool runs before the addition starts"),
    ("slowly", ("slowly", "gradually"), ADDED, "of adding, heating or cooling, never of the stirrer"),
    ("very slowly", ("very slowly",), ADDED, "of adding, heating or cooling"),
    ("in portions", ("in portions",), ADDED, "one portion after another"),
    ("one at a time", ("one at a time", "one by one"), ADDED, "each before the next"),
    ("in order", ("in the order listed", "in this order"), ADDED, "as the formula lists them"),
    ("sprinkled", ("sprinkled", "sifted"), ADDED, "powder strewn over the surface"),
    ("into the vortex", ("into the vortex",), ADDED, "where the stirrer draws it in"),
    ("onto the surface", ("onto the surface",), ADDED, "let fall on the surface"),
    ("below the surface", ("below the surface",), ADDED, "through a dip pipe or bottom valve"),
    ("drop by drop", ("drop by drop", "dropwise"), ADDED, "drops"),
    ("at once", ("at once",), WHEN, "without waiting"),
    ("vacuum", ("under vacuum",), COVERED, "lid closed, vacuum on; stops with the step"),
    ("nitrogen", ("under nitrogen",), COVERED, "nitrogen over the batch; stops with the step"),
    ("covered", ("covered", "closed"), COVERED, "lid on"),
    ("open", ("open", "uncovered"), COVERED, "lid off"),
    ("insulated", ("insulated",), COVERED, "wrapped to hold the heat"),
    ("water bath", ("on a water bath", "in a water bath"), HEATED, "heated by hot water"),
    ("steam bath", ("on a steam bath", "on steam"), HEATED, "heated by steam"),
    ("ice bath", ("in an ice bath",), HEATED, "cooled by ice"),
    ("cold bath", ("in a cold water bath", "in a cold bath"), HEATED, "cooled by cold water"),
    ("quickly", ("quickly", "rapidly", "fast cooling"), HEATED, "as fast as the jacket can"),
    ("if needed", ("if needed", "if necessary"), ELSE, "the operator decides on the day"),
    ("optional", ("optional",), ELSE, "may be left out by whoever makes the papers"),
    ("double-checked", ("double-checked", "double checked"), ELSE, "a second person signs"),
)

BY_OPENER = {clause.opener: clause for clause in CLAUSES}
BY_KIND = {clause.kind: clause for clause in CLAUSES}
PHRASE_KIND = {phrase: kind for kind, phrases, _, _ in PHRASES for phrase in phrases}
PHRASE_QUESTION = {kind: question for kind, _, question, _ in PHRASES}

# an opener that belongs to a verb's own form, or joins two vessels
FORM_OPENERS = ("into", "to", "in", "with", "through", "for", "up with", "down with")
# filling words that only make a figure read well
FILLERS = ("of each other", "of one another", "dilution", "solution", "for evaporation", "of loss", "for loss")

STATES = {                              # what `until` may say, and the other words for it
    "melted": ("molten", "all melted", "fully melted"), "dissolved": ("all dissolved", "fully dissolved"),
    "dispersed": ("fully dispersed",),
    "wetted": ("wet", "wetted out"), "hydrated": ("fully hydrated", "swollen"), "clear": ("crystal clear",), "translucent": (),
    "uniform": ("homogeneous", "even"), "smooth": (), "lump-free": ("lump free", "free of lumps"),
    "in": ("taken up", "incorporated", "worked in"),
    "free of air": ("air-free", "the air has left"), "thick": ("thickened",), "set": ("solid",), "cold": ("cool",),
}
STATE_WORD = {word: state for state, words in STATES.items() for word in (state, *words)}

STIRRERS = ("anchor", "sweep", "paddle", "propeller", "turbine", "blade", "whisk")
HIGH_SHEAR = {
    "homogeniser": ("homogenizer", "rotor-stator", "rotor stator"), "dissolver": ("disperser", "saw-tooth", "saw-tooth disc"),
    "blender": (),
    "stick blender": (), "colloid mill": (), "bead mill": (), "ball mill": (), "roll mill": ("three-roll mill", "triple-roll mill"),
    "hammer mill": (), "jet mill": (), "pestle": ("pestle and mortar", "mortar and pestle"), "press": (),
}
OTHER_STIRRERS = {"sweep": ("sweep mixer", "side wiper", "scraper"), "anchor": ("anchor stirrer",), "propeller": ("propeller stirrer",),
                  "whisk": ("hand whisk",)}
TOOL_WORD = {word: tool for tool in STIRRERS for word in (tool, *OTHER_STIRRERS.get(tool, ()))} | {
    word: tool for tool, words in HIGH_SHEAR.items() for word in (tool, *words)}

POINTS = ("set point", "flash point", "melting point", "boiling point", "cloud point", "softening point")
