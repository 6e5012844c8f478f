"""The labels as values: one a container, with the words and digits of the weighing list."""

import json

import pytest

from procsheet.labels.label import labels
from procsheet.pipeline import Request
from procsheet.plan.size import read_size
from tests.labels.made import cream, recipe
from tests.made import compiled, method
from tests.sources import source

SOLUTION = """phase A:
    to 100 %  purified water
    ? %       xanthan gum
    as needed  citric acid"""


@source("by hand", "lee-shore-night-lotion at 300 kg: 205.3 kg of water of 1000 kg/m3 need two drums of 200 L, all else one container")
def test_one_label_a_container():
    """Each container has a label that says which of how many it is."""
    made = labels(recipe("lee-shore-night-lotion", "300 kg")).labels
    water = [one for one in made if one.weighed.line.row.code == "D1" and not one.weighed.line.use]
    assert [(one.number, one.of, one.weighed.printed.target, one.weighed.line.container) for one in water] == [(1, 2, "205.3", "drum"), (2, 2, "205.3", "drum")]
    lines = {one.weighed.line.number: one.of for one in made}
    assert len(made) == sum(lines.values()) == len(lines) + 1


@source("by hand", "harbour-hand-cream at 150 kg: 3 % of 150 kg in caprylic/capric triglyceride is 9.000 kg, 0.5 % of that 0.045 kg; it is charged with B in step 8 into the side kettle")
def test_a_label_says_what_the_list_says():
    """Amount, range, phase, step, vessel and INCI name stand on the label as the method gives them."""
    one = next(one.weighed for one in cream().labels if one.weighed.line.row.code == "B2")
    assert (one.printed.material, one.printed.target, one.printed.low, one.printed.high, one.line.unit) == ("Caprylic/capric triglyceride", "9.000", "8.955", "9.045", "kg")
    assert (one.phase, one.goes, one.vessel, one.inci) == ("Phase B", "step 8", "SIDE", "Caprylic/Capric Triglyceride")


@source("by hand", "the material's own block")
def test_words_of_the_material(tmp_path):
    """`weigh as`, `before weighing` and the hazard codes stand on the label as they were written."""
    (tmp_path / "house.materials").write_text('material bay resin\n    kind film former\n    weigh as "35 % grade"\n    before weighing "roll the can"\n    hazard H361d, H319\n', encoding="utf-8")
    text = method("phase A:\n    to 100 % purified water\n    5 % bay resin", "    charge A into main\n    mix main for 10 min with propeller\n    fill main")
    made = compiled(text.replace("basis 1 kg\n", 'basis 1 kg\nmaterials "house.materials"\n'), folder=tmp_path)
    one = next(one.weighed for one in labels(made).labels if one.weighed.line.row.name == "bay resin")
    assert (one.grade, one.hazards) == ("35 % grade", ("H361d", "H319"))
    assert "Roll the can." in one.printed.note


@source("by hand", "a phase that goes into the pack")
def test_in_the_pack():
    """What goes into the pack goes into no step and no vessel."""
    made = compiled(method("phase A:\n    to 100 % purified water\nphase P in the pack: gas\n    5 % propane/isobutane", "    charge A into main\n    fill main", kind="aerosol"))
    one = next(one.weighed for one in labels(made).labels if one.weighed.line.step == 0)
    assert (one.goes, one.vessel, one.bar) == ("in the pack", "", "")


@source("by hand", "harbour-hand-cream at 150 kg: 4 % glycerin in halves is 3 kg each; 0.3 % of citric acid solution at most is 450 g")
def test_what_a_code_says():
    """A code is one line of JSON in ASCII, with the target in kg; what is no plain target says so."""
    made = cream()
    said = [json.loads(one.code) for one in made.labels]
    content = made.head.digest.replace(" ", "")
    assert said[3] == {"code": "HHC-014", "rev": "3", "batch": "H26-0412", "row": "A2", "line": 4, "n": 1, "of": 1, "kg": 3.0, "use": "part", "content": content}
    assert (said[-1]["row"], said[-1]["kg"], said[-1]["use"]) == ("D1", 0.45, "corrector")
    assert len(content) == 16 and all(one.code.isascii() and "\n" not in one.code for one in made.labels)


@source("by hand", "no amount is written for either; a litre of a solution made up to a mark is told in L")
def test_what_is_not_known_is_null():
    """An open dose and a corrector without a most have no number in their code; what is measured as a volume has litres."""
    made = compiled(method(SOLUTION, "    charge A into main\n    mix main for 10 min with propeller\n    adjust main to pH 5-6 with \"citric acid\"\n    fill main"))
    said = {one.weighed.line.row.name: json.loads(one.code) for one in labels(made).labels}
    assert said["xanthan gum"]["kg"] is None and said["citric acid"]["kg"] is None
    measured = compiled(method("phase A:\n    250 mL purified water\n    50 g glycerin", "    charge A into main\n    mix main for 10 min with propeller\n    fill main", basis="300 g"),
                        Request(order=read_size("3 kg")))
    water = next(json.loads(one.code) for one in labels(measured).labels if one.weighed.line.row.name == "purified water")
    assert water["L"] == 2.5 and "kg" not in water


@source("by hand", "as many characters as stand in code.py")
def test_a_code_that_is_too_long():
    """A batch number that would make the squares too small is refused."""
    with pytest.raises(ValueError, match="shorter batch number"):
        cream("x" * 250)
