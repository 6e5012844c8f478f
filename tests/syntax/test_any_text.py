"""Whatever is written, the answer is findings, never a crash."""

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from procsheet.source import source as text_of
from procsheet.syntax import clauses, properties, verbs
from procsheet.syntax.parse import parse_data, parse_method, parse_plant
from tests.methods import methods
from tests.sources import source

WORDS = sorted({*verbs.BY_WORD, *clauses.BY_OPENER, *clauses.PHRASE_KIND, *clauses.TOOL_WORD, *clauses.STATE_WORD,
                *properties.MEASURED_WORD,
                *(row.name for table in (properties.HEADER, properties.MATERIAL, properties.PLANT, properties.KETTLE,
                                         properties.PACK) for row in table),
                "phase A", "vessel main", "method", "limits", "pack", "accept", "stage", "override", "choose one", "option x", "end",
                "otherwise", "if", "repeat", "material", "kind", "rule"})
ODD = ["?", "-", "--", "—", "#", '"', "“", "°", "½", "²", "1/0", "0/0", "1,5", "1,000", "1 000", "5", "5 %", "75-80 °C", "1:3",
       "3 °C above set point", "A", "A1", "main", "İ", "ß", "٣",
       "\t", "\u00a0", "\u2028", "\x0b", "\x00", "(", ")", ":", ".", ",", ";", "≤", "~", "±"]
SOUP = st.lists(st.lists(st.sampled_from(WORDS + ODD), max_size=8).map(" ".join), max_size=12).map("\n".join)
SETTINGS = settings(max_examples=100, deadline=None, suppress_health_check=[HealthCheck.too_slow])


def read_all(text: str) -> None:
    """Every reader takes the text; what it finds lies in the text, has a title, and says what to do."""
    lines = text_of("x", text).lines
    for parse in (parse_method, parse_data, parse_plant):
        for finding in parse(text_of("x", text)).findings:
            span = finding.at.span
            assert 1 <= span.line <= len(lines)
            assert 1 <= span.column < span.end <= max(len(lines[span.line - 1]), 1) + 2
            assert finding.title and finding.fix


@source("by hand", "no text may crash a reader")
@SETTINGS
@given(data=st.binary(max_size=300))
def test_any_bytes(data):
    """Bytes that are no text at all are answered."""
    read_all(data.decode("utf-8", "replace"))


@source("by hand", "no text may crash a reader")
@SETTINGS
@given(text=st.text(max_size=200))
def test_any_letters(text):
    """Any letters of any script are answered."""
    read_all(text)


@source("by hand", "no text may crash a reader")
@SETTINGS
@given(text=SOUP)
def test_a_soup_of_words(text):
    """The language's own words in any order are answered."""
    read_all(text)


@source("by hand", "no text may crash a reader")
@SETTINGS
@given(text=methods(), data=st.data())
def test_a_method_that_was_damaged(text, data):
    """A method with lines cut short, doubled, moved or strewn with odd words is answered."""
    lines = text.split("\n")
    for _ in range(data.draw(st.integers(1, 5))):
        at = data.draw(st.integers(0, len(lines) - 1))
        line = lines[at]
        harm = data.draw(st.sampled_from(["cut", "double", "move", "word", "letter", "margin", "drop"]))
        if harm == "cut":
            lines[at] = line[:data.draw(st.integers(0, len(line)))]
        elif harm == "double":
            lines.insert(at, line)
        elif harm == "move":
            lines.insert(data.draw(st.integers(0, len(lines) - 1)), lines.pop(at))
        elif harm == "word":
            place = data.draw(st.integers(0, len(line)))
            lines[at] = f"{line[:place]} {data.draw(st.sampled_from(WORDS + ODD))} {line[place:]}"
        elif harm == "letter":
            place = data.draw(st.integers(0, len(line)))
            lines[at] = line[:place] + data.draw(st.characters()) + line[place:]
        elif harm == "margin":
            lines[at] = " " * data.draw(st.integers(0, 12)) + line.strip()
        elif len(lines) > 1:
            lines.pop(at)
    read_all("\n".join(lines))
