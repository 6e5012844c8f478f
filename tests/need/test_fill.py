"""How packs are filled, and whether a sample of them holds enough."""

import csv
import re
from fractions import Fraction
from pathlib import Path

import pytest

from procsheet.formulas.fill_tolerance import MEAN, least_mean, most_defective
from procsheet.need.fill import Fill, fill, judge
from procsheet.pipeline import Request
from procsheet.plan.plan import Order
from tests.made import RECIPES, compiled
from tests.need.made import plan
from tests.sources import source

DATA = Path(__file__).parents[1] / "formulas" / "data"
EVEN = Fill("jar", "g", Fraction(200), Fraction(9), Fraction(200), None, None, 1000, None)


def rows(name: str) -> list[dict[str, str]]:
    with (DATA / f"{name}.csv").open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


@source("published", "Directive 76/211/EEC, annex I 2.4; table tne_examples of the handbook")
@pytest.mark.parametrize("row", rows("tne_examples"), ids=lambda row: row["qn"])
@pytest.mark.parametrize("unit", ["g", "mL"])
def test_what_a_pack_may_lack(row, unit, tmp_path):
    """The tolerable error and both limits of a declared content, by weight and by volume."""
    one = fill(plan(tmp_path, pack=f"declared {row['qn']} {unit}"))
    assert (one.unit, float(one.declared), float(one.error)) == (unit, float(row["qn"]), float(row["tne"]))
    assert tuple(map(float, one.limits)) == (float(row["T1_limit"]), float(row["T2_limit"]))


@source("by hand", "100 g: may lack 4.5 g, T1 95.5 g; packs that scatter by 2 g or 4.5 % are filled to 100 g, by 6 g or 8 % to 95.5 + 6 = 101.5 or 103.5 g; outside the table to what is declared")
@pytest.mark.parametrize("written, target", [("100 g", 100), ("100 g\n    fill tolerance 2 g", 100), ("100 g\n    fill tolerance 4.5 %", 100), ("100 g\n    fill tolerance 6 g", Fraction(1015, 10)),
                                             ("100 g\n    fill tolerance 8 %", Fraction(1035, 10)), ("4 g\n    fill tolerance 8 %", 4), ("100 g\n    fill tolerance 6 mL", 100)])
def test_what_the_filler_is_set_to(written, target, tmp_path):
    """Never below what is declared, and more where the low end of the tolerance would lack too much."""
    one = fill(plan(tmp_path, pack=f"declared {written}"))
    assert one.target == target and (one.error is None) == (one.declared < 5)


@source("by hand", "harbour hand cream, 500 kg at 97 %, 6 kg lost, 75 mL at 0.98 g/mL: 479 kg / 73.5 g = 6517.0; 6517 = 271 x 24 + 13; 75 mL weigh 72 to 75 g at 0.96 to 1.00 g/mL")
def test_how_many_packs_a_batch_fills():
    """Yield, filling loss, density and cases."""
    text = (RECIPES / "harbour-hand-cream.method").read_text(encoding="utf-8")
    one = fill(compiled(text, Request(Order(mass=Fraction(500)), RECIPES / "plants" / "filler.plant"), RECIPES).batch.plan)
    assert (one.pack, one.units, one.cases, one.weighs) == ("75 mL tube", 6517, (271, 13), (72, 75))
    assert one.warm == pytest.approx(298.15)


@source("by hand", "100 kg at 101.5 g: 985.2 packs")
def test_what_is_filled_above_fills_fewer_packs(tmp_path):
    """Packs are counted at what they are filled to."""
    assert fill(plan(tmp_path, pack="declared 100 g\n    fill tolerance 6 g")).units == 985


@source("by hand", "a density at 20 °C, at room temperature, at 25 °C, at none")
@pytest.mark.parametrize("at, warm", [(" at 20 °C", None), (" at 15-25 °C", None), (" at 25 °C", 298.15), ("", None)])
def test_volumes_hold_at_twenty_degrees(at, warm, tmp_path):
    """A density for another temperature is marked."""
    found = fill(plan(tmp_path, pack=f"declared 100 mL\n\nlimits\n    density 0.96-1.00 g/mL{at}"))
    assert found.density == (960, 1000) and found.weighs == (96, 100) and found.warm == (pytest.approx(warm) if warm else None)


@source("by hand", "a pack that declares nothing, or pieces")
@pytest.mark.parametrize("pack", ['batch code "lid"', "declared 3 units", "declared ? mL"])
def test_no_content_no_fill(pack, tmp_path):
    """Without a declared weight or volume there is no fill."""
    assert fill(plan(tmp_path, pack=pack)) is None


@source("by hand", "table prepack_worked_example of the handbook: twenty packs of 200 mL, arithmetic on a made-up sample")
def test_a_sample_of_twenty():
    """Mean, deviation, least mean, short packs and verdict, of one sample and of the same with two short packs."""
    told = rows("prepack_worked_example")
    sample = tuple(map(Fraction, re.search(r"data: ([\d. ]+)", told[0]["source"])[1].split()))
    good = judge(EVEN, sample, 1000)
    assert (float(good.mean), good.short, good.most, good.far, good.passes) == (float(told[0]["value"]), int(told[5]["value"]), 1, 0, True)
    assert good.deviation == pytest.approx(float(told[1]["value"]), abs=1e-4) and good.least == pytest.approx(float(told[2]["value"]), abs=1e-4)
    bad = judge(EVEN, (Fraction("190.5"), Fraction("190.9"), *sample[2:]), 1000)
    assert (float(bad.mean), bad.short, bad.passes) == (pytest.approx(float(told[7]["value"]), abs=0.01), int(told[10]["value"]), told[11]["value"] == "accept")
    assert bad.deviation == pytest.approx(float(told[8]["value"]), abs=1e-3) and bad.least == pytest.approx(float(told[9]["value"]), abs=1e-3)


@source("published", "UK SI 2006/659, schedule 2, paragraphs 3 and 4; table prepack_reference_test of the handbook")
@pytest.mark.parametrize("row", [row for row in rows("prepack_reference_test") if row["check"].startswith("defective")], ids=lambda row: row["batch"])
def test_how_many_may_be_short(row):
    """As many short packs as the table accepts pass, one more does not."""
    taken, most = int(row["sample_n"]), int(row["k_or_accept"])
    packs = int(re.search(r"\d+", row["batch"])[0])
    for short in (most, most + 1):
        found = judge(EVEN, (Fraction("190.9"),) * short + (Fraction(202),) * (taken - short), packs)
        assert (found.most, found.short, found.passes) == (most, short, short == most)
    assert found.least is None or found.least == pytest.approx(least_mean(nominal=200, deviation=found.deviation, sample=taken))


@source("published", "average-weight explanatory page: none below T2; table prepack_reference_test of the handbook; 200 g: T2 182 g")
@pytest.mark.parametrize("least, passes", [("182", True), ("181.9", False)])
def test_none_below_twice_the_error(least, passes):
    """One pack below T2 is one too many; at T2 it is not below."""
    found = judge(EVEN, (Fraction(least), *(Fraction(203),) * 19), 1000)
    assert (found.passes, found.far) == (passes, int(not passes))


@source("published", "UK SI 2006/659, schedule 2, paragraphs 3.6 and 4.7: below 100 packs all are tested, 5 % may be short, and the mean reaches what is declared; table prepack_reference_test of the handbook")
def test_small_batches_are_tested_whole():
    """Of 40 packs two may be short, of 40 tested; the mean has no allowance."""
    two = judge(EVEN, (Fraction(190),) * 2 + (Fraction(201),) * 38, 40)
    assert (two.most, two.short, two.least, two.passes) == (2, 2, 200, True)
    assert not judge(EVEN, (Fraction(190),) * 3 + (Fraction(201),) * 37, 40).passes
    assert not judge(EVEN, (Fraction("199.9"),) * 40, 40).passes


@source("by hand", "a sample of a size no test takes, of one pack, and of a content outside the table")
@pytest.mark.parametrize("one, taken", [(EVEN, 37), (EVEN, 1), (EVEN._replace(error=None), 20)])
def test_a_sample_no_test_takes(one, taken):
    """It is refused."""
    assert taken not in MEAN or most_defective(batch=1000, destructive=True) == (taken, 1)
    with pytest.raises(ValueError):
        judge(one, (Fraction(200),) * taken, 1000)
