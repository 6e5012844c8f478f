"""Where water boils: pressure for a temperature, and temperature for a pressure."""

from math import sqrt

N1, N2, N3, N4, N5 = 1167.0521452767, -724213.16703206, -17.073846940092, 12020.82470247, -3232555.0322333
N6, N7, N8, N9, N10 = 14.91510861353, -4823.2657361591, 405113.40542057, -0.23855557567849, 650.17534844798
COLDEST, HOTTEST = 273.15, 647.096          # K
LEAST, MOST = 611.213, 22.064e6             # Pa


def water_vapour_pressure(*, temperature: float) -> float:
    """Return the pressure of water vapour over pure liquid water.

    p = 1 MPa (2 C / (-B + sqrt(B² - 4 A C)))^4, where A, B, C are quadratics in v = T + n9 / (T - n10)

    temperature  [K]
    returns      [Pa]  absolute

    Valid from 273.15 K to 647.096 K. What is dissolved in the water lowers it.

    Example: water at 80 °C.
    >>> round(water_vapour_pressure(temperature=353.15))
    47415

    Source: IAPWS Industrial Formulation 1997 (IAPWS R7-97), region 4, equation 30.
    """
    if not COLDEST <= temperature <= HOTTEST:
        raise ValueError(f"water_vapour_pressure needs {COLDEST} to {HOTTEST} K, got {temperature}")
    v = temperature + N9 / (temperature - N10)
    a, b, c = v * v + N1 * v + N2, N3 * v * v + N4 * v + N5, N6 * v * v + N7 * v + N8
    return 1e6 * (2 * c / (-b + sqrt(b * b - 4 * a * c))) ** 4


def water_boiling_point(*, pressure: float) -> float:
    """Return the temperature at which pure water boils under a pressure.

    T = (n10 + D - sqrt((n10 + D)² - 4 (n9 + n10 D))) / 2, where D = 2 G / (-F - sqrt(F² - 4 E G)); E, F, G are quadratics in b = (p / 1 MPa)^(1/4)

    pressure  [Pa]  absolute: 101325 less what a vacuum gauge shows
    returns   [K]

    Valid from 611.213 Pa to 22.064 MPa. Foam, the height of the liquid and what is dissolved raise it a little.

    Example: under 200 mbar absolute, a common vacuum, water boils at 60 °C.
    >>> round(water_boiling_point(pressure=20000) - 273.15, 2)
    60.06

    Source: IAPWS Industrial Formulation 1997 (IAPWS R7-97), region 4, equation 31.
    """
    if not LEAST <= pressure <= MOST:
        raise ValueError(f"water_boiling_point needs {LEAST} to {MOST} Pa, got {pressure}")
    b = (pressure / 1e6) ** 0.25
    e, f, g = b * b + N3 * b + N6, N1 * b * b + N4 * b + N7, N2 * b * b + N5 * b + N8
    d = 2 * g / (-f - sqrt(f * f - 4 * e * g))
    return (N10 + d - sqrt((N10 + d) ** 2 - 4 * (N9 + N10 * d))) / 2
