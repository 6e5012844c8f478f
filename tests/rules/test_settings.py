"""Levels and limits that a plant or a house sets, and exceptions that are signed for."""

import re
from pathlib import Path

import pytest

from procsheet.pipeline import Request, compile_method
from procsheet.rules import RULES
from procsheet.source import source as text
from tests.rules import frames
from tests.sources import source

HERE = Path(__file__).parent
METHOD = (HERE / "fragrance_temp" / "trips.method").read_text(encoding="utf-8")
TRIPS = [rule for rule in RULES if rule.LEVEL in ("STOP", "WARN")]


def found(folder: Path, written: str = METHOD, plant: str = "", house: str = ""):
    request = Request()
    if plant:
        (folder / "own.plant").write_text(f"plant Own\n{plant}", encoding="utf-8")
        request = Request(plant=folder / "own.plant")
    if house:
        (folder / "house.materials").write_text(house, encoding="utf-8")
        written = re.sub(r"^basis", 'materials "house.materials"\nbasis', written, count=1, flags=re.MULTILINE)
    compiled = compile_method(text("a.method", written), folder, request)
    return compiled, [one for finding in compiled.findings for one in (finding, *finding.folded)]


def levels(every, name: str = "fragrance-temp") -> list[str]:
    return [one.level for one in every if one.name == name]


@source("by hand", "a rule block beside its reason")
@pytest.mark.parametrize("where", ["plant", "house"])
def test_a_level_is_set_beside_its_reason(tmp_path, where):
    """A plant or a house lowers a rule; the finding tells who did and why; `off` takes it away."""
    plain = levels(found(tmp_path)[1])
    assert plain and set(plain) <= {"STOP", "WARN"}
    _, lowered = found(tmp_path, **{where: 'rule fragrance-temp\n    level NOTE because "tried at 60 °C"\n'})
    assert levels(lowered) == ["NOTE"] * len(plain)
    assert any("set in" in one.source and "tried at 60 °C" in one.source for one in lowered if one.name == "fragrance-temp")
    assert levels(found(tmp_path, **{where: 'rule fragrance-temp\n    level off because "no perfume here minds"\n'})[1]) == []


@source("by hand", "the plant is nearer than the house")
def test_the_plant_goes_before_the_house(tmp_path):
    """Where both set a level, the plant's counts."""
    _, every = found(tmp_path, plant='rule fragrance-temp\n    level STOP because "open kettles"\n', house='rule fragrance-temp\n    level NOTE because "tried"\n')
    assert set(levels(every)) == {"STOP"}


@source("by hand", "a slip in a rule block")
@pytest.mark.parametrize("block, says", [("rule fragrance-tmp\n    level NOTE because \"x\"\n", "fragrance-temp"), ("rule fragrance-temp\n    level NOTE\n", "reason"),
                                         ("rule fragrance-temp\n    level LOUD because \"x\"\n", "level")])
def test_a_slip_in_a_block_is_told(tmp_path, block, says):
    """An unknown rule, an unknown level, a level without a reason: each is a finding, and sets nothing."""
    compiled, every = found(tmp_path, plant=block)
    slips = [one for one in compiled.findings if one.name == "not-understood"]
    assert slips and any(says in one.title + one.fix for one in slips)
    assert "NOTE" not in levels(every)


@source("by hand", "every rule's own method that trips it, with the exception written as a chemist would")
@pytest.mark.parametrize("rule", TRIPS, ids=lambda rule: rule.NAME)
def test_every_rule_can_be_signed_for(rule):
    """A stop or warning of any rule is signed for by name, material and step, and then stands among the exceptions."""
    folder = HERE / rule.NAME.replace("-", "_")
    written = (folder / "trips.method").read_text(encoding="utf-8")
    before = compile_method(text("trips.method", written), folder)
    loud = [one for finding in before.findings for one in (finding, *finding.folded) if one.name == rule.NAME and one.level in ("STOP", "WARN")]
    if not loud:
        assert frames.expected(written)                     # a note or open point needs no signature
        return
    signed = written.rstrip() + "\n\n" + "\n".join(dict.fromkeys(_accept(one, before) for one in loud)) + "\n"
    after = compile_method(text("trips.method", signed), folder)
    assert len(after.signed) == len(loud), [one.title for one in after.findings if one.name == "accept"]
    assert not [one for finding in after.findings for one in (finding, *finding.folded) if one.name in ("accept", rule.NAME) and one.level in ("STOP", "WARN")]


def _accept(one, before) -> str:
    names = {step.number: step.name for step in before.method.steps()}
    where = f" in {names[one.step]}" if names.get(one.step) else ""
    return f"accept {one.name}" + (f' for "{one.material}"' if one.material else "") + where + ' because "tried" by "R.T."'


@source("by hand", "an exception for what is not found")
def test_a_stale_exception_is_found():
    """An accept that fits nothing stops the method."""
    compiled = compile_method(text("a.method", METHOD.replace("75", "25") + '\naccept melt-margin because "tried" by "R.T."\n'), HERE)
    assert any(one.name == "accept" and one.stops for one in compiled.findings)
