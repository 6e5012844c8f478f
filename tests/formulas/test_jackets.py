"""Jackets with two temperatures, the wall they touch, and what a stirrer adds."""

import csv
from math import asin, atanh, exp, inf, pi, sqrt
from pathlib import Path

import pint
import pytest

from procsheet.formulas.flowing_jacket_time import flowing_jacket_time
from procsheet.formulas.jacket_time import jacket_time
from procsheet.formulas.stirring_power import stirrer_reynolds, stirring_power
from procsheet.formulas.switched_jacket_time import switched_jacket_time
from procsheet.formulas.warming_rate import warming_rate
from procsheet.formulas.wetted_wall import wetted_share, wetted_wall
from tests.sources import source

DATA = Path(__file__).parents[1] / "published" / "data"
BATCH = {"mass": 500, "heat_capacity": 3500, "coefficient": 350, "area": 2.5}


def stepped(start, target, medium, flow=inf, second=0.1):
    """Seconds to the target by the heat balance, step by step (midpoint); medium: temperature at the inlet, by that of the batch."""
    carried = flow * 4186
    taken = 350 * 2.5 if flow == inf else carried * (1 - exp(-350 * 2.5 / carried))
    rate = lambda batch: taken * (medium(batch) - batch) / (500 * 3500)
    batch, seconds = start, 0.0
    while (target - batch) * (target - start) > 0:
        batch += second * rate(batch + second / 2 * rate(batch))
        seconds += second
    return seconds


@source("independent", "the heat balance stepped ten times a second, the medium's outlet from its own balance along the wall")
@pytest.mark.parametrize("start, target, inlet", [(293.15, 348.15, 368.15), (348.15, 308.15, 288.15)])
@pytest.mark.parametrize("flow", [0.2, 1.0, 5.0])
def test_flowing_jackets(start, target, inlet, flow):
    """Heating and cooling by water that changes its temperature on the way takes what the stepped balance takes."""
    found = flowing_jacket_time(**BATCH, start=start, target=target, inlet=inlet, flow=flow)
    assert found == pytest.approx(stepped(start, target, lambda batch: inlet, flow), abs=0.3)


@source("published", "jacket_heating.csv, closed form for a non-isothermal medium: t = M cp/(Wh ch) K1/(K1-1) ln((Ti-T1)/(Ti-T2)), K1 = exp(UA/(Wh ch))")
def test_flowing_jacket_as_it_is_published():
    """The formula gives what its published form gives, and tends to the isothermal one as the flow grows."""
    k = exp(350 * 2.5 / (0.5 * 4000))
    published = 500 * 3500 / (0.5 * 4000) * k / (k - 1) * 1.3217558399823195     # ln((95-20)/(95-75))
    assert flowing_jacket_time(**BATCH, start=293.15, target=348.15, inlet=368.15, flow=0.5, medium_heat_capacity=4000) == pytest.approx(published, rel=1e-9)
    assert flowing_jacket_time(**BATCH, start=293.15, target=348.15, inlet=368.15, flow=1e6) == pytest.approx(2643.51, abs=0.01)


@source("independent", "the heat balance stepped ten times a second, with the medium changed at the switch")
@pytest.mark.parametrize("start, target, first, switch, second", [
    (348.15, 298.15, 288.15, 313.15, 278.15), (293.15, 353.15, 343.15, 333.15, 393.15), (348.15, 298.15, 288.15, 290.0, 278.15),
    (348.15, 298.15, 288.15, 360.0, 278.15)])
def test_switched_jackets(start, target, first, switch, second):
    """Two media one after the other take what the stepped balance takes, also where the switch lies outside the way."""
    found = switched_jacket_time(**BATCH, start=start, target=target, first=first, switch=switch, second=second)
    reached = (lambda batch: batch <= switch) if target < start else (lambda batch: batch >= switch)
    assert found == pytest.approx(stepped(start, target, lambda batch: second if reached(batch) else first), abs=0.3)


@source("independent", "closed form with the mean coefficient: 893.5 s; a published problem, 600 kg from 15 to 150 °C by steam of 170 °C (jacket_heating.csv)")
def test_steam_jacket_of_the_published_problem():
    """A steam jacket heats the batch of a published problem in the time worked out for it."""
    with (DATA / "jacket_heating.csv").open(encoding="utf-8", newline="") as file:
        row = next(row for row in csv.DictReader(file) if row["case"] == "answer, mean U=565.3")
    found = jacket_time(mass=600, heat_capacity=1850, coefficient=565.3, area=4.5, start=288.15, target=423.15, jacket=443.15)
    assert found == pytest.approx(float(row["value"]), abs=0.1)


@source("by hand", "flat: pi D²/4 + 4 V/D; 2:1 head: volume pi D³/24, area pi D²/4 (1 + atanh(e) / (4 e)), e = sqrt(3)/2, which is 1.084 D²")
@pytest.mark.parametrize("diameter", [0.5, 1.0, 2.0])
def test_walls_of_flat_and_elliptical_vessels(diameter):
    """Height and wall of a full bottom and of a metre of side above it are those of the closed forms."""
    side = pi * diameter ** 2 / 4
    assert wetted_wall(volume=side, diameter=diameter, bottom="flat") == pytest.approx((1.0, side + pi * diameter), rel=1e-9)
    eccentric = sqrt(3) / 2
    head = side * (1 + atanh(eccentric) / (4 * eccentric))
    assert head == pytest.approx(1.084 * diameter ** 2, rel=1e-3)
    assert wetted_wall(volume=pi * diameter ** 3 / 24, diameter=diameter) == pytest.approx((diameter / 4, head), rel=1e-4)
    assert wetted_wall(volume=pi * diameter ** 3 / 24 + side, diameter=diameter) == pytest.approx((diameter / 4 + 1, head + pi * diameter), rel=1e-4)


@source("published", "volume of a torispherical head, geometry page: V = pi/3 (2 h R² - (2 a² + c² + 2 a R)(R - h) + 3 a² c asin((R - h)/(R - a)))")
def test_wall_of_a_torispherical_bottom():
    """The torispherical bottom holds the volume of the published formula, and its area is that of cap and ring."""
    crown, knuckle, centre = 1.0, 0.1, 0.4
    deep = crown - sqrt((crown - knuckle) ** 2 - centre ** 2)
    volume = pi / 3 * (2 * deep - (2 * knuckle ** 2 + centre ** 2 + 2 * knuckle) * (1 - deep) + 3 * knuckle ** 2 * centre * asin((1 - deep) / 0.9))
    turn = pi / 2 - asin(centre / 0.9)
    area = 2 * pi * (1 - sqrt(1 - (centre / 0.9) ** 2)) + 2 * pi * knuckle * (centre * turn + knuckle * sqrt(1 - (centre / 0.9) ** 2))
    height, wall = wetted_wall(volume=volume, diameter=1, bottom="torispherical")
    assert (height, wall) == pytest.approx((deep, area), rel=1e-3)


@source("by hand", "the cap of a 2:1 ellipsoid, depth h: V = pi (a/c)² h² (c - h/3), with a = 0.5 m, c = 0.25 m, h = 0.1 m: 0.02723 m³")
def test_a_little_in_the_bottom():
    """A batch that stands within the dished bottom reaches the height of the closed form, and touches more than a flat one's share."""
    height, area = wetted_wall(volume=pi * 4 * 0.01 * (0.25 - 0.1 / 3), diameter=1)
    assert height == pytest.approx(0.1, rel=1e-3)
    assert pi * (0.5 ** 2 - 0.3 ** 2) < area < 1.084


@source("by hand", "jacket_heating.csv, row of the area: 1 m wide and 1 m high with a flat bottom, 3.927 m²; half of it: (0.785 + 1.571) / 3.927 = 0.6")
def test_share_of_the_wall():
    """The wetted share grows with the fill, faster than the fill, and ends at 1."""
    full = pi / 4
    assert wetted_wall(volume=full, diameter=1, bottom="flat")[1] == pytest.approx(3.927, abs=1e-3)
    assert wetted_share(volume=full / 2, full=full, diameter=1, bottom="flat") == pytest.approx(0.6)
    shares = [wetted_share(volume=full * tenth / 10, full=full, diameter=1, bottom="torispherical") for tenth in range(12)]
    assert shares == sorted(shares) and shares[0] == 0 and shares[-1] == 1
    assert all(share > tenth / 10 for tenth, share in enumerate(shares[1:10], start=1))


@source("published", "textbook example, as a question page prints it: flat-blade turbine, 2 ft, 90 rpm, 93.5 lb/ft³, 12 cP, Np 5.8: Re 69 600, 2.47 kW")
def test_stirring_power_of_the_textbook():
    """Reynolds number and power of a textbook's turbine come out as it prints them."""
    stirrer = {"speed": 1.5, "diameter": 2 * 0.3048, "density": 93.5 * 16.018463, "viscosity": 0.012}
    assert stirrer_reynolds(**stirrer) == pytest.approx(69600, rel=2e-3)
    assert stirring_power(power_number=5.8, **stirrer) == pytest.approx(2470, rel=2e-3)


@source("published", "scale-up rule N2 = N1 (D1/D2)^(2/3): 250 rpm, five times the length, 85.49879733383486 rpm (scaleup_examples)")
def test_equal_power_per_volume():
    """At the speed of the published rule, power divided by volume is the same five times as large."""
    small = stirring_power(power_number=1.27, density=1000, speed=250 / 60, diameter=0.1, viscosity=0.001) / 0.001
    large = stirring_power(power_number=1.27, density=1000, speed=85.49879733383486 / 60, diameter=0.5, viscosity=0.001) / 0.125
    assert small == pytest.approx(large, rel=1e-9)


@source("by hand", "Re = rho N D² / mu: N 5 /s, D 0.1 m, 1000 kg/m³, 1 Pa s: 50 (mixing_library_checks, fluids v1.3.1)")
def test_reynolds_number_of_a_cream():
    """A thick cream's Reynolds number is that of the library, and too low for the turbulent power number."""
    assert stirrer_reynolds(speed=5, diameter=0.1, density=1000, viscosity=1) == pytest.approx(50)
    with pytest.raises(ValueError, match="Reynolds"):
        stirring_power(power_number=5, speed=5, diameter=0.1, density=1000, viscosity=1)


@source("by hand", "P t/(m c): 5 kW, 600 s, 200 kg, 3.5 kJ/(kg K): 4.28571 K (scaleup_examples, closed form)")
def test_warming_by_a_mixer():
    """Ten minutes of 5 kW warm 200 kg of cream by 4.29 K."""
    assert warming_rate(power=5000, mass=200, heat_capacity=3500) * 600 == pytest.approx(4.28571, abs=1e-5)


@source("independent", "pint: the formula called with quantities gives the promised unit")
def test_units_of_jackets_and_mixers():
    """Called with quantities in the bracketed units, the formulas give the promised ones."""
    units = pint.UnitRegistry()
    kg, watt, each = units.kg, units.watt, units.joule / units.kg / units.kelvin
    batch = {"mass": 500 * kg, "heat_capacity": 3500 * each, "coefficient": 350 * watt / units.m**2 / units.kelvin, "area": 2.5 * units.m**2}
    celsius = {"start": 75, "target": 25, "first": 15, "switch": 40, "second": 5}
    kelvin = {name: units.Quantity(value + 273.15, "kelvin") for name, value in celsius.items()}
    assert switched_jacket_time(**batch, **kelvin).check("[time]")
    assert warming_rate(power=5000 * watt, mass=200 * kg, heat_capacity=3500 * each).check("[temperature]/[time]")


@source("by hand", "each figure lies outside what its docstring allows")
@pytest.mark.parametrize("call", [
    lambda: flowing_jacket_time(**BATCH, start=300, target=320, inlet=310, flow=1),
    lambda: flowing_jacket_time(**BATCH, start=300, target=320, inlet=350, flow=0),
    lambda: switched_jacket_time(**BATCH, start=300, target=340, first=310, switch=320, second=360),
    lambda: wetted_wall(volume=-1, diameter=1), lambda: wetted_wall(volume=1, diameter=1, bottom="conical"), lambda: wetted_share(volume=1, full=0, diameter=1),
    lambda: stirrer_reynolds(speed=0, diameter=1, density=1, viscosity=1), lambda: warming_rate(power=1, mass=0, heat_capacity=1)])
def test_outside_its_range_a_jacket_raises(call):
    """A formula raises ValueError where it does not hold."""
    with pytest.raises(ValueError):
        call()
