"""How fast water leaves an open hot vessel."""

from .water_vapour_pressure import water_vapour_pressure

AIR, VAPOUR_TO_AIR, NORMAL = 287.05, 0.622, 101325.0    # J/(kg*K), 1, Pa
WARMEST = 368.15                                        # K: the data behind the first correlation end at 94 °C
APART = 15.0                                            # K between surface and room, under which the figures found disagree
KNOWN_TO = 0.2                                          # of the rate: the mean deviation from measurements that the first correlation has, rounded up


def evaporation(*, surface: float, room: float, humidity: float = 0.5, draught: float = 0.3, film: bool = False) -> tuple[float, float]:
    """Return the least and the most water that an open surface loses, by area and time.

    quiet air:  E = 35 d_s (d_r - d_s)^(1/3) (w_s - w_r) / 3600, with d kg dry air in a cubic metre of air, w kg water on a kg dry air
    draught:    E = (0.089 + 0.0782 u) (p_s - p_r) / L
    low: the lesser of both in quiet air, less a fifth; high: the greater of both, the second in the draught, and a fifth

    surface, room  [K]          the surface itself: a quiet batch is cooler there than inside
    humidity       [1]          of the room, relative
    draught        [m/s]        the most that moves over the surface; 0.3 is a still room with people and a hood
    film                        True where an oil film, foam, skin or emulsion may hold the water back: low is then 0
    returns        [kg/(m²*s)]  low, high

    Valid from 303.15 to 368.15 K at the surface, 15 K or more above the room, at normal pressure, no lid, no boiling, no vacuum, no spray.
    Known to about ± 40 %: stirring renews the surface, walls above the liquid shelter it. Dissolved salt, sugar and glycols lower it.

    Example: water at 80 °C in a room at 20 °C loses 5 to 11 kg an hour from each square metre.
    >>> [round(one * 3600, 1) for one in evaporation(surface=353.15, room=293.15)]
    [5.1, 10.5]

    Source: Shah, ASHRAE Transactions 120 (2014) SE-14-001, and HVAC&R Research 8 (2002) 125 (mean deviation 18 %, 11 sources, 7 to 94 °C);
    ASHRAE Handbook, HVAC Applications, natatoriums, equation for evaporation from a quiet pool.
    """
    if not 303.15 <= surface <= WARMEST or not 0 <= humidity <= 1 or surface - room < APART or not 0 <= draught <= 0.7:
        raise ValueError(f"evaporation needs a surface from 303.15 to {WARMEST} K, {APART} K above the room, humidity 0 to 1, draught to 0.7 m/s: "
                         f"got {surface}, {room}, {humidity}, {draught}")
    at, off = water_vapour_pressure(temperature=surface), humidity * water_vapour_pressure(temperature=room)
    heat = 2.501e6 - 2430 * (surface - 273.15)          # J/kg, of vaporisation: within 0.2 % of IAPWS from 0 to 100 °C
    still, moved = ((0.089 + 0.0782 * speed) * (at - off) / heat for speed in (0.0, draught))
    quiet = _in_quiet_air(surface, room, at, off)
    return 0.0 if film else min(quiet, still) * (1 - KNOWN_TO), max(quiet, moved) * (1 + KNOWN_TO)


def _in_quiet_air(surface: float, room: float, at: float, off: float) -> float:
    """The first correlation; at, off: pressure of vapour at the surface and in the room [Pa]."""
    dry, room_dry = (NORMAL - at) / (AIR * surface), (NORMAL - off) / (AIR * room)
    return 35 * dry * (room_dry - dry) ** (1 / 3) * VAPOUR_TO_AIR * (at / (NORMAL - at) - off / (NORMAL - off)) / 3600
