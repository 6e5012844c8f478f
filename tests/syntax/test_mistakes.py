"""Each file of grammar/mistakes holds one slip, and says in its first lines what its writer must be told."""

import re

import pytest

from procsheet.source import source as text_of
from procsheet.syntax.grammar import grammar_dir
from procsheet.syntax.parse import parse_data, parse_method, parse_plant
from tests.sources import source

FILES = sorted((grammar_dir() / "mistakes").iterdir())
READ = {".method": parse_method, ".materials": parse_data, ".plant": parse_plant}
# words of people who write programs, which no message may hold
NOT_SAID = re.compile(r"\b(token|pars\w*|terminal|operand|identifier|string|syntax|boolean|node|integer|expected|invalid|illegal|clause kind|null|none)\b", re.IGNORECASE)


def expected(text: str) -> list[tuple[str, str]]:
    """What the `#!` lines say: (place and title, fix) for each finding."""
    said = [line[2:].strip() for line in text.splitlines() if line.startswith("#!")]
    return [(" ".join(title.split(maxsplit=1)), fix.removeprefix("fix:").strip()) for title, fix in zip(said[::2], said[1::2])]


@source("by hand", "each message read by eye for what a chemist needs to be told")
@pytest.mark.parametrize("path", FILES, ids=lambda path: path.name)
def test_a_mistake_is_told_once_and_well(path):
    """Exactly the findings of the file's first lines are found, each in its place, and no others."""
    text = path.read_text(encoding="utf-8")
    findings = READ[path.suffix](text_of(path.name, text)).findings
    found = [(f"{finding.at.span.line}:{finding.at.span.column} {finding.title}", finding.fix) for finding in findings]
    assert found == expected(text)


@source("by hand", "one slip a file")
@pytest.mark.parametrize("path", [path for path in FILES if not path.stem.startswith("nothing")], ids=lambda path: path.name)
def test_one_slip_causes_no_other(path):
    """A slip is told once: what follows it is read as it was meant."""
    assert len(expected(path.read_text(encoding="utf-8"))) == 1


@source("by hand", "the words of the plant floor")
@pytest.mark.parametrize("path", FILES, ids=lambda path: path.name)
def test_a_message_speaks_to_a_chemist(path):
    """No message uses a word of the program's makers."""
    for title, fix in expected(path.read_text(encoding="utf-8")):
        assert not NOT_SAID.search(title) and not NOT_SAID.search(fix)


@source("by hand", "counted")
def test_there_are_enough_of_them():
    """At least 45 slips are kept, of methods, materials and plants."""
    assert len(FILES) >= 45 and {path.suffix for path in FILES} == set(READ)
