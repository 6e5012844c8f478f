"""The content digest: the same for the same inputs, another one for any other."""

import re

from procsheet.model.files import read_source
from procsheet.pipeline import Request, compile_method
from procsheet.plan.size import read_size
from procsheet.sheet.digest import digest
from procsheet.source import source as text_of
from tests.made import RECIPES
from tests.sources import source

CREAM = RECIPES / "harbour-hand-cream.method"
PILOT = RECIPES / "plants" / "pilot.plant"


def of(text: str = "", size: str = "40 kg", plant=PILOT, folder=RECIPES) -> str:
    written = text_of("cream.method", text) if text else read_source(CREAM, "cream.method")
    return digest(compile_method(written, folder, Request(read_size(size), plant)))


@source("by hand", "design of the sheet: 16 hex digits in fours")
def test_a_digest_is_sixteen_digits_in_fours():
    """And the same every time."""
    assert re.fullmatch(r"[0-9a-f]{4}( [0-9a-f]{4}){3}", of())
    assert of() == of()


@source("by hand", "one input changed at a time")
def test_any_input_changes_it():
    """Method, size, plant: a page of another issue betrays itself."""
    text = CREAM.read_text(encoding="utf-8")
    others = [of(text.replace("more glycerin", "less glycerin")), of(size="41 kg"), of(plant=RECIPES / "plants" / "filler.plant")]
    assert len({of(), *others}) == 4


@source("by hand", "the same words in another file")
def test_it_hangs_on_what_is_said_and_not_on_where(tmp_path):
    """A copy of the plant under another name gives the same digest; a tolerance that differs another one."""
    copied, changed = tmp_path / "copied.plant", tmp_path / "changed.plant"
    words = PILOT.read_text(encoding="utf-8")
    copied.write_text("\n# a comment of ours\n" + words, encoding="utf-8")
    changed.write_text(words.replace("weighing 0.5 %", "weighing 0.4 %"), encoding="utf-8")
    assert of(plant=copied) == of() != of(plant=changed)


@source("by hand", "one figure of the house's fragrance")
def test_material_data_change_it(tmp_path):
    """Another figure of a material that is used is another content."""
    house = (RECIPES / "house.materials").read_text(encoding="utf-8")
    for folder, text in (("same", house), ("other", house.replace("92 °C", "91 °C"))):
        (tmp_path / folder / "plants").mkdir(parents=True)
        (tmp_path / folder / "house.materials").write_text(text, encoding="utf-8")
        (tmp_path / folder / "plants" / "bench.plant").write_text((RECIPES / "plants" / "bench.plant").read_text(encoding="utf-8"), encoding="utf-8")
    assert of(folder=tmp_path / "same") == of() != of(folder=tmp_path / "other")
