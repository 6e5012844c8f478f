"""The two pages of grammar/ say what the reader does: every example on them is run."""

import re
from fractions import Fraction

import pytest

from procsheet.source import source as text_of
from procsheet.syntax import clauses, properties, reference, statements, verbs
from procsheet.syntax.grammar import grammar_dir
from procsheet.syntax.parse import parse_method
from tests.sources import source

GUIDE = (grammar_dir() / "guide.md").read_text(encoding="utf-8")
PAGE = (grammar_dir() / "language.md").read_text(encoding="utf-8")
BLOCKS = re.findall(r"```(\w+)\n(.*?)```", GUIDE, re.DOTALL)
MAKERS_WORDS = re.compile(r"\b(parser?|token|string|syntax|boolean|node|interval|compiler|identifier|expression|keyword|operand|regex|integer|float|class|function|null)\b", re.IGNORECASE)
TABLES = [(properties.HEADER, reference.header_example), (properties.MATERIAL, reference.material_example),
          (properties.PLANT, reference.plant_example),
          (properties.KETTLE, reference.kettle_example), (properties.RULE, reference.rule_example),
          (properties.PACK, reference.pack_example)]
LINES = [(row, example) for table, example in TABLES for row in table]


def titles(text: str) -> list[str]:
    return [finding.title for finding in parse_method(text_of("page", text)).findings]


@source("by hand", "the page is made from the tables")
def test_the_reference_page_is_that_of_the_tables():
    """grammar/language.md is what `python -m procsheet.syntax.reference` prints."""
    assert PAGE == reference.page()


@source("by hand", "a right example has no slip, a wrong one has one")
@pytest.mark.parametrize("verb", verbs.VERBS, ids=lambda verb: verb.name)
def test_examples_of_steps(verb):
    """A verb's right example is read without a finding, its wrong one is told once."""
    assert titles(reference.step_with(verb.example)) == []
    assert len(titles(reference.step_with(verb.wrong))) == 1


@source("by hand", "a right example has no slip, a wrong one has one")
@pytest.mark.parametrize("row", clauses.CLAUSES, ids=lambda row: row.kind)
def test_examples_of_clauses(row):
    """A clause's right example is read without a finding, its wrong one is told once."""
    assert titles(reference.step_with(f"add C to main {row.example}")) == []
    assert len(titles(reference.step_with(f"add C to main {row.wrong}"))) == 1


@source("by hand", "a right example has no slip, a wrong one has one")
@pytest.mark.parametrize("statement", statements.ROWS + statements.PARTS, ids=lambda statement: statement.form)
def test_examples_of_statements(statement):
    """A statement's right example is read without a finding, its wrong one is told once."""
    assert titles(reference.method_with(statement, statement.example)) == []
    assert len(titles(reference.method_with(statement, statement.wrong))) == 1


@source("by hand", "a right example has no slip, a wrong one has one")
@pytest.mark.parametrize("row, example", LINES, ids=[f"{row.name}-{example.__name__}" for row, example in LINES])
def test_examples_of_lines(row, example):
    """A line with a key is read as its table shows it, and told once when it is written wrong."""
    assert reference.findings(example(row.example), example) == ()
    assert len(reference.findings(example(reference.slip_of(row)), example)) == 1


@source("by hand", "the page names each row")
def test_the_reference_page_leaves_nothing_out():
    """Every verb, clause, phrase, property and line of the tables stands on the page."""
    words = [*verbs.BY_WORD, *(row.example for row in clauses.CLAUSES), *clauses.PHRASE_KIND, *clauses.STATE_WORD, *clauses.TOOL_WORD,
             *properties.MEASURED_WORD, *(row.example for row, _ in LINES)]
    assert [word for word in words if word not in PAGE and word not in ("anchor stirrer", "propeller stirrer", "hand whisk", "sweep mixer",
                                                                        "side wiper", "scraper")] == []


@source("by hand", "each block of the guide set into a method")
@pytest.mark.parametrize("kind, text", BLOCKS, ids=[f"{number}-{kind}" for number, (kind, _) in enumerate(BLOCKS)])
def test_examples_of_the_guide(kind, text):
    """Every example of the guide is read without a finding."""
    formula = next(block for name, block in BLOCKS if name == "formula")
    header = next(block for name, block in BLOCKS if name == "header")
    indented = "".join(f"    {line}\n" for line in text.splitlines())
    method = {"header": f"{text}{formula}vessel main\nmethod\n    charge A into main\n",
              "formula": f"{header}{text}vessel main\nmethod\n    charge A into main\n",
              "steps": f"{header}{formula}vessel main\nmethod\n{indented}",
              "limits": f"{header}{formula}vessel main\nmethod\n    charge A into main\nlimits\n{indented}", "method": text}[kind]
    assert titles(method) == []


@source("by hand", "4+0.2+0.1/0.38+5+6+3+0.9+0.3 % of 1 kg, and what is left of it, in fractions")
def test_the_guide_weighs_to_the_gram():
    """The table of the guide follows from its formula: figures, closing row, cap, hold-back, make-up."""
    formula = next(block for name, block in BLOCKS if name == "formula")
    rows = [row for phase in parse_method(text_of("guide",
                                                  f"product X\ntype gel\nbasis 1 kg\n{formula}vessel main\nmethod\n    charge A into main\n")).tree.phases for row in phase.rows]
    grams = [Fraction(row.amount.low) * 10 / (Fraction(38, 100) if row.as_pure else 1) for row in rows if row.kind == "figure"]
    closing, corrector = next(row for row in rows if row.kind == "closing"), next(row for row in rows if row.kind == "corrector")
    cap, held = Fraction(corrector.at_most.low) * 10, Fraction(closing.hold_back[0].low) * 10
    figures, water = sum(grams), 1000 - sum(grams)
    acid = Fraction("1.20")
    expected = [figures, water - cap - held, held, acid, 1000 - figures - (water - cap - held) - held - acid]
    printed = [Fraction(cell) for cell in re.findall(r"\| (\d+\.\d\d) \|$", GUIDE, re.MULTILINE)]
    assert [round(float(value), 2) for value in expected] == [float(value) for value in printed] == [196.63, 785.37, 15.00, 1.20, 1.80]


@source("by hand", "the words of the plant floor")
@pytest.mark.parametrize("page", [GUIDE, PAGE], ids=["guide", "language"])
def test_the_pages_speak_to_a_chemist(page):
    """Neither page uses a word that a chemist or a shift leader does not use."""
    assert MAKERS_WORDS.findall(page) == []
