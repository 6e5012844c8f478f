"""What `walk` tells: the table, one material's way, data and the picture."""

import io
import json
import xml.etree.ElementTree as tree
from contextlib import redirect_stderr, redirect_stdout
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from procsheet.cli import main
from procsheet.commands.common import OK, STOPPED, UNUSABLE
from procsheet.journey import picture
from procsheet.journey.data import as_data, life_as_data
from procsheet.journey.stops import stops
from procsheet.journey.table import life_told, table
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


def keep_apart(spans, name: str) -> None:
    found = labels(picture._panel(name, [one for one in spans if one.stop.moment.vessel == name]))
    for x0, x1, row in found:
        for left, right, other in found:
            assert (x0, row) == (left, other) or not (x0 <= left < x1 and other >= row), "a label, or the line up to it, crosses another"


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
        keep_apart(spans, name)


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
@given(methods(), st.data())
def test_no_method_breaks_it(text, data):
    """Every course of every method, and every material's way through it, is told, drawn and given as data."""
    made = compiled(text)
    for batch in made.batches:
        found = stops(batch, text_of("test.method", text))
        assert json.dumps(as_data(found), allow_nan=False)
        assert table(found, batch.graph.rows)
        assert tree.fromstring(picture.draw(found, batch.graph)).tag == f"{SVG}svg"
        for name in {stop.moment.vessel for stop in found}:
            keep_apart(picture._spans(found), name)
        if batch.trace.exposures:
            one = life(batch.trace, data.draw(st.sampled_from(batch.trace.exposures)))
            assert life_told(one, {}) and json.dumps(life_as_data(one), allow_nan=False)
            tree.fromstring(picture.draw(found, batch.graph, lives=(one,)))


SLIPS = st.sampled_from([("charge A into main", "charge A main"), ("add side to main", "add sied to main"), ("charge B into side", "chrage B into side"),
                         ("fill main", "fill"), ("to 100 %", "to 100"), ("below 40 °C", "below"), ("vessel main", "vessel"), ("method\n", "methd\n"), ("phase B", "phase b"),
                         ("basis 1 kg", "basis"), ("purified water", "")])


@source("by hand", "a slip of writing is told, with its line, by `check`; exit codes as --help states them")
@settings(max_examples=30)
@given(methods(), SLIPS)
def test_a_slip_is_walked_over_or_told(text, slip):
    """A method with a slip in it is walked as far as possible, or refused with what was found."""
    with TemporaryDirectory() as folder, redirect_stdout(io.StringIO()) as out, redirect_stderr(io.StringIO()) as err:
        path = Path(folder) / "slip.method"
        path.write_text(text.replace(*slip, 1), encoding="utf-8")
        code = main(["walk", str(path)])
    assert code == OK and "vessel" in out.getvalue() or code == STOPPED and "slip.method" in err.getvalue()


@source("by hand", "a method that only says something about the papers")
def test_nothing_happens(tmp_path, capsys):
    """A method in which nothing comes into a vessel is told and drawn as such."""
    path = tmp_path / "empty.method"
    path.write_text(method("phase A: water\n    to 100 %  purified water\n", '    note "Nothing yet."'), encoding="utf-8")
    assert main(["walk", str(path)]) == OK
    assert main(["walk", str(path), "-o", str(tmp_path / "empty.svg")]) == OK
    assert tree.parse(tmp_path / "empty.svg").getroot().tag == f"{SVG}svg"


@source("by hand", "95 °F is 35 °C; 45 °C, the limit of the perfume, is 113 °F")
def test_one_material_in_fahrenheit(tmp_path, capsys):
    """The way of one material is told in the scale of its method too."""
    path = tmp_path / "hot.method"
    path.write_text(HOT, encoding="utf-8")
    assert main(["walk", str(path), "--material", "fragrance"]) == OK
    told = capsys.readouterr().out
    assert "95\u00a0°F at line" in told and "°C" not in told


TWO_WAYS = method("phase A: water\n    to 100 %  purified water\nphase B: b\n    1 %  fragrance\n",
                  "    charge A into main\n    choose one\n    option by-hand\n        stir main by hand for 5 min\n    option by-machine\n        heat main to 40 °C\n"
                  "        cool main to 25 °C\n    end\n    add B to main\n    fill main")


@source("by hand", "two ways, of three and of four steps beside the charge")
def test_every_course_is_told(tmp_path, capsys):
    """Each way through a method has a table and data of its own."""
    path = tmp_path / "two.method"
    path.write_text(TWO_WAYS, encoding="utf-8")
    assert main(["walk", str(path)]) == OK
    told = capsys.readouterr().out
    assert told.count("charge A into main") == 2 and told.count("stir main by hand") == 1 and "1 kg, by-machine" in told
    assert main(["walk", str(path), "--json", "--material", "B1"]) == OK
    found = json.loads(capsys.readouterr().out)
    assert [len(course["stops"]) for course in found] == [4, 5] and all(len(course["lives"]) == 1 for course in found)
    assert main(["walk", str(path), "--choose", "by-machine"]) == OK
    assert "by hand" not in capsys.readouterr().out


@source("by hand", "a material that only one way takes")
def test_the_picture_takes_the_course_of_the_material(tmp_path, capsys):
    """The way of a material is drawn in the first course that takes it."""
    steps = ('    charge A into main\n    if "it is too thin"\n        add B to main\n    end\n    fill main', '    charge A into main\n    choose one\n    option plain\n'
             "        stir main for 5 min\n    option scented\n        add B to main\n    end\n    fill main")
    for index, one in enumerate(steps):
        path = tmp_path / f"{index}.method"
        path.write_text(method("phase A: water\n    to 100 %  purified water\nphase B: b\n    1 %  fragrance\n", one), encoding="utf-8")
        assert main(["walk", str(path), "--material", "B1", "-o", str(tmp_path / "way.svg")]) == OK
        assert any(line.get("stroke-width") == "4" for line in tree.parse(tmp_path / "way.svg").iter(f"{SVG}path"))


@source("by hand", "half of the glycerin goes another way than the rest; a picture shows both")
def test_both_portions_of_a_material_are_drawn(tmp_path, capsys):
    """Every portion of a material has its way in the picture."""
    assert main(["walk", CREAM, "--material", "glycerin", "-o", str(tmp_path / "way.svg")]) == OK
    thick = [line.get("d") for line in tree.parse(tmp_path / "way.svg").iter(f"{SVG}path") if line.get("stroke-width") == "4"]
    made = compiled((RECIPES / "harbour-hand-cream.method").read_text(encoding="utf-8"), folder=RECIPES)
    ways = {moment.index for one in made.batch.trace.exposures if one.row.name == "glycerin" for moment in life(made.batch.trace, one).path if moment.step.verb != "fill"}
    assert len(thick) == len(ways) > 1


@source("by hand", "letters of 14 px, three quarters as wide as they are high at the most; the first label stands 4 px behind the first line")
@pytest.mark.parametrize("name", ["main", "melting-kettle", "the-largest-side-kettle-of-all"])
def test_a_long_name_leaves_room(name):
    """However long a vessel's name is, what goes in first is written behind it."""
    batch, found = walked(method("phase A: water\n    to 100 %  purified water\n", f"    charge A into {name}\n    fill {name}", vessels=name))
    drawn = tree.fromstring(picture.draw(found, batch.graph))
    texts = {one.text: float(one.get("x")) for one in drawn.iter(f"{SVG}text")}
    assert texts["A1 purified water"] >= texts[name.upper()] + len(name) * 14 * 0.72


@source("by hand", "a folder that is not there")
def test_a_picture_that_cannot_be_written(tmp_path, capsys):
    """A picture that cannot be written is told, and leaves nothing behind."""
    assert main(["walk", CREAM, "-o", str(tmp_path / "nowhere" / "cream.svg")]) == UNUSABLE
    assert "cannot be written" in capsys.readouterr().err and list(tmp_path.iterdir()) == []
    assert main(["walk", CREAM, "-o", str(tmp_path / "cream.svg")]) == OK
    assert [one.name for one in tmp_path.iterdir()] == ["cream.svg"]


@source("by hand", "phases and pourings of the recipe")
def test_what_goes_in_is_marked():
    """Each addition stands above its step, by name where there is room and by code where there is none."""
    made = compiled((RECIPES / "harbour-hand-cream.method").read_text(encoding="utf-8"), folder=RECIPES)
    drawn = tree.fromstring(picture.draw(stops(made.batch, made.source), made.batch.graph))
    words = {one.text for one in drawn.iter(f"{SVG}text")}
    assert {"A1, A4", "A2 glycerin", "A3 xanthan gum", "from pail", "from side", "B1, B2, B3", "C1, C2", "D1 citric acid 20 % solution"} <= words


@source("by hand", "a row of the formula that never goes into a vessel")
def test_a_material_that_goes_nowhere(tmp_path, capsys):
    """A material that the formula has but no step adds is not told as a slip of its name."""
    path = tmp_path / "left.method"
    path.write_text(method("phase A: water\n    to 100 %  purified water\nphase B: b\n    1 %  fragrance\n", "    charge A into main\n    fill main"), encoding="utf-8")
    assert main(["walk", str(path), "--material", "fragrance"]) == UNUSABLE
    told = capsys.readouterr().err
    assert "fragrance stands in the formula" in told and "Did you mean" not in told
