"""The power number a kind of stirrer usually has."""

# kind -> power number in turbulent flow, and how it is known
USUAL = {
    "pitched-blade turbine": (1.27, "mixing consultant's page: four blades at 45 degrees, width a fifth of the diameter"),
    "disc turbine": (5.0, "process-engineering page: about 5, up to 6"),
    "propeller": (0.35, "handbook of industrial mixing, from memory: 0.32 to 0.37"),
    "flat-blade turbine": (3.0, "handbook of industrial mixing, from memory"),
    "dissolver": (0.2, "handbook of industrial mixing, from memory: saw-tooth disc 0.1 to 0.3"),
    "homogeniser": (2.0, "rotor-stator literature, from memory: 1.5 to 3.5 by geometry"),
}


def usual_power_number(*, kind: str) -> float:
    """Return the usual power number of a kind of stirrer.

    kind     a word of the table, such as "propeller"
    returns  [1]

    Valid in turbulent flow; in laminar flow the power number falls as one over the Reynolds number. A maker's own figure goes before it.

    Example: a marine propeller of square pitch.
    >>> usual_power_number(kind="propeller")
    0.35

    Source: table power_numbers of the handbook, row by row as told above.
    """
    if kind not in USUAL:
        raise ValueError(f"no usual power number is known for {kind}")
    return USUAL[kind][0]
