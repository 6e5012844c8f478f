"""What `walk` tells: the table, one material's way, data and the picture."""

import json
import xml.etree.ElementTree as tree

import pytest
from hypothesis import given, settings

from procsheet.cli import main
from procsheet.commands.common import OK, UNUSABLE
from procsheet.journey import picture
from procsheet.journey.data import as_data
from procsheet.journey.stops import stops
from procsheet.journey.table import table
from procsheet.source import source as text_of
from procsheet.trace.life import life
from tests.made import RECIPES, compiled, method
from tests.methods import methods
from tests.sources import source

CREAM = str(RECIPES / "harbour-hand-cream.method")
SVG = "{http://www.w3.org/2000/svg}"
HOT = method("phase A: water\n    to 100 %  purified water\nphase B: b\n    1 %  fragrance\n",
             "    charge A into main\n    heat main to 170-176 °F\n    cool main to 95 °F\n    add B to main\n    fill main")


def walked(text: str):
    made = compiled(text)
    return made.batch, stops(made.batch, made.source)


@source("by hand", "the recipe: 75 to 80 °C, emulsified at line 47, 15 m/s, pH adjusted to 5.0-5.5")
def test_the_table_tells_what_is_known(capsys):
    """Every line of the method that works on a vessel has a row: how warm, what turns, what is true."""
    assert main(["walk", CREAM]) == OK
    told = capsys.readouterr().out
    for words in ("20–25 → 75–80", "homogeniser at 15 m/s", "oil in water, 16 % in drops", "pH 5.0–5.5", "cetearyl alcohol", "set"):
        assert words in told


@source("by hand", "170-176 °F")
def test_fahrenheit_stays_fahrenheit():
    """A method in °F is told in °F."""
    batch, made = walked(HOT)
    told = table(made, batch.graph.rows, fahrenheit=True)
    assert "170–176" in told and "°F" in told.splitlines()[0]


@source("by hand", "the ways of the perfume and of nothing")
def test_one_material(capsys):
    """One material is asked for by name or code; a name nobody knows is told, with those that are near."""
    assert main(["walk", CREAM, "--material", "fragrance compound 118"]) == OK
    by_name = capsys.readouterr().out
    assert main(["walk", CREAM, "--material", "C2"]) == OK
    assert capsys.readouterr().out == by_name and "goes in at line" in by_name and "°C at line" in by_name
    assert main(["walk", CREAM, "--material", "xanthan gun"]) == UNUSABLE
    assert "xanthan gum" in capsys.readouterr().err


@source("by hand", "JSON has no infinity")
def test_data_are_plain(capsys):
    """The data are JSON, with null where there is no end."""
    assert main(["walk", CREAM, "--json", "--material", "A3"]) == OK
    found = json.loads(capsys.readouterr().out, parse_constant=pytest.fail)
    assert len(found) == 1 and found[0]["lives"][0]["material"] == "xanthan gum"
    assert found[0]["stops"][-1]["seconds"]["ends"][1] is None


def labels(panel):
    return [(x, x + len(text) * picture.TEXT * 0.56, row) for x, row, text in panel.labels]


@source("by hand", "every vessel and step of the method; labels as wide as the code takes them")
def test_the_picture_shows_everything():
    """Every vessel is named, every step numbered, what goes in is marked, and no label runs into another or across a line."""
    made = compiled((RECIPES / "harbour-hand-cream.method").read_text(encoding="utf-8"), folder=RECIPES)
    all_stops = stops(made.batch, made.source)
    drawn = picture.draw(all_stops, made.batch.graph)
    words = [one.text for one in tree.fromstring(drawn).iter(f"{SVG}text")]
    assert {"MAIN", "SIDE", "PAIL"} <= set(words)
    assert {str(stop.moment.step.number) for stop in all_stops if stop.moment.step.verb != "fill"} <= set(words)
    spans = picture._spans(all_stops)
    for name in ("main", "side", "pail"):
        found = labels(picture._panel(name, [one for one in spans if one.stop.moment.vessel == name]))
        for x0, x1, row in found:
            for left, right, other in found:
                assert (x0, row) == (left, other) or not (x0 <= left < x1 and other >= row), "a label, or the line up to it, crosses another"


@source("by hand", "the perfume goes in at 95 °F and its way begins there")
def test_the_way_of_one_is_drawn():
    """The thick way begins where the material goes in."""
    batch, made = walked(HOT)
    one = life(batch.trace, next(one for one in batch.trace.exposures if one.row.code == "B1"))
    drawn = tree.fromstring(picture.draw(made, batch.graph, lives=(one,), fahrenheit=True))
    thick = [path for path in drawn.iter(f"{SVG}path") if path.get("stroke-width") == "4"]
    assert len(thick) == sum(moment.vessel == "main" for moment in one.path)
    assert any("°F" in (text.text or "") for text in drawn.iter(f"{SVG}text"))


@source("by hand", "the picture is a file that appears whole")
def test_the_picture_is_written(tmp_path, capsys):
    """`-o` writes the picture, and says so."""
    target = tmp_path / "cream.svg"
    assert main(["walk", CREAM, "-o", str(target)]) == OK
    assert tree.parse(target).getroot().tag == f"{SVG}svg" and str(target) in capsys.readouterr().out


@source("by hand", "a method with mistakes can be walked, or what is wrong is told")
@settings(max_examples=40)
@given(methods())
def test_no_method_breaks_it(text):
    """Every course of every method is told, drawn and given as data."""
    made = compiled(text)
    for batch in made.batches:
        found = stops(batch, text_of("test.method", text))
        assert json.dumps(as_data(found), allow_nan=False)
        assert table(found, batch.graph.rows)
        if found:
            tree.fromstring(picture.draw(found, batch.graph))
