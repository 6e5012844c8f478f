"""Water: its vapour, its boiling, its density, and what an open vessel loses of it."""

import csv
from pathlib import Path

import pytest

from procsheet.formulas.evaporation import _in_quiet_air, evaporation
from procsheet.formulas.warm_density import EXPANSION, warm_density, water_density
from procsheet.formulas.water_vapour_pressure import water_boiling_point, water_vapour_pressure
from tests.sources import source

DATA = Path(__file__).parents[1] / "published" / "data"


def rows(name):
    with (DATA / f"{name}.csv").open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


@source("published", "values that IAPWS R7-97 gives for checking a program, as the documentation of iapws v1.5.5 prints them: 500 K, 10 MPa")
def test_water_as_the_release_checks_it():
    """Saturation pressure and boiling point are those that IAPWS gives for checking a program."""
    assert water_vapour_pressure(temperature=500) == pytest.approx(2.63889776e6, rel=1e-8)
    assert water_boiling_point(pressure=10e6) == pytest.approx(584.149488, abs=1e-6)


@source("independent", "iapws v1.5.5, IAPWS-95 and IF97, every 1 to 5 K (water_iapws.csv)")
@pytest.mark.parametrize("row", rows("water_iapws"), ids=lambda row: row["t_C"])
def test_water_by_temperature(row):
    """Vapour pressure, boiling point and density of water agree with the table from 0 to 100 °C."""
    kelvin, pascal = max(float(row["t_C"]) + 273.15, 273.16), float(row["p_sat_kPa"]) * 1000
    assert water_vapour_pressure(temperature=kelvin) == pytest.approx(pascal, rel=1e-4)
    assert water_boiling_point(pressure=pascal) == pytest.approx(kelvin, abs=0.002)
    assert water_density(temperature=kelvin) == pytest.approx(float(row["rho_iapws95_kg_m3"]), abs=0.02)


@source("independent", "thermo v0.6.1, fits to measured densities (liquid_density.csv)")
@pytest.mark.parametrize("row", rows("liquid_density"), ids=lambda row: row["liquid"])
def test_warm_liquids_lie_in_the_range(row):
    """With no expansion coefficient given, the warm density lies between the two figures."""
    low, high = warm_density(density=float(row["cool_kg_m3"]), known_at=float(row["cool_C"]) + 273.15, temperature=float(row["warm_C"]) + 273.15)
    assert low < float(row["warm_kg_m3"]) < high


@source("by hand", "glycerin, 5.0e-4 1/K, 40 K: a change of 0.02 (a physics exercise): 1260 / 1.02 = 1235.3")
def test_warm_density_of_glycerin():
    """With one coefficient both figures are the same, and cooling turns the range about."""
    assert warm_density(density=1260, known_at=293.15, temperature=333.15, expansion=(5e-4, 5e-4)) == pytest.approx((1235.29, 1235.29), abs=0.01)
    low, high = warm_density(density=900, known_at=333.15, temperature=293.15)
    assert 900 < low < high == pytest.approx(900 / (1 - 40 * EXPANSION[1]))


def tanks():
    """Rows of the two tables in the range of the formula, in K and kg/(m² h); latent heat as the water tables have it."""
    for row in rows("open_tank_heat_loss"):
        water, air = ((float(row[name]) - 32) / 1.8 + 273.15 for name in ("water_F", "air_F"))
        if 303.15 <= water <= 368.15 and water - air >= 20:
            latent = 2.501e6 - 2430 * (water - 273.15)
            yield pytest.param(water, air, float(row["humidity"] or 0.5), float(row["Btu_per_ft2_h"]) * 3.154591 * 3600 / latent,
                               id=f"{row['table']} {row['water_F']} {row['air_F']}")


@source("published", "two public tables of heat lost by evaporation from open tanks (open_tank_heat_loss.csv), 40 to 93 °C")
@pytest.mark.parametrize("water, air, humidity, lost", list(tanks()))
def test_evaporation_covers_the_published_tables(water, air, humidity, lost):
    """What two published tables say of open tanks lies between low and high."""
    low, high = (one * 3600 for one in evaporation(surface=water, room=air, humidity=humidity))
    assert low <= lost <= high


@source("published", "look-up table of evaporation from quiet pools (pool_evaporation.csv): the first correlation by itself")
@pytest.mark.parametrize("row", rows("pool_evaporation"), ids=lambda row: f"{row['water_C']} {row['air_C']}")
def test_the_correlation_for_quiet_air(row):
    """Stepped outside its range of temperatures, the correlation for quiet air gives the figures that its author tabulated."""
    water, air = float(row["water_C"]) + 273.15, float(row["air_C"]) + 273.15
    at, off = water_vapour_pressure(temperature=water), 0.5 * water_vapour_pressure(temperature=air)
    assert _in_quiet_air(water, air, at, off) * 3600 == pytest.approx(float(row["kg_per_m2_h"]), abs=3e-4)


@source("by hand", "80 °C, 20 °C, half humid: (0.089 + 0.0782 * 0.3) * (47415 - 1170) / 2.3066e6 = 2.255e-3, by 1.2 = 2.706e-3 kg/(m² s) at least")
def test_evaporation_by_hand():
    """The high figure is at least that of the draught, a film takes the low one to nothing, and still, damp air lowers both."""
    low, high = evaporation(surface=353.15, room=293.15)
    assert high >= 2.70e-3
    assert evaporation(surface=353.15, room=293.15, film=True) == (0.0, high)
    damp = evaporation(surface=353.15, room=293.15, humidity=1.0, draught=0.0)
    assert damp[0] < low and damp[1] < high


@source("by hand", "each figure lies outside what its docstring allows")
@pytest.mark.parametrize("call", [
    lambda: water_vapour_pressure(temperature=273), lambda: water_boiling_point(pressure=600), lambda: water_density(temperature=430),
    lambda: warm_density(density=900, known_at=293, temperature=374), lambda: warm_density(density=0, known_at=293, temperature=294),
    lambda: evaporation(surface=369, room=293), lambda: evaporation(surface=310, room=296), lambda: evaporation(surface=350, room=293, humidity=1.1)])
def test_outside_its_range_water_raises(call):
    """A formula raises ValueError where it does not hold."""
    with pytest.raises(ValueError):
        call()
