"""Limits of use: how they are read, what of a salt counts as acid, and what a product is used as."""

from fractions import Fraction

import pytest

from procsheet.model.library import Library, material, shipped
from procsheet.model.limits import claims, limits, reckoned
from procsheet.model.method import Header
from procsheet.model.uses import fits, uses
from procsheet.source import source as text
from procsheet.syntax.data import parse_data
from tests.sources import source

# standard atomic weights, IUPAC 2021, abridged
WEIGHTS = {"C": "12.011", "H": "1.008", "O": "15.999", "N": "14.007", "Na": "22.990", "K": "39.098", "S": "32.06", "F": "18.998", "P": "30.974", "Zn": "65.38",
           "Sn": "118.71", "Ca": "40.078", "Cl": "35.45"}
LIBRARY = Library(shipped())
# material, what it counts as, its own make-up, that of what counts
RECKONED = [
    ("sodium benzoate", "acid", "C7 H5 O2 Na", "C7 H6 O2"), ("potassium sorbate", "acid", "C6 H7 O2 K", "C6 H8 O2"),
    ("sodium salicylate", "acid", "C7 H5 O3 Na", "C7 H6 O3"), ("sodium dehydroacetate", "acid", "C8 H7 O4 Na", "C8 H8 O4"),
    ("methylparaben", "acid", "C8 H8 O3", "C7 H6 O3"), ("ethylparaben", "acid", "C9 H10 O3", "C7 H6 O3"), ("propylparaben", "acid", "C10 H12 O3", "C7 H6 O3"),
    ("butylparaben", "acid", "C11 H14 O3", "C7 H6 O3"), ("sodium methylparaben", "acid", "C8 H7 O3 Na", "C7 H6 O3"),
    ("sodium propylparaben", "acid", "C10 H11 O3 Na", "C7 H6 O3"), ("sodium fluoride", "fluorine", "Na F", "F"), ("stannous fluoride", "fluorine", "Sn F2", "F2"),
    ("sodium monofluorophosphate", "fluorine", "Na2 P O3 F", "F"), ("zinc sulfate heptahydrate", "zinc", "Zn S O11 H14", "Zn"),
    ("sodium metabisulfite", "sulfur dioxide", "Na2 S2 O5", "S2 O4"), ("ammonium thioglycolate 60 %", "acid", "C2 H7 N O2 S", "C2 H4 O2 S"),
    ("calcium thioglycolate", "acid", "Ca C4 H6 O4 S2", "C4 H8 O4 S2"), ("retinyl palmitate", "retinol", "C36 H60 O2", "C20 H30 O"),
    ("retinyl acetate", "retinol", "C22 H32 O2", "C20 H30 O"),
    ("disodium phenyl dibenzimidazole tetrasulfonate", "acid", "C20 H12 N4 O12 S4 Na2", "C20 H14 N4 O12 S4"),
    ("chlorhexidine digluconate 20 %", "chlorhexidine", "C34 H54 Cl2 N10 O14", "C22 H30 Cl2 N10"),
]


def known(name: str):
    return material(name, LIBRARY.find(name)[0], LIBRARY)


def of(line: str):
    block = parse_data(text("page.materials", f"material page\n    {line}\n")).tree.blocks[0]
    return limits(material("page", [block], LIBRARY))[0]


def molar_mass(made_up: str) -> Fraction:
    total = Fraction(0)
    for part in made_up.split():
        element = part.rstrip("0123456789")
        total += Fraction(WEIGHTS[element]) * int(part[len(element):] or 1)
    return total


@source("by hand", "a line with everything that may stand on it")
def test_a_line_is_read():
    """A line tells the share, what it is a share of, where it holds, the entry, a condition, the date and the copy."""
    limit = of('limit 0.5 % as acid together only in leave-on face or rinse-off for preserving "EU 1223/2009, annex V, entry 1" "not on the lips" '
               'state 2021 from "a copy" (standard)')
    assert limit.share == Fraction(1, 200) and limit.expressed == "acid" and limit.together and limit.only
    assert limit.uses == (frozenset({"leave-on", "face"}), frozenset({"rinse-off"}))
    assert (limit.regulation, limit.entry, limit.conditions, limit.state) == ("EU 1223/2009", "annex V, entry 1", ("not on the lips",), "state 2021")
    assert limit.told == "EU 1223/2009, annex V, entry 1, state 2021, a copy (standard)" and limit.was_read
    assert limit.where == "only in leave-on face or rinse-off, for preserving"


@source("by hand", "what is prohibited, in a use of its own words, from memory")
def test_what_is_prohibited_is_read():
    """A prohibited material has no share; a use in quotes stays as it is written; what is remembered was not read."""
    limit = of('prohibited in "nail systems" or spray "EU 1223/2009, annex II, entry 1339" from memory')
    assert limit.prohibited and limit.share == 0 and not limit.was_read
    assert limit.uses == (frozenset({"nail systems"}), frozenset({"spray"})) and limit.entry == "annex II, entry 1339"


@source("by hand", "not in spray: everything else")
def test_what_a_line_leaves_out():
    """A line that is not for a use holds for all others."""
    limit = of('limit 0.6 % not in spray "EU 1223/2009, annex V, entry 13" read 2026')
    assert limit.holds(frozenset({"leave-on"})) is True and limit.holds(frozenset()) is True and limit.holds(frozenset({"spray"})) is False


@source("independent", "standard atomic weights, IUPAC 2021, summed here")
@pytest.mark.parametrize("name, what, whole, counts", RECKONED, ids=lambda value: value if isinstance(value, str) else "")
def test_what_counts_follows_from_molar_masses(name, what, whole, counts):
    """What a salt, an ester or a hydrate counts as is the ratio of the molar masses, to the last digit written."""
    assert float(reckoned(known(name), what)) == pytest.approx(float(molar_mass(counts) / molar_mass(whole)), abs=1.01e-4)


@source("independent", "molar masses by periodictable 2.1.0: 0.59 % and 0.80382 % are the most that 0.5 % and 0.6 % as acid allow")
def test_the_most_that_an_entry_allows():
    """The largest addition follows from the share that counts as acid."""
    assert float(Fraction(5, 10) / reckoned(known("sodium benzoate"), "acid")) == pytest.approx(0.59, abs=1e-4)
    assert float(Fraction(6, 10) / reckoned(known("potassium sorbate"), "acid")) == pytest.approx(0.80382, abs=1e-4)


@source("published", "EU 1223/2009, annex V, entries 1, 4, 12, 12a, 29 and 57; annex VI, entries 3 and 4")
@pytest.mark.parametrize("name, shares", [
    ("sodium benzoate", ["0.5", "2.5", "1.7"]), ("potassium sorbate", ["0.6"]), ("methylparaben", ["0.4", "0.8"]), ("propylparaben", ["0.14", "0.8"]),
    ("phenoxyethanol", ["1"]), ("methylisothiazolinone 10 %", ["0.0015"]), ("homosalate", ["7.34"]), ("benzophenone-3", ["2.2", "6", "0.5"])])
def test_the_shipped_limits(name, shares):
    """The materials carry the shares of their entries."""
    assert [limit.share * 100 for limit in limits(known(name))] == [Fraction(share) for share in shares]


@source("by hand", "every line of the shipped files, read one by one")
def test_every_shipped_line_names_its_entry():
    """Each limit names a regulation and an annex, and says when it was read or that it is from memory; a share counts for something or is asked for."""
    lines = [(block.text, limit) for block in LIBRARY.all() for limit in limits(material(block.text, [block], LIBRARY))]
    assert len(lines) > 150
    for name, limit in lines:
        assert limit.regulation.startswith("EU ") and limit.entry.startswith("annex "), name
        assert limit.state or limit.grade == "memory", name
        assert limit.prohibited or 0 < limit.share < 1, name


@source("by hand", "a blend of 90 % and a solution of 10 %: 0.9 and 0.1 of what is weighed")
def test_limits_reach_through_blends_and_solutions():
    """A blend brings its part's limit on that part's share, a solution its own on its strength."""
    blend = [claim for claim in claims(known("phenoxyethanol and ethylhexylglycerin"))]
    assert [(claim.material.name, claim.share, claim.limit.entry) for claim in blend] == [("phenoxyethanol", Fraction(9, 10), "annex V, entry 29")]
    assert [claim.share for claim in claims(known("methylisothiazolinone 10 %"))] == [Fraction(1, 10)]


@source("by hand", "names that say what a product is used as")
@pytest.mark.parametrize("product, kind, wanted", [
    ("Harbour Hand Cream", "oil-in-water emulsion", {"leave-on", "hands"}), ("Mild Shampoo", "surfactant solution", {"rinse-off", "hair"}),
    ("Mint Toothpaste", "paste", {"oral care"}), ("Mint Gel", "gel", set()), ("Olive Bar", "soap", {"rinse-off"}), ("Shaving Foam", "oil-in-water emulsion", set()),
    ("Still", "water-in-oil emulsion", {"leave-on"})])
def test_the_use_follows_from_name_and_type(product, kind, wanted):
    """A name or a type that is clear says how the product is used; any other says nothing."""
    assert uses(Header(product=product, type=kind)) == wanted


@source("by hand", "what is said goes before what a name suggests")
def test_what_the_header_says_is_believed():
    """`used as` stands above the name."""
    assert uses(Header(product="Day Cream", type="gel", used_as=("rinse-off",))) == {"rinse-off"}


@source("by hand", "the rows of the table of uses")
def test_whether_a_use_fits():
    """Another way, or another part of the body, rules a use out; what is not said is open."""
    leave_on = frozenset({"leave-on"})
    assert fits(frozenset({"leave-on"}), leave_on) is True and fits(frozenset({"rinse-off"}), leave_on) is False
    assert fits(frozenset({"leave-on", "face"}), leave_on) is None and fits(frozenset({"face"}), leave_on | {"hands"}) is False
    assert fits(frozenset({"spray"}), leave_on) is False and fits(frozenset({"spray"}), frozenset()) is None
