"""Strategies that write methods in the language, from its tables: a new verb, clause or property is drawn as soon as it is a row.

    methods()           a whole method; its names resolve, its phases are all used
    steps(verb)         a step with this verb: its form filled, and clauses that fit it
    clauses(row)        one clause;  phrases: one word of the table that stands alone
"""

from hypothesis import strategies as st

from procsheet.syntax import clauses as tables
from procsheet.syntax import forms
from procsheet.syntax.properties import MEASURED, TYPES
from procsheet.syntax.verbs import VERBS

VESSELS, PLACES = ("main", "side", "pail"), ("bars", "pan")
ROWS = {"A": ("purified water", "glycerin", "xanthan gum"), "B": ("mineral oil", "cetearyl alcohol"), "C": ("phenoxyethanol", "fragrance"),
        "D": ("citric acid",)}
NAMED = "cooling"                       # the step that others speak of
TEXTS = st.sampled_from(['"no foam is left"', '"it starts to thicken"', '"as the standard"', '"75 mL tube"'])


# ---- figures

def _digits(low: int, high: int):
    whole = st.integers(low, high).map(str)
    return whole | st.tuples(st.integers(low, high), st.integers(0, 9)).map(lambda parts: f"{parts[0]}.{parts[1]}")


def figures(unit: str, low: int = 1, high: int = 99, ranges: bool = True):
    """A figure or a range in a unit, or a blank."""
    blank = " " if unit else ""
    one = _digits(low, high).map(lambda digits: f"{digits}{blank}{unit}")
    pair = st.tuples(st.integers(low, high), st.integers(1, 9), st.sampled_from(["-", "–", " to ", " ± "])).map(
        lambda parts: f"{parts[0]}{parts[2]}{parts[1] if parts[2] == ' ± ' else parts[0] + parts[1]}{blank}{unit}")
    return st.one_of(one, pair, st.just(f"?{blank}{unit}")) if ranges else one


TEMPERATURES = st.one_of(figures("°C", 20, 90), figures("°F", 70, 190), figures("C", 20, 90),
                         st.sampled_from(["room temperature", "about 25 °C", "5 °C above set point",
                                          "10 °C below flash point of \"mineral oil\""]))
TIMES = st.one_of(figures("min"), figures("h", 1, 24), figures("days", 1, 9), st.just("about 5 min"))
VACUUMS = st.sampled_from(["-0.5 bar", "-0.5 to -0.7 bar", "400 mbar abs", "? bar", "-20 inHg"])
SHARES = figures("%", 1, 50)
POINTS = st.sampled_from(['flash point of "mineral oil"', "melting point"])
TOOLS = st.one_of(st.sampled_from([*tables.TOOL_WORD, '"central mixer"', "?"]),
                  st.tuples(st.sampled_from(sorted(tables.HIGH_SHEAR)), st.sampled_from([" and ", " or "]),
                                                                                    st.sampled_from(tables.STIRRERS)).map("".join))
SPEEDS = st.one_of(figures("rpm", 10, 3000),
                   figures("m/s", 1, 20)).map(lambda figure: f"at {figure}") | st.sampled_from(["at setting 5", "at setting ?"])
MEASURES = st.sampled_from([f"{row.name} {row.example}" for row in MEASURED])
ENDS = st.one_of(st.sampled_from(sorted(tables.STATE_WORD)), TEXTS, MEASURES, st.just("clear and lump-free"), st.just("40 °C"))

TAKES = {"T": TEMPERATURES, "t": TIMES, "P": VACUUMS, "R": SHARES, "RATE": figures("kg/min", 1, 9) | figures("L/min", 1, 9),
         "SPEED": figures("rpm", 10, 3000), "setting": st.just("setting 5"),
         "S": st.just(NAMED), "TOOL": TOOLS, "DEVICE": st.sampled_from(['"in-line homogeniser"', "200 µm"]), '"text"': TEXTS, "E": ENDS,
         "n": figures("passes", 1, 5), "cycles": st.just("5 freeze-thaw cycles"), "POINT": POINTS,
         "NAME": st.just("other-step"), "t of S": figures("min", 1, 9).map(lambda figure: f"{figure} of {NAMED}")}


def clauses(row: tables.Clause):
    """One clause of the table, its opener and what stands behind it."""
    values = st.one_of([TAKES[one] for one in row.takes.split("|")])
    if row.kind == "on dilution":
        return values.map(lambda value: f"on {value} dilution")
    if row.kind == "at":
        values = TEMPERATURES | TAKES["RATE"] | SPEEDS.map(lambda speed: speed.removeprefix("at "))
    if row.kind in ("never above", "never below", "keeping", "below", "above", "at most", "at least"):
        values = values.filter(lambda value: " to " not in value)
    return values.map(lambda value: f"{row.opener} {value}")


PHRASES = {kind: st.sampled_from(words) for kind, words, _, _ in tables.PHRASES}

# ---- what is added

MATERIALS = st.sampled_from([f'"{name}"' for names in ROWS.values() for name in names])
OBJECTS = st.one_of(
    st.sampled_from(["A", "B", "C", "A and B", "A, B and C", "side", "pail", "half of A", "the rest of A", "1/3 of B", "20 % of A",
                     "the hold-back", "?", 'A except "glycerin" and "xanthan gum"']),
    MATERIALS, st.tuples(MATERIALS, MATERIALS).map(" and ".join), MATERIALS.map(lambda name: f"half of {name}"),
    st.just('"glycerin" and "xanthan gum" from A'))

FILLS = {"X": OBJECTS, "V": st.just("main"), "W": st.just("side"), "T": TEMPERATURES, "t": TIMES, "P": VACUUMS, "Q": SHARES | figures("g"),
         "MEASURE": MEASURES,
         "PLACE": st.sampled_from(['"75 mL tube"', *PLACES]), "DEVICE": TAKES["DEVICE"], "text": TEXTS, "E": ENDS, "UP": OBJECTS,
         "DOWN": OBJECTS}
WATCHED = ENDS.filter(lambda end: end != "40 °C")           # `wait` works on no vessel: a temperature would be nobody's
ALWAYS = {"cool": "to 25-30 °C", "hold": "for 20 min", "rest": "for 12 h"}    # what these cannot do without, though their form lets it out


@st.composite
def bare_steps(draw, verb):
    """A verb with one of its forms filled, and nothing else."""
    form = draw(st.sampled_from(verb.forms))
    words, text = [draw(st.sampled_from([verb.name, *verb.also]))], form.removeprefix(verb.name)
    for slot in forms.slots(text):
        if slot.optional and draw(st.booleans()):
            continue
        opener = "to" if verb.name in ("add", "transfer") and "to" in slot.openers else slot.openers[0]
        words += [opener] * bool(opener) + [draw(WATCHED if slot.kind == "E" else FILLS[slot.key if slot.key in FILLS else slot.kind])]
    words += ["with nitrogen"] * ("with nitrogen" in form) + ["top and bottom"] * ("top and bottom" in form)
    if verb.name in ALWAYS and not (verb.name == "cool" and "to" in words):
        words.append(ALWAYS[verb.name])
    return " ".join(words)


def fitting(verb) -> list:
    """The clauses and phrases that make sense with a verb, each with its kind."""
    rows = [(row.kind, clauses(row)) for row in tables.CLAUSES if row.question not in verb.forbids and row.kind not in ("at", "called",
                                                                                                                        "tool")]
    words = [(kind, PHRASES[kind]) for kind, _, question, _ in tables.PHRASES if question not in verb.forbids and kind not in ("vacuum",)]
    taken = {"cool": ("below", "above", "at most", "at least"), "hold": ("for",), "rest": ("for",), "wait": ("for", "until"),
             "neutralise": (), "sample": ("for",)}.get(verb.name, ())
    return [(kind, made) for kind, made in rows + words if kind not in taken]


@st.composite
def steps(draw, verb=None):
    """A step that the reader must take without a finding."""
    verb = verb or draw(st.sampled_from(VERBS))
    words = [draw(bare_steps(verb))]
    if verb.group not in ("people",) and verb.name not in ("blanket", "adjust", "check", "wait", "set aside", "compare"):
        chosen = draw(st.lists(st.sampled_from(fitting(verb)), max_size=3, unique_by=lambda pair: pair[0]))
        words += [draw(made) for _, made in chosen]
        if tables.STIRRED not in verb.forbids and draw(st.booleans()):
            words.append(f"with {draw(TOOLS)} {draw(SPEEDS)}")
    text = draw(st.sampled_from([" ", ", "])).join(words)
    return f"{text}{draw(st.sampled_from(['', '  -- a remark', '  # a comment']))}"


# ---- a whole method

@st.composite
def amounts(draw):
    share = draw(figures("%", 1, 9))
    qualifiers = draw(st.lists(st.sampled_from(["within 1-9 %", "as pure", "optional"]), unique=True, max_size=2))
    return " ".join([share, *qualifiers])


@st.composite
def formulas(draw):
    lines = ["phase A: water",
             f"    {draw(st.sampled_from(['to 100 %', 'to 100 %, about 80.2 %', 'q.s. to 100 %', 'q.s.']))}  purified water"]
    if draw(st.booleans()):
        lines.append("        hold back 1.5 %")
    for letter, names in ROWS.items():
        lines += [f"phase {letter}"] * (letter != "A")
        for name in names[1:] if letter == "A" else names:
            needed = "as needed, about 0.1 %, at most 0.3 %" if letter == "D" else draw(amounts())
            lines.append(f"    {needed}  {name}")
            if draw(st.integers(0, 5)) == 0 and letter == "B":
                lines.append(f"    or 5 %  {name} NF")
    return lines


@st.composite
def blocks(draw, inside):
    """One block with steps in it."""
    body = [f"        {line}" for line in draw(inside)]
    return draw(st.sampled_from([
        ["    choose one", "    option by-hand", *body, "    option by-machine", *body, "    end"],
        ["    where the plant has vacuum", *body, "    otherwise", *body, "    end"],
        ['    if "the bulk is grainy"', *body, "    end"], ["    repeat at most 4 times until main clear", *body, "    end"]]))


@st.composite
def methods(draw):
    """A whole method: everything the page lists may stand in it."""
    header = ["product Drawn Cream", f"type {draw(st.sampled_from(TYPES))}",
              draw(st.sampled_from(["basis 1 kg", "basis 2 lb", "basis the sum"]))]
    header += draw(st.lists(st.sampled_from(["code DC-1", 'revision 3 because "more glycerin" on 2026-03-02', 'written by "R.T."',
                                             "yield bulk 97-99.5 %", 'proven at 2 kg']), unique=True))
    places = [f"vessel {name}" for name in VESSELS] + [f"mould {name}" for name in PLACES]
    body = ["stage Charge", "    charge A into main", "    charge B into side", "    add side to main",
            f"    cool main to 25-30 °C with anchor at 30 rpm called {NAMED}",
            "    add C to main below 40 °C", "    adjust main to pH 5.0-5.5 with D", "stage Drawn"]
    body += [f"    {step}" for step in draw(st.lists(steps(), max_size=6))]
    body += draw(blocks(st.lists(steps(), min_size=1, max_size=2))) if draw(st.booleans()) else []
    limits = [f"    {draw(MEASURES)}" for _ in range(draw(st.integers(1, 3)))]
    pack = ['pack "75 mL tube"', "    declared 75 mL", "    24 per case"] if draw(st.booleans()) else []
    return "\n".join([*header, *draw(formulas()), *places, "method", *body, "    fill main", "limits", *limits, *pack]) + "\n"
