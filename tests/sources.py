"""Where an expected number comes from: a marker on the test that expects it."""

KINDS = {"published", "independent", "by hand", "recorded"}


def source(kind: str, where: str):
    """Mark a test with the source of its expected numbers. An unknown kind is a ValueError."""
    if kind not in KINDS:
        raise ValueError(f"{kind!r} is none of {sorted(KINDS)}")

    def marked(function):
        function.__source__ = (kind, where)
        return function
    return marked
