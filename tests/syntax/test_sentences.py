"""Every sentence of the language page is read, and read as what it says."""

from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from procsheet.source import source as text_of
from procsheet.syntax import clauses, properties, verbs
from procsheet.syntax.parse import parse_method
from tests import methods
from tests.sources import source
from tests.syntax.told import told

HERE = Path(__file__).parent
FRAME = (HERE / "frame.method").read_text(encoding="utf-8")
LINES = [line for line in (HERE / "sentences.told").read_text(encoding="utf-8").splitlines() if line and not line.startswith("#")]
SENTENCES = list(zip(LINES[::2], (line.strip() for line in LINES[1::2])))


def read(*steps: str):
    """The items below `method`, and the findings, of a frame with these lines."""
    parsed = parse_method(text_of("frame.method", FRAME + "\n".join(f"    {step}" for step in steps) + "\n"))
    return parsed.tree.items, parsed.findings


@source("by hand", "each line read by eye against section 4 of the language page")
@pytest.mark.parametrize("sentence, expected", SENTENCES, ids=[sentence for sentence, _ in SENTENCES])
def test_a_sentence_says_what_it_says(sentence, expected):
    """A step is read as its verb, what it works on, and its clauses, and nothing is found wrong with it."""
    items, findings = read(sentence)
    assert [finding.title for finding in findings] == []
    assert [told(item) for item in items] == [expected]


@source("by hand", "the words of the tables are those of the page")
def test_every_word_of_the_tables_is_in_a_sentence():
    """The list of sentences leaves out no verb, clause, phrase, tool, end point or property."""
    text = "\n".join(sentence for sentence, _ in SENTENCES).lower()
    words = [*verbs.BY_WORD, *clauses.BY_OPENER, *(phrases[0] for _, phrases, _, _ in clauses.PHRASES), *properties.MEASURED_WORD]
    missing = [word for word in words if word.lower() not in text]
    also = {word for verb in verbs.VERBS for word in verb.also} | {word for row in properties.MEASURED for word in row.also}
    assert set(missing) <= also


@source("by hand", "a verb's own row says how it is written")
@pytest.mark.parametrize("verb", verbs.VERBS, ids=lambda verb: verb.name)
@settings(max_examples=15, deadline=None)
@given(data=st.data())
def test_every_verb_is_read_with_whatever_fits_it(verb, data):
    """A step drawn from the table is read as that verb."""
    step = data.draw(methods.steps(verb))
    items, findings = read("cool main to 25 °C called cooling", step)
    assert [(finding.title, step) for finding in findings] == []
    assert items[-1].verb == verb.name


@source("by hand", "a clause's own row says how it is written")
@pytest.mark.parametrize("row", clauses.CLAUSES, ids=lambda row: row.kind)
@settings(max_examples=15, deadline=None)
@given(data=st.data())
def test_every_clause_is_read(row, data):
    """A clause drawn from the table stands behind an addition."""
    clause = data.draw(methods.clauses(row))
    items, findings = read("cool main to 25 °C called cooling", f"add B to main {clause}")
    assert [(finding.title, clause) for finding in findings] == []
    assert len(items[-1].clauses) >= 1 or items[-1].name


@source("by hand", "the phrases of the table")
@pytest.mark.parametrize("kind, phrase", [(kind, phrase) for kind, phrases, _, _ in clauses.PHRASES for phrase in phrases])
def test_every_phrase_is_read(kind, phrase):
    """A phrase, in each of its spellings, gives a clause of its kind."""
    items, findings = read(f"add B to main {phrase}")
    assert findings == () and [clause.kind for clause in items[0].clauses] == [kind]


@source("by hand", "the tools of the table")
@pytest.mark.parametrize("word, tool", clauses.TOOL_WORD.items())
def test_every_tool_is_read(word, tool):
    """A tool, in each of its spellings, is the tool of its row."""
    items, findings = read(f"stir main with {word} at 30 rpm")
    assert findings == () and told(items[0].clauses[0]) == "tool={" + tool + "}"


@source("by hand", "the end points of the table")
@pytest.mark.parametrize("word, state", clauses.STATE_WORD.items())
def test_every_end_point_is_read(word, state):
    """An end point, in each of its spellings, is the end point of its row."""
    items, findings = read(f"stir main until {word}")
    assert findings == () and told(items[0].clauses[0]) == f"until=<{state}>"


@source("by hand", "the properties of the table")
@pytest.mark.parametrize("row", properties.MEASURED, ids=lambda row: row.name)
def test_every_property_is_read_in_checks_and_limits(row):
    """A property stands in a check and in the limits, in each of its spellings, with the value of its row."""
    for word in (row.name, *row.also):
        items, findings = read(f"check main {word} {row.example}")
        assert findings == () and items[0].slots["MEASURE"].name == row.name
        parsed = parse_method(text_of("x.method", f"{FRAME}    fill main\nlimits\n    {word} {row.example}\n"))
        assert parsed.findings == () and parsed.tree.limits[0].measure.name == row.name
