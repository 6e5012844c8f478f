"""The error a legal balance may have."""

STEPS = {"I": (50_000, 200_000, None), "II": (5_000, 20_000, 100_000), "III": (500, 2_000, 10_000), "IIII": (50, 200, 1_000)}
SHARES = (0.5, 1.0, 1.5)


def balance_error(*, accuracy_class: str, interval: float, load: float, in_service: bool = False) -> float:
    """Return the largest permissible error of a non-automatic balance at a load.

    mpe = 0.5 e, 1 e or 1.5 e by the load in verification intervals e; in service twice that

    accuracy_class  "I", "II", "III" or "IIII"
    interval        [kg]  e, the verification scale interval
    load            [kg]
    in_service      whether it is in use, and not at its verification
    returns         [kg]

    Valid up to the largest number of intervals of the class.

    Example: a floor scale of class III with e = 50 g, 60 kg on it.
    >>> balance_error(accuracy_class="III", interval=0.05, load=60)
    0.05

    Source: OIML R 76-1, table 6.
    """
    if accuracy_class not in STEPS or interval <= 0 or load < 0:
        raise ValueError("the class is I, II, III or IIII, the interval above 0 and the load not below it")
    count = round(load / interval, 6)
    ends = STEPS[accuracy_class]
    share = next((share for share, end in zip(SHARES, ends) if end is None or count <= end), None)
    if share is None:
        raise ValueError(f"a balance of class {accuracy_class} has no more than {ends[-1]} intervals")
    return share * interval * (2 if in_service else 1)
