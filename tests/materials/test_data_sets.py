"""The shipped figures of single substances against the data sets of `chemicals`, by registry number.

Why each tolerance is what it is:

flash point    at most 2 K above a measured figure, the repeatability of a closed cup, and at most 3 K below, since lower is the safe side but must not be invented
melts          3 K between the ranges: capillary, calorimeter and the purity of a sample differ by that much
boils          3 K: reference tables spread by 1 to 2 K, and the air pressure of a site shifts it as far
density        1.5 %: 15 K of thermal expansion, or the temperature a table leaves out
heat capacity  10 %: the spread of careful measurements, and of the 15 K around the temperature stated
"""

import re

import pytest

from procsheet.model.material import Figure, fold
from tests.materials.listed import Disagreement, listed, rows
from tests.materials.ours import Substance, compared, substances
from tests.sources import source

pytest.importorskip("chemicals")

from tests.materials import outside  # noqa: E402

ABOVE, BELOW = 2.0, 3.0                 # K, flash points
APART = 3.0                             # K, melting and boiling
OFF = {"density": 0.015, "heat capacity": 0.10}
ENOUGH = {"flash point": 25, "melts": 30, "boils": 50, "density": 70, "heat capacity": 35}     # so many are compared at least


def told(one: Substance, name: str, figure: Figure) -> outside.Told | None:
    """What the data sets say of this figure."""
    form = one.material.text("form")
    if name == "density":
        return outside.density(one.cas, figure.at or 293.15, form)
    if name == "heat capacity":
        return outside.heat_of_warming(one.cas, figure.at or 298.15, form)
    return {"flash point": outside.flash_point, "melts": outside.melts, "boils": outside.boils}[name](one.cas)


def agrees(name: str, ours: Figure, theirs: float) -> bool:
    low, high = ours.value.low, ours.value.high
    if name == "flash point":
        return theirs - BELOW <= low and high <= theirs + ABOVE
    if name in OFF:
        return abs((low + high) / 2 / theirs - 1) <= OFF[name]
    return low <= theirs + APART and high >= theirs - APART


def shown(name: str, value: float) -> str:
    if name in OFF:
        return f"{value / 1000:.3f} {'g/mL' if name == 'density' else 'kJ/kg/K'}"
    return f"{value - outside.KELVIN:.1f} °C"


def pairs(name: str):
    """Every figure of ours that a data set says something of."""
    for one in substances():
        for figure in compared(one.material, name):
            theirs = told(one, name, figure)
            if theirs:
                yield one, figure, theirs


@source("independent", "chemicals 1.5.2: IEC 60079-20-1, NFPA 497, CRC, NIST and other measured tables, evaluated heat capacities; estimates left out")
@pytest.mark.parametrize("name", ENOUGH)
def test_figures_agree_with_the_data_sets(name):
    """Each figure lies within the tolerance of the data set's, or is listed with the reason; nothing is listed that agrees."""
    compared_ones = list(pairs(name))
    apart = {Disagreement(one.material.name, name, figure.written.replace("\u00a0", " "), shown(name, theirs.value))
             for one, figure, theirs in compared_ones if not agrees(name, figure, theirs.value)}
    assert apart == listed(name)
    assert len(compared_ones) >= ENOUGH[name]


@source("independent", "chemicals 1.5.2: names and synonyms of registry numbers")
def test_a_registry_number_is_that_of_the_name():
    """The data set calls the number by one of our names, or the substance is listed with what it is called there."""
    known = [(one, named) for one in substances() if (named := outside.substance(one.cas))]
    apart = {Disagreement(one.material.name, "CAS", one.cas, named.common_name) for one, named in known
             if not {plain(name) for name in one.material.names} & {plain(name) for name in (named.common_name, named.iupac_name, *named.synonyms) if name}}
    assert apart == listed("CAS")
    assert len(known) > 350


def plain(name: str) -> str:
    return re.sub("[^a-z0-9]", "", fold(name))


@source("by hand", "a law of the list")
def test_every_listed_disagreement_is_reasoned():
    """Each row names the other source, the choice and why; a flash point is settled on the lower side."""
    for row in rows("disagreements.csv"):
        assert all(row[field] for field in ("their source", "choice", "why")), row
        if row["property"] == "flash point":
            assert float(row["ours"].split()[0]) < float(row["theirs"].split()[0]), row
