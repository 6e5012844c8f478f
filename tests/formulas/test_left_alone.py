"""A batch left to the air of its room, and a lye left to its own heat."""

from math import pi

import pytest
from hypothesis import given, strategies as st

from procsheet.formulas.cooling_in_air import cooling_in_air
from procsheet.formulas.solution_rise import solution_rise
from tests.sources import source


@source("by hand", "the heat balance m c dT = -U A (T - Tr) dt stepped second by second; a cylinder of 1 m by 1 m has 1.5 pi m² and pi/4 m³")
def test_it_agrees_with_a_stepped_balance():
    """A kettle of one metre by one metre falls as the stepped balance says."""
    temperature = 353.15
    for _ in range(7200):
        temperature -= 30 * 1.5 * pi * (temperature - 293.15) / (700 * 3500)
    found = cooling_in_air(mass=700, heat_capacity=3500, volume=pi / 4, start=353.15, room=293.15, time=7200)
    assert found == pytest.approx(temperature, abs=0.01)


@source("by hand", "heat flows toward the colder side and stops where both are equal")
@given(st.floats(260, 380), st.floats(280, 310), st.floats(0.2, 5000), st.floats(0, 1e6))
def test_it_never_passes_the_room(start, room, mass, time):
    """Whatever the batch, it lies between where it was and the room."""
    found = cooling_in_air(mass=mass, heat_capacity=3500, volume=mass / 1000, start=start, room=room, time=time)
    assert min(start, room) - 1e-6 <= found <= max(start, room) + 1e-6


@source("by hand", "40 g of sodium hydroxide in 1 kg of lye: 44.5 kJ over 3.7 kJ/K")
def test_a_lye_warms_itself():
    """One mole of caustic in a kilogram warms it by 12 K."""
    assert solution_rise(mass_fraction=0.04, heat=44.5e3 / 0.04) == pytest.approx(12.03, abs=0.01)
