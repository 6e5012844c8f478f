"""What the data sets of `chemicals` hold of a registry number. Measured figures only: group contributions and other estimates are left out."""

from statistics import median, median_low
from typing import NamedTuple

import chemicals
from chemicals import heat_capacity, miscdata, volume
from chemicals.dippr import EQ105
from chemicals.identifiers import ChemicalMetadata

# the tables that state measured flash points, the best first; the list of a 2017 paper misses the standard by 7 K on the mean, so it is no witness
FLASH = {"IEC 60079-20-1 (2010)": "IEC 60079-20-1", "NFPA 497 (2008)": "NFPA 497", "WIKIDATA": "Wikidata"}
ESTIMATED = {"JOBACK", "YAWS"}          # a group contribution; a collection that mixes in extrapolated and low-pressure figures unmarked
HANDBOOK = {"CRC_ORG", "CRC_INORG"}     # may stand alone: compiled for pure substances; a lone figure of another table is often that of a mixture
LIQUID = {"liquid", "viscous liquid", "liquefied gas"}
KELVIN = 273.15


class Told(NamedTuple):
    """A figure in SI and the tables behind it."""

    value: float
    tables: str
    low: float = 0.0
    high: float = 0.0


def substance(cas: str) -> ChemicalMetadata | None:
    """Name, formula and molar mass [g/mol] of a registry number, or None."""
    try:
        return chemicals.search_chemical(cas)
    except ValueError:
        return None


def flash_point(cas: str) -> Told | None:
    """K."""
    told = chemicals.T_flash_methods(cas)
    return next((Told(chemicals.T_flash(cas, method=table), shown) for table, shown in FLASH.items() if table in told), None)


def melts(cas: str) -> Told | None:
    """K."""
    return _middle({table: chemicals.Tm(cas, method=table) for table in chemicals.Tm_methods(cas) if table not in ESTIMATED})


def boils(cas: str) -> Told | None:
    """K, at 101.325 kPa."""
    return _middle({table: chemicals.Tb(cas, method=table) for table in chemicals.Tb_methods(cas) if table not in ESTIMATED})


def _middle(told: dict[str, float]) -> Told | None:
    if len(told) < 2 and not HANDBOOK & told.keys():
        return None
    middle = median(told.values())
    near = [each for each in told.values() if abs(each - middle) <= 3] or [middle]
    return Told(middle, "median of " + ", ".join(sorted(table.replace("_", " ") for table in told)), min(near), max(near))


def density(cas: str, at: float, form: str) -> Told | None:
    """kg/m³ at a temperature [K]."""
    told = {table: value for table, value in _densities(cas, at, form) if value}
    return Told(median(told.values()), ", ".join(told)) if told else None


def _densities(cas: str, at: float, form: str):
    known = substance(cas)
    molar = known.MW / 1000 if known else None
    if form in LIQUID and molar:
        yield "DIPPR equation", _dippr(cas, at, molar)
        yield "VDI equation", _vdi(cas, at)
    for table, shown in (miscdata.CRC_organic_data, "CRC organic constants"), (miscdata.CRC_inorganic_data, "CRC inorganic constants"):
        if abs(at - 293.15) <= 6 and cas in table.index:        # the tables hold at 20 or 25 °C
            yield shown, _number(table.at[cas, "rho"])


def _dippr(cas: str, at: float, molar: float) -> float | None:
    table = volume.rho_data_Perry_8E_105_l
    if cas not in table.index or not table.at[cas, "Tmin"] <= at <= table.at[cas, "Tmax"]:
        return None
    return EQ105(at, *(table.at[cas, name] for name in ("C1", "C2", "C3", "C4"))) * molar


def _vdi(cas: str, at: float) -> float | None:
    table = volume.rho_data_VDI_PPDS_2
    if cas not in table.index or at >= table.at[cas, "Tc"]:
        return None
    row = table.loc[cas]
    return row["MW"] / 1000 / volume.volume_VDI_PPDS(at, row["Tc"], row["rhoc"], row["A"], row["B"], row["C"], row["D"], row["MW"])


def heat_of_warming(cas: str, at: float, form: str) -> Told | None:
    """Heat capacity in J/(kg K) at a temperature [K]: evaluated measurements, else the CRC table at 25 °C."""
    known = substance(cas)
    if known is None:
        return None
    heat_capacity._load_Cp_data()
    fits = [part.calculate(at) for table in heat_capacity.zabransky_dicts.values() if cas in table
            for part in getattr(table[cas], "models", [table[cas]]) if part.Tmin - 1 <= at <= part.Tmax + 1]
    if fits:
        return Told(median_low(fits) / known.MW * 1000, "evaluated liquid heat capacities")
    table, column = heat_capacity.CRC_standard_data, "Cpl" if form in LIQUID else "Cps"
    value = _number(table.at[cas, column]) if cas in table.index and abs(at - 298.15) <= 6 else None
    return Told(value / known.MW * 1000, "CRC standard table") if value else None


def _number(value) -> float | None:
    return float(value) if value == value else None
