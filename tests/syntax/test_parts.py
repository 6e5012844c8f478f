"""The header, formula, vessels, blocks, limits, packs and acceptances of the page's method, and its material and plant files."""

import pytest

from procsheet.source import source as text_of
from procsheet.syntax.data import parse_data, parse_plant
from procsheet.syntax.parse import parse_method
from tests.sources import source
from tests.syntax.told import entry, row, told, without_places

METHOD = '''product Harbour Hand Cream                       # product, type and basis: every method needs these three
type oil-in-water emulsion
basis 1 kg
code HHC-014                                     # needed before papers are issued
revision 3 because "more glycerin" on 2026-03-02
made for "Harbour Soap Company"
written by "R.T."
checked by "M.O."
proven on "bench.plant"                          # or: proven at 1 kg
materials "house.materials"
yield bulk 97-99.5 %
bulk keeps 7 days at 15-25 °C in "drum"

phase A: water
    to 100 %, about 80.2 %                purified water
        hold back 1.5 %                   -- rinse of the side kettle
    4.00 %                                glycerin
    0.10 % as pure                        tetrasodium glutamate diacetate
    or 0.12 % as pure                     tetrasodium EDTA
phase B2: oils
    5.00 % within 4-6 %                   cetearyl alcohol        -- melt fully before use
    6.00 % optional                       caprylic/capric triglyceride
    45-55 %                               cyclopentasiloxane
    3 drops                               rose oil
phase D: pH
    as needed, about 0.1 %, at most 0.3 % citric acid 20 % solution
    q.s.                                  sodium hydroxide
    ? %                                   fragrance
phase E in the pack: propellant
    8 %                                   butane

override "cetearyl alcohol" melts 52-54 °C because "lot sheet"

vessel main
vessel side "30 L, on wheels"
mould bar "wooden mould, 1 kg"
container drum

method
stage Heat both phases
    charge A except "glycerin" into main
    choose one
        option by-stirrer
            stir main for 1 min at 20-25 °C
        option by-machine
            pass main through "emulsifying machine" into side
    end
    where the plant has vacuum
        deaerate main for 10 min under vacuum at -0.5 bar
    otherwise
        note "No foam may be left."
    end
    if "the bulk is grainy"
        homogenise main for 4 min
    end
    repeat at most 4 times until main clear
        stir main for 5 min
    end
    ? add D to main
    fill main at 20-30 °C

limits
    pH 5.0-5.5 at 25 °C on 10 % dilution
    viscosity 9000-14000 mPa.s at 25 °C after 24 h -- spindle of the filler's laboratory
    appearance "white, glossy, no grains"
    stable 3 months at 45 °C
    stable through 5 freeze-thaw cycles
    assay of "zinc oxide" 19-21 %
as a material
    also called   hand cream base
    assay         10 %
pack "75 mL tube"
    declared 75 mL
    24 per case
    directions "Rub in."
    fill tolerance 2 %
    batch code "on the crimp"
    91 % product
    9 %  propellant
accept carbomer-shear for "carbomer" in milling because "recovers overnight, trial 41" by "R.T."
accept enough-shear because "trial 42" by "M.O."
'''
PARSED = parse_method(text_of("page.method", METHOD))
TREE = PARSED.tree


@source("by hand", "read off the method line by line")
def test_the_method_has_no_slip():
    """The whole of a method, with everything that may stand in it, is read."""
    assert PARSED.findings == () and TREE.has_method and TREE.broken == ()


@source("by hand", "read off the header line by line")
def test_the_header():
    """Each line of the header keeps its words, figures and texts apart."""
    assert [entry(line) for line in TREE.header] == [
        "product: Harbour Hand Cream", "type: oil-in-water emulsion", "basis: 1 kg", "code: HHC-014",
        "revision: 3 because 'more glycerin' on 2026-03-02 date", "made for: 'Harbour Soap Company'", "written by: 'R.T.'", "checked by: 'M.O.'",
        "proven: on 'bench.plant'", "materials: 'house.materials'", "yield: bulk 97..99.5 %", "bulk keeps: 7 days at 15..25 °C in 'drum'"]


@source("by hand", "read off the formula line by line")
def test_the_formula():
    """Amounts, guides, caps, ranges, qualifiers, hold-backs and alternatives stand in their rows."""
    assert [(phase.letter, phase.title, phase.in_pack) for phase in TREE.phases] == [
        ("A", "water", False), ("B2", "oils", False), ("D", "pH", False), ("E", "propellant", True)]
    assert [row(one) for phase in TREE.phases for one in phase.rows] == [
        "closing 100 % guide 80.2 % | purified water / hold back 1.5 %", "figure 4.00 % | glycerin",
        "figure 0.10 % pure | tetrasodium glutamate diacetate / or figure 0.12 % pure | tetrasodium EDTA",
        "figure 5.00 % within 4..6 % | cetearyl alcohol", "figure 6.00 % optional | caprylic/capric triglyceride",
        "figure 45..55 % | cyclopentasiloxane", "figure 3 drops | rose oil",
        "corrector guide 0.1 % cap 0.3 % | citric acid 20 % solution", "q.s. | sodium hydroxide", "open ? % | fragrance", "figure 8 % | butane"]
    assert TREE.phases[1].rows[0].remark.text == "melt fully before use"


@source("by hand", "read off the lines between formula and method")
def test_overrides_and_places():
    """Overrides carry their reason as source; vessels, moulds and containers their name and text."""
    assert [(one.material, entry(one.entry)) for one in TREE.overrides] == [("cetearyl alcohol", "melts: 52..54 °C from 'lot sheet' (supplier)")]
    assert [(place.kind, place.name, place.text) for place in TREE.places] == [
        ("vessel", "main", ""), ("vessel", "side", "30 L, on wheels"), ("mould", "bar", "wooden mould, 1 kg"), ("container", "drum", "")]


@source("by hand", "read off the method line by line")
def test_stages_steps_and_blocks():
    """Blocks hold the steps between their lines; a step may stand to be confirmed."""
    assert [told(item) for item in TREE.items] == [
        "stage Heat both phases", "charge X=[phase A except glycerin] V=[main] |", "choose : by-stirrer 1 / by-machine 1",
        "where vacuum: - 1 / otherwise 1", "if the bulk is grainy: - 1", "repeat  at most 4 times <clear>: - 1", "? add X=[phase D] V=[main] |",
        "fill V=[main] | at=20..30 °C"]


@source("by hand", "read off the lines below the method")
def test_what_stands_below_the_method():
    """Limits, data as a material, packs and acceptances."""
    assert [told(limit) for limit in TREE.limits] == [
        "pH=5.0..5.5; at=25 °C; on dilution=10 %", "viscosity=9000..14000 mPa.s; at=25 °C; after time=24 h",
        "appearance='white, glossy, no grains'", "stable=3 months; at=45 °C", "stable=None; through=5 freeze-thaw cycles", "assay of zinc oxide=19..21 %"]
    assert TREE.limits[1].remark.text == "spindle of the filler's laboratory"
    assert [entry(line) for line in TREE.as_material] == ["also called: hand cream base", "assay: 10 %"]
    assert [(pack.title, [entry(line) for line in pack.lines]) for pack in TREE.packs] == [("75 mL tube", [
        "declared: 75 mL", "per: 24 per case", "directions: 'Rub in.'", "fill tolerance: 2 %", "batch code: 'on the crimp'", "part: 91 % product",
        "part: 9 % propellant"])]
    assert [tuple(accept)[:5] for accept in TREE.accepts] == [
        ("carbomer-shear", "carbomer", "milling", "recovers overnight, trial 41", "R.T."), ("enough-shear", "", "", "trial 42", "M.O.")]


@source("by hand", "the same words, all at the margin")
def test_depth_is_for_the_eye():
    """A method typed without any indentation is the same method: words begin its parts, not blanks."""
    flat = parse_method(text_of("flat.method", "\n".join(line.strip() for line in METHOD.split("\n"))))
    assert flat.findings == ()
    assert without_places(flat.tree._replace(file="")) == without_places(TREE._replace(file=""))


MATERIAL = '''material cetearyl alcohol
    also called   cetostearyl alcohol
    INCI          Cetearyl Alcohol
    CAS           67762-27-0
    kind          fatty alcohol
    counts as     electrolyte, divalent salt
    dissolves in  oil
    melts         49-56 °C             from "pharmacopoeia range" (standard)
    density       0.82 g/mL at 60 °C   from "handbook table 4" (handbook)
    heat capacity 2.3 kJ/kg/K          from memory
    use           1-6 %
    never above   90 °C
    at most       2 h above 70 °C
    shear         low after neutralising  # any | medium | low
    needs         oil phase at least 20 %
    never with    cationic above 0.1 % below pH 5 before hydration
    pre-wet in    polyol 1:3-1:10
    limit         1.0 % "regulation, entry"
    hazard        H225, H319
    dust
    pack          25 kg at 4.10 EUR per kg, shelf life 24 months, store 15-25 °C
kind fatty alcohol
    decisive      melts, use
'''


@source("by hand", "read off the file line by line")
def test_a_materials_file():
    """Figures keep their source and grade; lists are parted at their commas; a kind is a block of its own."""
    parsed = parse_data(text_of("page.materials", MATERIAL))
    assert parsed.findings == ()
    assert [(block.key, block.text) for block in parsed.tree.blocks] == [("material", "cetearyl alcohol"), ("kind", "fatty alcohol")]
    assert [entry(line) for line in parsed.tree.blocks[0].lines] == [
        "also called: cetostearyl alcohol", "INCI: Cetearyl Alcohol", "CAS: 67762-27-0", "kind: fatty alcohol", "counts as: electrolyte, divalent salt",
        "dissolves in: oil", "melts: 49..56 °C from 'pharmacopoeia range' (standard)", "density: 0.82 g/mL at 60 °C from 'handbook table 4' (handbook)",
        "heat capacity: 2.3 kJ/kg/K from '' (memory)", "use: 1..6 %", "never above: 90 °C", "at most: 2 h above 70 °C", "shear: low after neutralising",
        "needs: oil phase at least 20 %", "never with: cationic above 0.1 % below pH 5 before hydration", "pre-wet in: polyol 1:3-1:10 ratio",
        "limit: 1.0 % 'regulation, entry'", "hazard: H225, H319", "dust:",
        "pack: 25 kg at 4.10 EUR per kg, shelf life 24 months, store 15..25 °C"]


PLANT = '''plant Pilot bay
utilities  hot 95 °C, cold 12 °C, room 20-25 °C
print      metric
tolerance  temperature 2 °C, weighing 0.5 %
filling loss 2 kg
vessel K60
    main kettle                            # or: side kettle
    working       12-60 L
    diameter      0.42 m
    jacket        0.55 m2, 380 W/m2/K      # add: hot only
    anchor        0.40 m, 10-60 rpm
    homogeniser   0.07 m, 500-6000 rpm, pumps 6 m3/h, covered from 9 L
    "central mixer" 0.20 m, 20-120 rpm, stirrer
    vacuum        to -0.8 bar
    load cells    read 0.2 kg
    closed
pump P1           20 L/min, keeps 1.5 kg
balance B6        to 6 kg, reads 0.1 g, at least 20 g
container drum    60 L
operators 2
shift 8 h, cleaning 90 min a kettle
rule equal-temps
    limit  5 °C   from "house experience" (practice)
    level  WARN   because "our emulsifier forgives more"
'''


@source("by hand", "read off the file line by line")
def test_a_plant_file():
    """A plant's lines, with its vessels and rules as blocks."""
    parsed = parse_plant(text_of("page.plant", PLANT))
    assert parsed.findings == ()
    assert [entry(line) for line in parsed.tree.blocks] == [
        "plant: Pilot bay", "utilities: hot 95 °C, cold 12 °C, room 20..25 °C", "print: metric", "tolerance: temperature 2 °C, weighing 0.5 %",
        "filling loss: 2 kg", "vessel: K60", "pump: P1 20 L/min, keeps 1.5 kg", "balance: B6 to 6 kg, reads 0.1 g, at least 20 g",
        "container: drum 60 L", "operators: 2", "shift: 8 h, cleaning 90 min a kettle", "rule: equal-temps"]
    assert [entry(line) for line in parsed.tree.blocks[5].lines] == [
        "main kettle:", "working: 12..60 L", "diameter: 0.42 m", "jacket: 0.55 m2, 380 W/m2/K", "anchor: 0.40 m, 10..60 rpm",
        "homogeniser: 0.07 m, 500..6000 rpm, pumps 6 m3/h, covered from 9 L", "central mixer: 0.20 m, 20..120 rpm, stirrer", "vacuum: to -0.8 bar",
        "load cells: read 0.2 kg", "closed:"]
    assert [entry(line) for line in parsed.tree.blocks[-1].lines] == [
        "limit: 5 °C from 'house experience' (practice)", "level: WARN because 'our emulsifier forgives more'"]


WHOLE = "product X\ntype gel\nbasis 1 kg\nphase A\n    to 100 %  purified water\nvessel main\nmethod\n    charge A into main\n"


@source("by hand", "one finding for each thing that is left out")
@pytest.mark.parametrize("left_out, says", [
    ("product X\n", "what the product is called"), ("type gel\n", "what type of product"), ("basis 1 kg\n", "for what batch"),
    ("phase A\n    to 100 %  purified water\n", "no formula"), ("vessel main\n", "no vessel"), ("method\n    charge A into main\n", "no steps")])
def test_what_every_method_needs(left_out, says):
    """Each of the six things that no method can do without is missed by name, at the top of the file, and nothing else is said."""
    findings = parse_method(text_of("x", WHOLE.replace(left_out, ""))).findings
    assert [(finding.at.span.line, says in finding.title) for finding in findings] == [(1, True)]


@source("by hand", "a misspelt line was meant")
@pytest.mark.parametrize("right, wrong", [("product X", "prodct X"), ("type gel", "tpye gel"), ("basis 1 kg", "bassis 1 kg"), ("vessel main", "vesel main"),
                                          ("method\n", "mehtod\n"), ("phase A\n", "phse A\n"), ("basis 1 kg", "basis"), ("product X", "title X")])
def test_what_was_misspelt_is_not_missed_too(right, wrong):
    """A misspelt line is told once, and not missed a second time."""
    assert len(parse_method(text_of("x", WHOLE.replace(right, wrong, 1))).findings) == 1
