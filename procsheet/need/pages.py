"""The manual pages of what can be wrong with a stock."""

PAGES = {
    "stock-row": """A row of the stock table is not clear, and nothing is taken from it.

Why it matters
    A guess at a lot, an amount or a status would be weighed in. The first line names the columns material, lot, amount, unit, expires,
    assay and status; a lot stands in one row. The material goes by the name the method calls it, or one of its other names.
""",
    "lot-expired": """A lot is past its last day, and nothing is taken from it.

Why it matters
    What has expired may have lost its strength or its keeping. A lot may be used to and with the day it expires.
""",
    "lot-not-released": """A lot is blocked, rejected or in quarantine, and nothing is taken from it.

Why it matters
    Nobody has said yet that it is what its label says, or somebody has said it is not.
""",
    "lot-assay": """The strength of a lot does not fit the one the method reckons with, and nothing is taken from it.

Why it matters
    An amount is corrected by `strength reckoned with / strength of the lot`. A strength of another kind, or more than two times off, is
    taken for a slip of the pen (common practice, no source).
""",
    "lot-strength": """What a lot's strength changes has no place in the batch.

Why it matters
    More of a weaker lot, less of a stronger one: the row that closes to 100 % bears the difference. Without such a row, or where it is
    used up, the batch weighs more or less than its formula.
""",
    "pack-density": """A volume is declared, and the product's density is not known at 20 °C.

Why it matters
    A declared volume holds at 20 °C, and the filler weighs. A density for a warmer product gives packs that hold less.

Source
    Directive 76/211/EEC, annex I 2.2
""",
}
