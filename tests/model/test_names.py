"""What a material is called: the names people type, and the laws of a library of names."""

import re
from collections import defaultdict
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from procsheet.model.files import read_source
from procsheet.model.library import SHIPPED, Library, shipped
from procsheet.model.material import fold
from procsheet.syntax.parse import parse_data
from tests.made import compiled, method
from tests.sources import source

LIBRARY = Library(shipped())
CALLED = [line.split(": ", 1) for line in (Path(__file__).parent / "names.txt").read_text(encoding="utf-8").splitlines() if not line.startswith("#")]
PIECES = st.sampled_from("sulph sulphate glycerine e and per cent percent % 10 2.5 , . - ( ) / & + solution in water USP bp alcohol flavour ised aq w/w PEG".split() + [" "] * 6)
TYPED = st.lists(PIECES, max_size=12).map("".join) | st.lists(PIECES, max_size=12).map(" ".join) | st.text()

# plain names that leave open which article is meant -> some of what is asked
ASKED = {"betaine": ["trimethylglycine", "cocamidopropyl betaine 30 %"], "DHA": ["dihydroxyacetone", "dehydroacetic acid"], "BHA": ["BHA antioxidant", "salicylic acid"],
         "SLES": ["sodium laureth sulfate 28 %", "sodium laureth sulfate 70 % paste"], "sodium laureth sulphate": ["sodium laureth sulfate 28 %"],
         "sodium lauryl ether sulfate": ["sodium laureth sulfate 70 % paste"], "sodium laureth-2 sulfate": ["sodium laureth sulfate 28 %"], "SLES-2": ["sodium laureth sulfate 28 %"],
         "hydrogen peroxide": ["hydrogen peroxide 3 %", "hydrogen peroxide 30 % solution"], "H2O2": ["hydrogen peroxide 3 %"], "hydrogen peroxide solution": ["hydrogen peroxide 3 %"],
         "sodium hydroxide solution": ["sodium hydroxide 10 % solution", "sodium hydroxide 50 % solution"], "NaOH solution": ["sodium hydroxide 50 % solution"],
         "caustic soda solution": ["sodium hydroxide 50 % solution"], "lye solution": ["sodium hydroxide 10 % solution"],
         "potassium hydroxide solution": ["potassium hydroxide 20 % solution"], "KOH solution": ["potassium hydroxide 20 % solution"],
         "silica": ["fumed silica", "silica microspheres"], "silicon dioxide": ["fumed silica", "silica microspheres"],
         "soap": ["curd soap", "soap noodles"], "soap base": ["melt-and-pour soap base", "soap noodles"], "potassium soap": ["potassium oleate", "potassium cocoate 40 %"],
         "microbeads": ["jojoba wax bead"], "scrub beads": ["jojoba wax bead"], "exfoliating beads": ["jojoba wax bead"]}


def blocks():
    """Every material of the shipped files."""
    texts = [read_source(path, path.name) for path in SHIPPED.glob("*.materials")]
    parsed = [parse_data(one) for one in texts]
    assert not [finding for one in parsed for finding in one.findings]
    return [block for one in parsed for block in one.tree.blocks if block.key == "material"]


BLOCKS = blocks()


def told(block, key: str) -> list:
    return [entry for entry in block.lines if entry.key == key]


@source("by hand", "common practice, no source: ingredient-list, pharmacopoeial and workshop names")
@pytest.mark.parametrize("article, names", CALLED, ids=[article for article, _ in CALLED])
def test_what_people_type_is_found(article, names):
    """Each of its usual names finds the article, and nothing else."""
    found = {name: {block.text for block in LIBRARY.find(name)[0]} for name in names.split(" | ")}
    assert found == dict.fromkeys(found, {article})


@source("by hand", "common practice, no source: one short name, several articles")
@pytest.mark.parametrize("name, articles", ASKED.items())
def test_a_name_for_several_is_asked(name, articles):
    """Where a plain name may mean several articles, these are offered."""
    found, either, _ = LIBRARY.find(name)
    assert not found and set(articles) <= set(either)


@source("by hand", "a row that may be three materials")
@pytest.mark.parametrize("name", ["betaine", "DHA", "BHA"])
def test_the_method_says_that_it_asks(name):
    """A method with such a name has the finding which-material."""
    made = compiled(method(f"phase A: a\n    to 100 %  water\n    1 %  {name}", "    charge A into main\n    fill main"))
    assert [finding.level for finding in made.findings if finding.name == "which-material"] == ["OPEN"]


@source("by hand", "common practice, no source: the pharmacopoeias mean different articles, and a suffix that is part of the name counts")
@pytest.mark.parametrize("one, other", [("emulsifying wax NF", "emulsifying wax BP"), ("alcohol USP", "alcohol"), ("glyceryl stearate", "glyceryl stearate SE"),
                                        ("sodium hydroxide 10 %", "sodium hydroxide 1 %"), ("1,2-hexanediol", "1,12-hexanediol"), ("PEG-4", "PEG-40"),
                                        ("zinc oxide", "zinc oxide coated"), ("carbomer 2 %", "carbomer"), ("C12-15 alkyl benzoate", "C12 alkyl benzoate")])
def test_every_word_counts(one, other):
    """Names that mean different articles stay apart."""
    assert fold(one) != fold(other)


@source("by hand", "a law: what is folded lies flat")
@given(TYPED)
def test_folding_twice_is_folding_once(name):
    """A folded name folds to itself."""
    assert fold(fold(name)) == fold(name)


@source("by hand", "a law: case, blanks around and full stops at the end say nothing")
@given(st.sampled_from([name for _, names in CALLED for name in names.split(" | ")]), st.sampled_from([str.upper, str.title, lambda name: f"  {name} .", lambda name: name.replace(" ", "  ")]))
def test_how_it_is_typed_says_nothing(name, typed):
    """Case, blanks and a full stop change no name."""
    assert fold(typed(name)) == fold(name)


@source("by hand", "a law: one name, one article, else it is asked")
def test_no_name_sits_on_two_articles():
    """Every name finds its own article first; the only names on several are those that are asked on purpose."""
    sitting = defaultdict(set)
    for block in BLOCKS:
        for name in (block.text, *(entry.text for entry in told(block, "also called"))):
            sitting[fold(name)].add(block.text)
    several = {name for name, articles in sitting.items() if len(articles) > 1}
    assert several <= {fold(name) for name in ASKED}
    assert {name for name in sitting.keys() - several if {block.text for block in LIBRARY.find(name)[0]} != sitting[name]} == set()


@source("published", "the check digit of the registry's numbers: the digits before it, counted from the right, weigh 1, 2, 3 ...; the sum modulo 10")
def test_registry_numbers_check():
    """Every CAS number has a valid check digit."""
    numbers = {number for block in BLOCKS for entry in told(block, "CAS") for number in re.findall(r"[\d-]+", entry.text)}
    assert len(numbers) > 500
    assert [number for number in sorted(numbers) if not checks(number)] == []


def checks(number: str) -> bool:
    digits = number.replace("-", "")
    weighed = sum(place * int(digit) for place, digit in enumerate(reversed(digits[:-1]), 1))
    return bool(re.fullmatch(r"\d{2,7}-\d\d-\d", number)) and weighed % 10 == int(digits[-1])


@source("by hand", "a law: the parts make the whole")
def test_the_parts_of_a_solution_make_the_whole():
    """What a solution is composed of adds up to 100 %."""
    told_parts = {block.text: entry.text.split(", ") for block in BLOCKS for entry in told(block, "composed of")}
    shares = {name: [Fraction(part.split()[-2]) for part in parts] for name, parts in told_parts.items() if all(re.search(r" [\d.]+ %$", part) for part in parts)}
    assert {name: float(sum(each)) for name, each in shares.items() if sum(each) != 100} == {}
    assert len(shares) > 100
