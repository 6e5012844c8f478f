"""The table of verbs: what each step is called, how it is written, what it does.

A form is the pattern a step must fit and the words a message shows:
    X what is added   V, W vessels   T temperature   t time   P pressure   Q quantity   R target of a property
    "text" words in quotes   PLACE a mould, container or words   DEVICE words or a mesh   [ ] may be left out
"""

from typing import NamedTuple


class Verb(NamedTuple):
    name: str
    forms: tuple[str, ...]
    group: str
    meaning: str
    example: str
    also: tuple[str, ...] = ()
    needs: tuple[str, ...] = ()         # clauses it cannot do without
    forbids: tuple[str, ...] = ()       # questions (see clauses.py) that make no sense beside it
    wrong: str = ""                     # a slip that is often made; the reference page shows what is said of it


ADDING = "how added?"
WARM = "how warm?"
MIXED = "how fast stirred?"
LONG = "how long?"
UNTIL = "until when?"
COVER = "covered?"
BATH = "heated or cooled how?"

VERBS = (
    # moving
    Verb("charge", ("charge X into V",), "moving", "put weighed material into an empty vessel", "charge A into main",
         wrong="charge A main"),
    Verb("add", ("add X to V",), "moving", "add material, or another vessel, to what is in the vessel", "add C to main below 40 °C",
         wrong="add glycerin to main slwoly"),
    Verb("transfer", ("transfer V to W",), "moving", "move all of one vessel into another", "transfer side to main",
         wrong="transfer to main"),
    Verb("rinse", ("rinse V with X into W",), "moving", "wash what is left in a vessel into another",
         "rinse side with the hold-back into main",
         wrong="rinse side into main"),
    Verb("discharge", ("discharge V into PLACE",), "moving", "empty the vessel into drums or another container",
         'discharge main into "drum"', forbids=(ADDING,),
         wrong="discharge main"),
    Verb("fill", ("fill V [into PLACE]",), "moving", "fill into packs", "fill main at 20-30 °C", forbids=(ADDING,),
         wrong='fill "75 mL tube"'),
    Verb("pour", ("pour V into PLACE",), "moving", "pour into moulds or packs", 'pour main into "lined mould"',
         wrong="pour main"),
    # heat
    Verb("heat", ("heat V to T",), "heat", "warm until the thermometer shows it", "heat main to 75-80 °C with anchor",
         also=("warm", "reheat"), forbids=(ADDING,),
         wrong="heat main 75-80 °C"),
    Verb("cool", ("cool V [to T]",), "heat", "cool until the thermometer shows it", "cool main to 30 °C with anchor at 30 rpm",
         forbids=(ADDING,),
         wrong="cool main at 30 °C below 40"),
    Verb("hold", ("hold V [at T]",), "heat", "keep at a temperature", "hold side at 75-80 °C for 20 min", needs=("for or until",),
         forbids=(ADDING,),
         wrong="hold side at 75-80 °C"),
    Verb("stop heating", ("stop heating V",), "heat", "take the heat off", "stop heating main", forbids=(ADDING, MIXED),
         wrong="stop heating"),
    # mixing
    Verb("mix", ("mix V",), "mixing", "mix with the stirrer", "mix main for 10 min with propeller", also=("blend",), forbids=(ADDING,),
         wrong="mix A for 10 min"),
    Verb("stir", ("stir V",), "mixing", "mix with the stirrer", "stir main until uniform with anchor", also=("agitate",), forbids=(ADDING,),
         wrong="stir main 10 min"),
    Verb("homogenise", ("homogenise V",), "mixing", "high shear", "homogenise main for 5 min with homogeniser at 12 m/s",
         also=("homogenize",), forbids=(ADDING,),
         wrong="homogenise main for 5 min at 12"),
    Verb("mill", ("mill V",), "mixing", "break up agglomerates", "mill pigment with bead mill until smooth", also=("grind", "triturate"),
         forbids=(ADDING,),
         wrong="mill side with bead mil"),
    Verb("recirculate", ("recirculate V through DEVICE",), "mixing", "pump round through a device",
         'recirculate main through "in-line homogeniser" for 3 passes', forbids=(ADDING,),
         wrong="recirculate main for 3 passes"),
    Verb("pass", ("pass V through DEVICE into W",), "mixing", "pump once through a device into another vessel",
         'pass main through "colloid mill" into tank', forbids=(ADDING,),
         wrong="pass main into tank"),
    Verb("shake", ("shake V",), "mixing", "mix by shaking", "shake main gently for 1 min", forbids=(ADDING,),
         wrong="shake gently"),
    Verb("stop stirring", ("stop stirring V",), "mixing", "stirrer off", "stop stirring main", forbids=(ADDING, MIXED),
         wrong="stop stirring"),
    # meaning
    Verb("disperse", ("disperse X in V",), "meaning", "wet and separate the particles",
         'disperse "xanthan gum" in pail by hand until lump-free',
         wrong='disperse "xanthan gum" by hand'),
    Verb("dissolve", ("dissolve X in V",), "meaning", "add and stir until it has dissolved",
         'dissolve "sodium chloride" in side until clear',
         wrong='dissolve "sodium chloride" until clear'),
    Verb("hydrate", ("hydrate V",), "meaning", "let a gum, polymer or clay swell", "hydrate main for 30 min with propeller",
         forbids=(ADDING,),
         wrong='hydrate "xanthan gum"'),
    Verb("melt", ("melt V",), "meaning", "warm until all is liquid", "melt side until melted", forbids=(ADDING,),
         wrong="melt B"),
    Verb("emulsify", ("emulsify X into V",), "meaning", "make droplets of one phase in the other",
         "emulsify side into main over 5 min with homogeniser",
         wrong="emulsify side with homogeniser"),
    Verb("neutralise", ("neutralise V with X",), "meaning", "swell a polymer, or make soap, with a base",
         'neutralise main with "triethanolamine" slowly', also=("neutralize",),
         wrong="neutralise main"),
    Verb("activate", ("activate V with X",), "meaning", "swell an organoclay with a polar activator",
         'activate main with "propylene carbonate"',
         wrong="activate main"),
    Verb("react", ("react V",), "meaning", "let a reaction run", 'react main until "a trail stays on the surface"', forbids=(ADDING,),
         wrong="react main until a trail stays"),
    # cover
    Verb("deaerate", ("deaerate V",), "cover", "take the air out", "deaerate main for 10 min under vacuum at -0.5 bar",
         also=("de-aerate", "deair", "degas"),
         forbids=(ADDING,),
         wrong="deaerate main under vacuum at 0.5 bar"),
    Verb("evacuate", ("evacuate V to P",), "cover", "draw a vacuum and keep it", "evacuate main to -0.6 bar", forbids=(ADDING,),
         wrong="evacuate main to 0.6 bar"),
    Verb("vent", ("vent V",), "cover", "let air or nitrogen back in", "vent main slowly", forbids=(),
         wrong="vent"),
    Verb("blanket", ("blanket V with nitrogen",), "cover", "lay nitrogen over the batch", "blanket main with nitrogen",
         forbids=(ADDING, MIXED),
         wrong="blanket with nitrogen"),
    Verb("close", ("close V",), "cover", "close the lid", "close main", forbids=(ADDING,),
         wrong="close"),
    Verb("open", ("open V",), "cover", "open the lid", "open main", forbids=(ADDING,),
         wrong="open"),
    # to a target
    Verb("adjust", ("adjust V to PROPERTY R with X", "adjust V to PROPERTY R up with X down with X", "adjust V to PROPERTY R up with X",
                    "adjust V to PROPERTY R down with X"), "to a target",
         "add a corrector until the value is right", "adjust main to pH 5.0-5.5 on 10 % dilution with D, in portions, each for 5 min",
         wrong="adjust main to 5.0-5.5 with D"),
    Verb("make up", ("make up V with X to Q",), "to a target", "add until the batch has its weight or volume",
         'make up main with "purified water" to 100 %', also=("top up",),
         wrong='make up main with "purified water" to 100'),
    Verb("replace loss", ("replace loss in V with X",), "to a target", "put back what evaporated, where no row closes",
         'replace loss in main with "purified water"',
         wrong="replace loss in main"),
    Verb("dry", ("dry V [to Q]",), "to a target", "take water or solvent off", "dry main to 5 %", forbids=(ADDING,),
         wrong="dry main to 5"),
    # control
    Verb("check", ("check V PROPERTY R",), "control", "measure and compare",
         'check main appearance "smooth", if not "homogenise 4 min more, once"',
         forbids=(ADDING,),
         wrong="check main viscosity 9000-14000"),
    Verb("sample", ("sample V [Q] [for \"text\"]",), "control", "take a sample", 'sample main 200 g for "microbiology"',
         forbids=(ADDING, WARM),
         wrong="sample main 200 g for microbiology"),
    Verb("strain", ("strain V through DEVICE [into W]",), "control", "take out lumps", "strain main through 200 µm",
         also=("filter", "sieve"), forbids=(ADDING,),
         wrong="strain main through 100 mesh"),
    Verb("rest", ("rest V",), "control", "let it stand", "rest main for 12 h covered", also=("stand",), needs=("for or until",),
         forbids=(ADDING,),
         wrong="rest main overnight"),
    Verb("set aside", ("set aside V",), "control", "keep ready for later", "set aside pail covered", forbids=(ADDING,),
         wrong='set aside "xanthan gum"'),
    Verb("wait", ("wait t", "wait for \"text\"", "wait for t", "wait until E"), "control", "nothing is done before",
         'wait for "release by the laboratory"',
         forbids=(ADDING, MIXED),
         wrong="wait"),
    Verb("compare", ("compare V top and bottom",), "control", "two samples must look alike", "compare main top and bottom",
         forbids=(ADDING,),
         wrong="compare top and bottom"),
    # places
    Verb("cut", ("cut [PLACE]",), "places", "cut what has set", "cut bars", forbids=(ADDING, MIXED),
         wrong='cut "bars" with anchor'),
    Verb("cure", ("cure [PLACE]",), "places", "keep until ready", "cure bars for 4 weeks", forbids=(ADDING, MIXED),
         wrong="cure bars 4 weeks"),
    Verb("unmould", ("unmould [PLACE]",), "places", "take out of the mould", "unmould bars", also=("unmold",), forbids=(ADDING, MIXED),
         wrong="unmould bars with anchor"),
    Verb("press", ("press [PLACE]",), "places", "press powder in its pan", "press pan twice", forbids=(ADDING, MIXED),
         wrong="press pan at 80"),
    Verb("crimp", ("crimp [PLACE]",), "places", "close the can", "crimp", forbids=(ADDING, MIXED),
         wrong="crimp can with anchor"),
    # people
    Verb("note", ('note "text"',), "people", "a hint beside the step", 'note "No foam may be left before C goes in."',
         forbids=(ADDING, MIXED, WARM, LONG, UNTIL, COVER, BATH),
         wrong="note No foam may be left"),
    Verb("caution", ('caution "text"',), "people", "a danger, printed before what follows", 'caution "The lye heats itself."',
         forbids=(ADDING, MIXED, WARM, LONG, UNTIL, COVER, BATH),
         wrong="caution the lye heats itself"),
    Verb("prepare", ('prepare V "text"', 'prepare "text"'), "people", "get equipment or material ready, with a box to tick",
         'prepare main "Drain the jacket."', forbids=(ADDING, WARM, COVER, BATH),
         wrong="prepare the jacket"),
    Verb("do", ('do "text"',), "people", "anything the words above do not say, with a box to tick",
         'do "Photograph a drop under the microscope."',
         forbids=(ADDING,),
         wrong="do photograph a drop"),
)

# words people use for a step, and how it is written here
MEANT = {
    **dict.fromkeys(("combine", "load", "weigh", "put", "place", "dispense"), "`charge`: charge A into main"),
    **dict.fromkeys(("incorporate", "introduce", "drop", "dose", "feed", "pump", "sprinkle", "sift", "dust", "spray", "premix", "pre-mix"),
                    "`add`: add C to main slowly, or add C to main sprinkled"),
    **dict.fromkeys(("maintain", "keep"), "`hold`: hold main at 75-80 °C for 20 min"),
    **dict.fromkeys(("leave", "let", "allow", "age", "mature", "quarantine"), "`rest`: rest main for 12 h"),
    **dict.fromkeys(("whisk", "beat", "whip"), "`stir`: stir main with whisk until smooth"),
    **dict.fromkeys(("knead", "roll", "rub", "grate"), "`do`: do \"Cut the wax in flakes.\""),
    **dict.fromkeys(("shear",), "`homogenise`: homogenise main for 5 min with homogeniser"),
    **dict.fromkeys(("chill", "refrigerate", "freeze"), "`cool`: cool main to 25 °C"),
    **dict.fromkeys(("boil", "bring", "raise"), "`heat`: heat main to 75-80 °C"),
    **dict.fromkeys(("lower", "reduce"), "`cool`: cool main to 40 °C"),
    **dict.fromkeys(("package", "bottle", "pack", "tube"), "`fill`: fill main into \"75 mL tube\""),
    **dict.fromkeys(("test", "measure", "verify", "inspect", "confirm"), "`check`: check main pH 5.0-5.5"),
    **dict.fromkeys(("stop", "switch", "turn"),
                    "`stop stirring main` or `stop heating main`; high-shear tools, vacuum and nitrogen stop with their step"),
    **dict.fromkeys(("start", "begin", "continue", "run", "increase"), "`stir`: stir main with anchor at 30 rpm"),
    "vacuum": "`deaerate`: deaerate main for 10 min under vacuum at -0.5 bar",
    **dict.fromkeys(("warning", "danger", "attention"), "`caution`: caution \"The lye heats itself.\""),
    **dict.fromkeys(("remark", "hint", "comment"), "`note`: note \"No foam may be left.\""),
    **dict.fromkeys(("record", "clean", "scrape", "photograph", "label", "attach", "remove", "take"),
                    "`do`: do \"Scrape the wall and the stirrer.\""), "drain": "`discharge`: discharge main into \"drum\"",
    **dict.fromkeys(("rebalance", "re-balance", "balance", "correct"),
                    "`adjust ... with`, a corrector with a cap, or `make up ... to 100 %`: a phase is not balanced again on the day"),
    **dict.fromkeys(("gas", "pressurise", "pressurize"), "`crimp`; a row of `phase E in the pack` is charged in the pack by itself"),
    "slurry": "`disperse`: disperse \"titanium dioxide\" in side",
    **dict.fromkeys(("dilute", "bulk"), "`add` or `make up`: make up main with \"purified water\" to 100 %"),
    **dict.fromkeys(("quench",), "`rinse` or `add the hold-back to main`"),
}
BY_WORD = {word: verb for verb in VERBS for word in (verb.name, *verb.also)}
GROUPS = ("moving", "heat", "mixing", "meaning", "cover", "to a target", "control", "places", "people")
