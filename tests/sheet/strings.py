"""Every string that stands in a sheet, for the tests that none is lost."""

from collections.abc import Iterator

from procsheet.sheet.model import Run, Sheet

NOT_PRINTED = {"bar", "bars"}           # patterns, not words


def strings(value: Sheet | tuple | str) -> Iterator[str]:
    """All strings to be read in a value, at any depth."""
    if isinstance(value, str):
        yield from filter(None, [value])
    elif hasattr(value, "_fields"):
        for name, within in zip(value._fields, value):
            if name not in NOT_PRINTED and not (isinstance(value, Run) and name == "kind"):
                yield from strings(within)
    elif isinstance(value, tuple):
        for each in value:
            yield from strings(each)


def bare(string: str) -> str:
    """Without any white space: lines break where they must."""
    return "".join(string.split())
