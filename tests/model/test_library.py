"""The shipped materials: a figure that decides is there, or is said to be unknown."""

from procsheet.model.library import Library, material, shipped
from procsheet.model.needs import lacking
from procsheet.source import Source
from procsheet.syntax.format import format_materials
from procsheet.syntax.parse import parse_data
from tests.sources import source

LIBRARY = Library(shipped())
OPEN = "material sample blend\n    kind       preservative\n    pH         ?\n    add below  45 °C  from memory\n"


def read(text):
    """The material of a block, as the checks see it."""
    parsed = parse_data(Source("sample.materials", text))
    assert not parsed.findings
    return material("sample blend", list(parsed.tree.blocks), LIBRARY)


@source("by hand", "the decisive lines of the kinds; 600 is the least that was asked for")
def test_every_shipped_material_tells_what_decides():
    """Each decisive property of each shipped material has a line: a figure, a word, or `?`."""
    known = [material(block.text, [block], LIBRARY) for block in LIBRARY.all()]
    deciding = [one for one in known if one.decisive]
    assert len(deciding) >= 600
    assert not [(one.name, name) for one in deciding for name in one.decisive if not one.entries(name)]


@source("by hand", "`?` is no figure")
def test_an_open_figure_is_not_known():
    """What is written `?` has no figure, counts as not known, and is asked for; what has one is not."""
    one = read(OPEN)
    assert one.figure("pH") is None and not one.has("pH")
    assert one.figure("add below") is not None and one.has("add below")
    assert [need.what for need in lacking(one)] == ["pH"]


@source("by hand", "the kind peptide goes in below 40 °C; its block may say that nobody knows")
def test_an_open_figure_hides_that_of_the_kind():
    """A material's own `?` stands before the usual figure of its kind."""
    known = read("material sample blend\n    kind  peptide\n")
    assert known.figure("add below").value.low == 313.15
    assert read("material sample blend\n    kind       peptide\n    add below  ?\n").figure("add below") is None


@source("by hand", "the layout of a block")
def test_the_formatter_keeps_an_open_figure():
    """A block with `?` comes back as it was."""
    assert format_materials(Source("sample.materials", OPEN)) == OPEN
