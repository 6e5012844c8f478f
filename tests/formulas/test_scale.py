"""Formulas of scale, balances and packs against the published tables."""

import csv
import re
from fractions import Fraction
from pathlib import Path
from statistics import mean, stdev

import pytest
from hypothesis import given
from hypothesis import strategies as st

from procsheet.formulas.balance_error import balance_error
from procsheet.formulas.equal_power_speed import equal_power_speed
from procsheet.formulas.fill_tolerance import fill_tolerance, least_mean, most_defective
from procsheet.formulas.minimum_weight import minimum_weight
from procsheet.formulas.mixing_power import mixing_power, reynolds
from procsheet.formulas.passes import never_passed, passes, time_for_passes
from procsheet.formulas.usual_power_number import USUAL, usual_power_number
from procsheet.formulas.tip_speed import tip_speed, turns_for_tip_speed
from tests.sources import source

DATA = Path(__file__).parent / "data"


def rows(name: str) -> list[dict[str, str]]:
    with (DATA / f"{name}.csv").open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


SCALE = {row["case"]: float(row["value"]) for row in rows("scaleup_examples") if row["value"]}
RATIOS = [(float(match[1]), case) for case in SCALE if (match := re.match(r"P/V speed factor, length ratio ([\d.]+)", case))]


@source("published", "OIML R 76-1, table 6; table oiml_r76_examples of the handbook")
@pytest.mark.parametrize("row", rows("oiml_r76_examples"), ids=lambda row: f"{row['accuracy_class']}-{row['e_g']}-{row['load_g']}")
def test_what_a_balance_may_be_off(row):
    """The permissible error of each class at each load, at verification and in service."""
    asked = {"accuracy_class": row["accuracy_class"], "interval": float(row["e_g"]), "load": float(row["load_g"])}
    assert balance_error(**asked) == pytest.approx(float(row["mpe_initial_g"]))
    assert balance_error(**asked, in_service=True) == pytest.approx(float(row["mpe_in_service_g"]))


@source("published", "pharmacopoeia chapter on balances, 2 s / 0.10 % with 0.41 d for a smaller s; table usp41_minimum_weight of the handbook")
@pytest.mark.parametrize("row", [row for row in rows("usp41_minimum_weight") if row["minimum_weight_g"]], ids=lambda row: row["statement"])
def test_the_least_that_may_be_weighed(row):
    """Each worked example of the rule, and the same rule with a tolerance of the house."""
    allowed = re.search(r"allowed error ([\d.]+) %", row["statement"])
    found = minimum_weight(reads=float(row["d_g"]), tolerance=float(allowed[1]) / 100 if allowed else 0.001, repeatability=float(row["s_g"] or 0))
    assert found == pytest.approx(float(row["minimum_weight_g"]))


@source("published", "Directive 76/211/EEC, annex I 2.4; table tne_examples of the handbook")
@pytest.mark.parametrize("row", rows("tne_examples"), ids=lambda row: row["qn"])
def test_what_a_pack_may_lack(row):
    """The tolerable negative error, and the limits at once and twice that."""
    error = fill_tolerance(nominal=Fraction(row["qn"]))
    assert float(error) == float(row["tne"])
    assert float(Fraction(row["qn"]) - error) == float(row["T1_limit"]) and float(Fraction(row["qn"]) - 2 * error) == float(row["T2_limit"])


@source("published", "UK SI 2006/659, schedule 2, paragraphs 3 and 4; table prepack_reference_test of the handbook")
def test_the_reference_test():
    """The factors of the mean, and how many packs of a sample may be short."""
    for row in rows("prepack_reference_test"):
        if row["check"] == "mean check":
            assert least_mean(nominal=0, deviation=1, sample=int(row["sample_n"])) == pytest.approx(-float(row["k_or_accept"]))
        elif row["check"].startswith("defective"):
            destructive = "destructive" in row["batch"]
            batch = int(re.search(r"\d+", row["batch"])[0])
            assert most_defective(batch=batch, destructive=destructive) == (int(row["sample_n"]), int(row["k_or_accept"]))


@source("independent", "Student's t of scipy 1.17.1 as the table prints it: t(0.995, n-1)/sqrt(n); UK SI 2006/659")
def test_the_factors_are_those_of_student():
    """The legal factors are t(0.995, n-1)/sqrt(n), to the digits of the law."""
    for row in rows("prepack_reference_test"):
        if row["check"] == "mean check":
            assert float(row["k_or_accept"]) == pytest.approx(float(row["recomputed"]), abs=6e-4)


@source("by hand", "table prepack_worked_example of the handbook: twenty packs of 200 mL, arithmetic on a made-up sample")
def test_a_sample_of_twenty():
    """Mean, deviation, the least mean and the short packs of one sample, and of the same with two short packs."""
    told = rows("prepack_worked_example")
    sample = [float(value) for value in re.search(r"data: ([\d. ]+)", told[0]["source"])[1].split()]
    assert mean(sample) == pytest.approx(float(told[0]["value"])) and stdev(sample) == pytest.approx(float(told[1]["value"]), abs=1e-4)
    assert least_mean(nominal=200, deviation=stdev(sample), sample=20) == pytest.approx(float(told[2]["value"]), abs=1e-4)
    short = 200 - float(fill_tolerance(nominal=200))
    assert sum(value < short for value in sample) == int(told[5]["value"]) <= most_defective(batch=1000, destructive=True)[1]
    assert sum(value < short for value in (190.5, 190.9)) == int(told[10]["value"]) > most_defective(batch=1000, destructive=True)[1]


@source("published", "chemical-processing magazine article, 250 rpm and five times the length; table scaleup_examples of the handbook")
@pytest.mark.parametrize("ratio, case", RATIOS)
def test_equal_power_for_each_volume(ratio, case):
    """The speed factor at equal power for each volume, over five length ratios, and the article's own example."""
    # the row of 21.54 rounds the ratio to four digits
    assert equal_power_speed(speed=1, diameter=1, larger=ratio) == pytest.approx(SCALE[case], rel=2e-4)
    assert equal_power_speed(speed=250, diameter=1, larger=5) == pytest.approx(SCALE["equal P/V"])


@source("published", "chemical-processing magazine article, worked example; table scaleup_examples of the handbook")
def test_equal_tip_speed():
    """250 rpm, five times the length: 50 rpm."""
    assert turns_for_tip_speed(diameter=5, tip=tip_speed(diameter=1, speed=250)) == pytest.approx(SCALE["equal tip speed"])


@source("by hand", "closed forms of table scaleup_examples of the handbook")
def test_power_passes_and_reynolds():
    """Power number, power for each volume, turnovers and what never passed, as the table works them out."""
    power = mixing_power(power_number=1.27, density=1000, speed=5, diameter=0.3)
    assert power == pytest.approx(SCALE["power"]) and power / 0.2 == pytest.approx(SCALE["power per volume"])
    assert reynolds(density=1000, speed=5, diameter=0.3, viscosity=1) == pytest.approx(SCALE["impeller Reynolds"])
    assert passes(flow=2 / 3600, time=1800, volume=0.2) == pytest.approx(SCALE["rotor-stator turnovers"])
    assert time_for_passes(flow=6 / 3600, passes=5, volume=1) / 60 == pytest.approx(SCALE["turnover time for same count at 1000 kg, 6 m3/h"])
    assert never_passed(passes=5) == pytest.approx(SCALE["fraction never passed after n turnovers (ideal mix)"])


@source("by hand", "a law: at equal power for each volume P/V = Np rho N^3 D^5 / D^3 stays")
@given(speed=st.floats(0.1, 100), diameter=st.floats(0.01, 1), larger=st.floats(0.01, 5), one=st.floats(0.1, 6), other=st.floats(0.1, 6))
def test_power_for_each_volume_is_the_same(speed, diameter, larger, one, other):
    """Worked back through the power number, both tools put the same power into each volume."""
    found = equal_power_speed(speed=speed, diameter=diameter, larger=larger, power_number=one, larger_power_number=other)
    before = mixing_power(power_number=one, density=1000, speed=speed, diameter=diameter) / diameter ** 3
    assert mixing_power(power_number=other, density=1000, speed=found, diameter=larger) / larger ** 3 == pytest.approx(before)


@source("by hand", "a law: time and passes are each other's inverse")
@given(flow=st.floats(1e-5, 1), volume=st.floats(1e-3, 10), time=st.floats(0, 1e5))
def test_time_for_passes_is_the_inverse(flow, volume, time):
    """The time for the passes of a time is that time."""
    assert time_for_passes(flow=flow, volume=volume, passes=passes(flow=flow, time=time, volume=volume)) == pytest.approx(time, abs=1e-9)


@source("by hand", "outside the tables, and less than nothing")
@pytest.mark.parametrize("call", [lambda: fill_tolerance(nominal=4), lambda: most_defective(batch=99), lambda: least_mean(nominal=1, deviation=1, sample=7), lambda: passes(flow=0, time=1, volume=1),
                                  lambda: balance_error(accuracy_class="V", interval=1, load=1), lambda: balance_error(accuracy_class="III", interval=1, load=10_001),
                                  lambda: equal_power_speed(speed=0, diameter=1, larger=1), lambda: mixing_power(power_number=1, density=1, speed=-1, diameter=1),
                                  lambda: reynolds(density=1, speed=1, diameter=1, viscosity=0), lambda: never_passed(passes=-1), lambda: time_for_passes(flow=1, passes=-1, volume=1)])
def test_outside_its_range_a_formula_raises(call):
    """What a table or a law does not hold for is refused."""
    with pytest.raises(ValueError):
        call()




@source("published", "table power_numbers of the handbook: mixing consultant's and process-engineering pages as read; rows from memory only beside them")
@pytest.mark.parametrize("kind, impeller", [("pitched-blade turbine", "pitched-blade turbine, 4 blades, 45 deg, W/D=0.2"), ("disc turbine", "Rushton disc turbine"),
                                            ("propeller", "marine propeller, square pitch"), ("flat-blade turbine", "flat-blade turbine, 4 blades"), ("dissolver", "sawtooth disc"),
                                            ("homogeniser", "in-tank rotor-stator")])
def test_usual_power_numbers(kind, impeller):
    """Each kind has the figure of the table, or lies in its range."""
    row = next(row for row in rows("power_numbers") if row["impeller"] == impeller)
    told = re.findall(r"\d+(?:\.\d+)?", row["Np"] if row["how_known"] == "read" else f"{row['Np']} {row['note']}")
    assert min(map(float, told)) <= usual_power_number(kind=kind) <= max(map(float, told))
    assert ("from memory" in USUAL[kind][1]) == (row["how_known"] == "memory")
    with pytest.raises(ValueError):
        usual_power_number(kind="spoon")
