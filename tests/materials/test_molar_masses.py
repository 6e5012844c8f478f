"""What follows from molar masses: the dry salt in a hydrate, and the share that counts where a limit is given as acid or as an element.

0.1 %: molar masses are known to six digits, and ours are written with three or four.
"""

import re

import pytest

from tests.materials.listed import Disagreement, listed
from tests.materials.ours import MATERIALS, registered
from tests.sources import source

pytest.importorskip("chemicals")

from chemicals.elements import periodic_table, simple_formula_parser  # noqa: E402

from tests.materials import outside  # noqa: E402

WATERS = {"mono": 1, "di": 2, "tri": 3, "tetra": 4, "penta": 5, "hexa": 6, "hepta": 7, "octa": 8, "nona": 9, "deca": 10, "dodeca": 12}
HYDRATE = re.compile(rf"\b({'|'.join(WATERS)})hydrate\b")
WATER, AMMONIA = 18.015, 17.031         # g/mol
ELEMENTS = {"fluorine": "F", "zinc": "Zn"}
PARTS = {"retinol": "68-26-8", "chlorhexidine": "55-56-1", "sulfur dioxide": "7446-09-5"}
HYDROXYBENZOIC = "99-96-7"              # the acid that the law reckons parabens as
OFF = 0.001


def singles():
    """The materials with one known registry number that are not dissolved in something."""
    for one in MATERIALS:
        if len(registered(one)) == 1 and not one.has("composed of") and (known := outside.substance(registered(one)[0])):
            yield one, known


def waters(one, known) -> int:
    found = [HYDRATE.search(name) for name in (*one.names, known.common_name)]
    return next((WATERS[each[1]] for each in found if each), 0)


def part(what: str, one, known) -> float | None:
    """g/mol of what counts, in one mole; None for what is no matter of molar masses."""
    atoms = simple_formula_parser(known.formula)
    if what in ELEMENTS:
        return atoms.get(ELEMENTS[what], 0) * periodic_table[ELEMENTS[what]].MW
    if what in PARTS:
        return outside.substance(PARTS[what]).MW * (atoms["S"] if what == "sulfur dioxide" else 1)
    if what != "acid":
        return None
    return outside.substance(HYDROXYBENZOIC).MW if "paraben" in one.name else known.MW - sum(_bases(one.name, atoms))


def _bases(name: str, atoms):
    """What hydrogen takes the place of when the salt becomes its acid, less that hydrogen."""
    if name.startswith("ammonium"):
        yield AMMONIA
    for metal, charge in {"Na": 1, "K": 1, "Ca": 2, "Mg": 2}.items():
        yield atoms.get(metal, 0) * (periodic_table[metal].MW - charge * periodic_table.H.MW)


@source("independent", "chemicals 1.5.2: formulas and molar masses by registry number; water 18.015 g/mol")
def test_the_dry_salt_in_a_hydrate():
    """The assay of a hydrate is what is left when its water is gone."""
    hydrates = [(one, known, number) for one, known in singles() if one.assay and one.text("form") in ("crystals", "powder") and (number := waters(one, known))]
    shares = {one.name: (float(one.assay) * 100, (1 - number * WATER / known.MW) * 100) for one, known, number in hydrates}
    apart = {Disagreement(name, "assay", f"{ours:g} %", f"{theirs:.1f} %") for name, (ours, theirs) in shares.items() if abs(ours / theirs - 1) > OFF}
    assert apart == listed("assay")
    assert len(shares) >= 7


@source("independent", "chemicals 1.5.2: formulas and molar masses by registry number")
def test_the_share_that_counts_in_a_limit():
    """What is reckoned as acid, zinc, fluorine ... is its share of the molar mass."""
    shares = {}
    for one, known in singles():
        for entry in one.entries("reckon as"):
            what, share = re.fullmatch(r"(.+?) ([\d.]+)", " ".join(word.text if hasattr(word, "text") else word.low for word in entry.words)).groups()
            mass = part(what, one, known) if entry.evidence and "molar" in entry.evidence.source else None
            if mass:
                shares[one.name] = (what, float(share), mass / known.MW * 100)
    apart = {Disagreement(name, "reckon as", f"{what} {ours:g} %", f"{theirs:.2f} %") for name, (what, ours, theirs) in shares.items() if abs(ours / theirs - 1) > OFF}
    assert apart == listed("reckon as")
    assert len(shares) >= 12
