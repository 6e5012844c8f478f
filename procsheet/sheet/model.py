"""The printed sheet as a value: what stands on it, in reading order. Strings, flags and small counts; nothing is worked out here.

A string that is '' was not given. Where a hand must fill it in, it prints as a ruled blank. Numbers come as they shall be read:
`120.0`, `75–80`, `1.0800`. Vessel names come in capitals.
"""

from typing import NamedTuple, Union

BARS = ("solid", "hatched", "hollow", "dotted", "crossed")      # first vessel, second, third ...
KINDS = ("plain", "strong", "number", "vessel", "blank")


class Run(NamedTuple):
    """A stretch of a sentence. A blank holds its unit as `text`, and perhaps the sum that gives the figure."""

    text: str
    kind: str = "plain"             # one of KINDS
    sum: str = ""                   # '5 °C above the melting point of B2'


Words = tuple[Run, ...]


class Box(NamedTuple):
    """A place to write in. Width counts columns of a step (1 to 3), elsewhere shares of the row."""

    caption: str                    # 'MAIN °C', 'done by'
    limit: str = ""                 # '75–80', printed in the box
    width: int = 1
    second: bool = False            # a second person signs: thick
    filled: str = ""                # what is known beforehand: a name, 'none'


class Caution(NamedTuple):
    danger: str                     # 'Hot oil and wax.'
    advice: str = ""                # 'Burns. Keep water out.'


# every page

class Head(NamedTuple):
    product: str = ""
    code: str = ""
    revision: str = ""
    batch: str = ""
    issue: str = ""
    issued: str = ""                # '12 April 2026, 07:40'
    digest: str = ""                # '8653 c91f 0c4e cd53'
    draft: bool = False             # every page says so
    correcting: str = "Permanent ink. Strike a wrong entry once, keep it readable, initial, date, give the reason."


# front

class Fact(NamedTuple):
    caption: str                    # 'Working time'
    text: str = ""


class Equipment(NamedTuple):
    bar: str                        # one of BARS
    vessel: str
    must_be: str = ""
    planned: str = ""               # the plant's tag


class Point(NamedTuple):
    """What the check of the method found, and who must have read it."""

    level: str                      # 'To know', 'Exception', 'Not checked'
    fact: str
    more: str = ""
    box: Box = Box("read by, date")


class Approval(NamedTuple):
    role: str                       # 'written by'
    name: str = ""
    second: bool = False


class Front(NamedTuple):
    kind: str = "Batch record and work instruction"
    about: tuple[str, ...] = ()     # a line each
    size: str = ""                  # '120.0 kg'
    expected: str = ""              # '116.4 – 119.4 kg'
    expected_note: str = ""
    facts: tuple[Fact, ...] = ()
    equipment: tuple[Equipment, ...] = ()
    cautions: tuple[Caution, ...] = ()
    cautions_note: str = ("The plant’s own procedures, local codes and current safety data sheets apply; "
                          "this sheet does not replace them.")
    points_title: str = "What the check of the method found"
    points: tuple[Point, ...] = ()  # three on the front page, the others on a page of their own
    approvals: tuple[Approval, ...] = ()


# before starting

class BeforeStarting(NamedTuple):
    checks: tuple[str, ...]
    clearance: tuple[Box, ...] = (Box("cleaned as in procedure, number", width=3), Box("clearance given by, second person", width=3, second=True),
                                  Box("date", width=2), Box("time", width=2))
    vessels: tuple[Equipment, ...] = ()         # for the marks explained


# weighing

class Weighing(NamedTuple):
    phases: tuple["WeighingPhase", ...]
    unit: str = "kg"                # one unit in every column; '' where each row has its own
    intro: str = ("Weigh in this order. Tare the empty container, weigh net, write every figure that the balance shows. "
                  "Label each container at once: material or code, lot, net weight, product, batch, step.")
    closing: tuple[Box, ...] = ()


class WeighingPhase(NamedTuple):
    name: str                       # 'Phase A'
    title: str
    total: str                      # '6 containers, 95.160 kg in all'
    rows: tuple["WeighingRow", ...]


class WeighingRow(NamedTuple):
    number: str
    material: str
    second_line: str                # code, grade, step
    target: str = ""
    low: str = ""
    high: str = ""
    balance: str = ""
    container: str = ""
    note: str = ""                  # 'Roll the can first.'
    second: bool = True             # a second person checks
    unit: str = ""                  # where it is not the page's
    before: str = ""                # 'about', 'up to' the target


# making

class Setting(NamedTuple):
    name: str                       # 'rotor-stator'
    value: str = ""
    unit: str = ""


class Cue(NamedTuple):
    head: str                       # 'Look for', 'Stop if', 'Meanwhile', 'Note'
    words: Words


class Addition(NamedTuple):
    code: str
    name: str
    amount: str = ""
    unit: str = "kg"
    second: bool = False


class PortionRow(NamedTuple):
    label: str
    cells: tuple[str, ...]          # '' is written in, 'none' is not


class Portions(NamedTuple):
    heads: tuple[str, ...]
    rows: tuple[PortionRow, ...]


class Step(NamedTuple):
    number: str
    bars: tuple[str, ...]           # one a vessel
    vessel: str                     # 'MAIN', 'SIDE → MAIN'
    sentence: Words
    inside: str = ""                # 'in step 11'
    second: bool = False            # two people
    cautions: tuple[Caution, ...] = ()
    settings: tuple[Setting, ...] = ()
    cues: tuple[Cue, ...] = ()
    boxes: tuple[Box, ...] = ()
    additions: tuple[Addition, ...] = ()
    portions: Portions | None = None


class Branch(NamedTuple):
    """Steps that depend on what the operator sees: `If the bulk is grainy:`, `Otherwise:`, `Repeat at most 4 times until clear:`"""

    head: Words
    parts: tuple[Union[Step, "Branch"], ...]
    rounds: int = 0                 # to tick, when it repeats
    end: Words = ()                 # 'Go on with step 12.'


class Lane(NamedTuple):
    bar: str
    vessel: str
    what: str = ""                  # 'kettle MK-2'
    note: str = ""                  # 'at the same time'
    parts: tuple[Step | Branch, ...] = ()


class Gate(NamedTuple):
    """What must be done before the lanes meet, and how long the early one may wait."""

    head: str
    words: Words
    boxes: tuple[Box, ...] = ()


class Lanes(NamedTuple):
    lanes: tuple[Lane, ...]
    gate: Gate | None = None


class Stage(NamedTuple):
    number: str                     # 'Stage 1'
    title: str
    parts: tuple[Step | Branch | Lanes, ...]


class Making(NamedTuple):
    stages: tuple[Stage, ...]
    closing: tuple[Box, ...] = ()
    packs: tuple[Box, ...] = (Box("lot code on the packs"), Box("packs and closures, lots"), Box("labels issued, used, spoiled"),
                              Box("packing record, label specimen: number"))


# checks, yield

class Check(NamedTuple):
    name: str
    how: str = ""
    limit: str = ""


class Mass(NamedTuple):
    name: str
    letter: str
    expected: str = ""


class Ratio(NamedTuple):
    name: str
    formula: str                    # '(b + c + d) ÷ a × 100'
    expected: str = ""
    unit: str = "%"


class Checks(NamedTuple):
    checks: tuple[Check, ...]
    masses: tuple[Mass, ...] = ()
    ratios: tuple[Ratio, ...] = ()
    unit: str = "kg"


# deviations, release

class Deviations(NamedTuple):
    intro: str = ("Anything that went otherwise than written. Hold the bulk until a decision is signed. "
                  "None: write “none” across the table and sign.")
    bulk: tuple[Box, ...] = ()
    laboratory: tuple[Box, ...] = (Box("test methods and sampling as in, number"), Box("report of the laboratory, number"), Box("reported by, date"))
    statements: tuple[str, ...] = ("Every entry is made, every page is here, every second-person check is signed",
                                   "Every check is within its limit, or its deviation is closed",
                                   "Yield and reconciliation are within their limits")
    outcomes: tuple[str, ...] = ("Released for filling", "Rework, see deviation", "Rejected")
    signing: tuple[Box, ...] = (Box("responsible person, name", width=5), Box("signature", width=4, second=True), Box("date", width=3))


class Sheet(NamedTuple):
    head: Head
    front: Front | None = None
    before: BeforeStarting | None = None
    weighing: Weighing | None = None
    making: Making | None = None
    checks: Checks | None = None
    deviations: Deviations | None = None
