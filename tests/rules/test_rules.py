"""Every rule's manual is run, and every method in its folder earns what is written on its lines."""

from pathlib import Path

import pytest

from procsheet.pipeline import compile_method
from procsheet.rules import RULES
from procsheet.source import source
from tests.rules import frames
from tests.sources import source as told

HERE = Path(__file__).parent
FILES = sorted(HERE.glob("*/*.method"))
RULE_FILES = sorted((HERE.parents[1] / "procsheet" / "rules").glob("*/[a-z]*.py"))


@told("by hand", "the manual of each rule says what its examples earn")
@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.NAME)
def test_wrong_examples_are_found(rule):
    """Each example under Wrong earns exactly the finding its page is about."""
    for example in frames.sections(rule.__doc__)["Wrong"]:
        found = frames.found(frames.framed(example), rule.NAME)
        assert found, f"{rule.NAME} is silent on:\n{frames.framed(example).text}"
        assert found[0].level in ("STOP", "WARN", "NOTE", "OPEN", "CAUTION")


@told("by hand", "the manual of each rule says what its examples earn")
@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.NAME)
def test_right_examples_are_silent(rule):
    """Each example under Right earns nothing from its rule."""
    for example in frames.sections(rule.__doc__)["Right"]:
        found = frames.found(frames.framed(example), rule.NAME)
        assert not found, f"{rule.NAME} says {found[0].title} of:\n{frames.framed(example).text}"


@told("by hand", "each line of a test method says what it earns, with the source of its figure")
@pytest.mark.parametrize("file", FILES, ids=lambda file: f"{file.parent.name}/{file.stem}")
def test_methods_earn_what_their_lines_say(file):
    """A method in a rule's folder earns the findings on its lines from that rule, and no others from it."""
    text = file.read_text(encoding="utf-8")
    name = file.parent.name.replace("_", "-")
    wanted = [one for one in frames.expected(text) if one.name == name]
    compiled = compile_method(source(file.name, text), file.parent)
    found = [one for finding in compiled.findings for one in (finding, *finding.folded) if one.name == name]
    assert sorted((one.at.span.line, one.level) for one in found) == sorted((one.line, one.level) for one in wanted)
    for one in wanted:
        titles = " ".join(finding.title + " " + finding.at.text for finding in found if finding.at.span.line == one.line)
        assert one.words.replace("\u00a0", " ") in titles.replace("\u00a0", " ").replace("\u202f", " ")


@told("by hand", "the folder and the tuple name the same rules")
def test_every_rule_file_is_listed_once():
    """Every file of the rule book stands in RULES, and every entry is a file named after its rule."""
    assert sorted(Path(rule.__file__).stem for rule in RULES) == sorted(path.stem for path in RULE_FILES if path.stem != "__init__")
    for rule in RULES:
        assert Path(rule.__file__).stem == rule.NAME.replace("-", "_")


@told("by hand", "three methods a rule: one that trips it, one just inside, one at the limit")
@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.NAME)
def test_every_rule_has_methods_of_its_own(rule):
    """Each rule's folder has a method that trips it, one that just misses it, and one at the limit."""
    names = {path.stem for path in (HERE / rule.NAME.replace("-", "_")).glob("*.method")}
    assert {"trips", "misses", "at-the-limit"} <= names
