"""The table of the lines that are no steps: the formula, vessels, blocks, limits and what stands below them. For the reference page.

`part` says where an example is read: a row, a line of the header, a whole part of a method with its lines.
"""

from typing import NamedTuple


class Statement(NamedTuple):
    form: str
    part: str                           # row, phase, places, override, blocks, limits, pack, accept, as a material
    meaning: str
    example: str
    wrong: str


ROWS = (
    Statement("AMOUNT NAME", "row", "an amount, then the name to the end of the line; % is of the finished batch, as supplied",
              "4.00 %  glycerin", "glycerin 4.00 %"),
    Statement("to 100 % [, about Q] NAME", "row", "the material that closes the batch; a published figure may stay",
              "to 100 %, about 80.2 %  purified water", "to 100  purified water"),
    Statement("as needed [, about Q] [, at most Q] NAME", "row", "a corrector that an adjust step uses, up to its cap",
              "as needed, about 0.1 %, at most 0.3 %  citric acid 20 % solution",
              "at most 0.3 %  citric acid 20 % solution"),
    Statement("? % NAME", "row", "a dose that is not known yet; it prints as a blank", "? %  fragrance", "?  fragrance"),
    Statement("q.s. NAME", "row", "read by its use: a corrector, the closing row, or an open dose; the program says how it read it",
              "q.s.  citric acid", "trace  citric acid"),
    Statement("Q within R NAME", "row", "the figure, and the range it may be chosen from", "5.00 % within 4-6 %  cetearyl alcohol",
              "within 4-6 %  cetearyl alcohol"),
    Statement("Q as pure NAME", "row", "the amount of the named substance; what is weighed follows from the assay",
              "0.10 % as pure  tetrasodium glutamate diacetate", "as pure 0.10 %  tetrasodium glutamate diacetate"),
    Statement("Q optional NAME", "row", "may be left out by whoever makes the papers", "0.20 % optional  mica", "optional 0.20 %  mica"),
    Statement("hold back Q", "row below", "kept apart from the row above, for rinsing or quenching", "hold back 1.5 %", "hold back 1.5"),
    Statement("or AMOUNT NAME", "row below", "an alternative to the row above", "or 12 %  isopropyl myristate", "or isopropyl myristate"),
)
PARTS = (
    Statement("phase LETTER [in the pack] [: title]", "phase", "rows that go in together; a capital letter and perhaps a number",
              "phase B2: pigments\n    2.00 %  iron oxides", "phase 2: pigments\n    2.00 %  iron oxides"),
    Statement('override "material" PROPERTY because "reason"', "places", "corrects the data of a material for your own grade",
              'override "cetearyl alcohol" melts 52-54 °C because "lot sheet"',
              'override cetearyl alcohol melts 52-54 °C because "lot sheet"'),
    Statement('vessel NAME ["text"]', "places", "a vessel of the method: one word in small letters", 'vessel kettle "for the wax phase"',
              "vessel Kettle"),
    Statement('mould NAME ["text"]', "places", "where it is poured and sets", 'mould bar "wooden mould, 1 kg"', "mould soap bar"),
    Statement('container NAME ["text"]', "places", "what it is filled or emptied into", 'container drum "60 L drum"', "container until"),
    Statement("stage TEXT", "blocks", "a heading above the steps that follow", "stage Cool and finish", "stage"),
    Statement("choose one ... option NAME ... end", "blocks", "whoever makes the papers decides",
              "choose one\n    option by-stirrer\n        stir main for 1 min\n    option by-hand\n        stir main for 5 min by hand\nend",
              "choose one\n    option by-stirrer\n        stir main for 1 min\nend"),
    Statement("where the plant has WHAT ... otherwise ... end", "blocks", "the plant decides",
              "where the plant has vacuum\n    deaerate main for 10 min\notherwise\n    rest main for 12 h\nend",
              "where the plant has\n    deaerate main for 10 min\nend"),
    Statement('if "text" ... otherwise ... end', "blocks", "the operator decides, on the day",
              'if "the bulk is grainy"\n    homogenise main for 4 min\nend', "if the bulk is grainy\n    homogenise main for 4 min\nend"),
    Statement("repeat at most N times until V END POINT ... end", "blocks", "first the steps, then the look",
              "repeat at most 4 times until main clear\n    stir main for 5 min\nend",
              "repeat until main clear\n    stir main for 5 min\nend"),
    Statement("limits", "limits", "what the laboratory releases against: a property, its target, how it is measured",
              "viscosity 9000-14000 mPa.s at 25 °C after 24 h", "viscosity 9000-14000"),
    Statement("as a material", "as a material", "what is known of this product where another method uses it", "use 5-30 %", "use 5-30 min"),
    Statement('pack "text"', "pack", "what the product is sold in", "declared 75 mL\n24 per case", "contents 75 mL"),
    Statement('accept NAME [for "material"] [in STEP] because "..." by "..."', "accept", "signs for one warning",
              'accept carbomer-shear for "carbomer" in milling because "trial 41" by "R.T."',
              'accept carbomer-shear for "carbomer" in milling by "R.T."'),
)
