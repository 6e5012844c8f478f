"""What whoever makes the papers gives along. All that is '' prints as a ruled blank."""

from typing import NamedTuple

SECTIONS = ("front", "before", "weighing", "making", "checks", "deviations")


class Papers(NamedTuple):
    """number: of the batch; issued: when, as it is printed; digest: of all inputs, worked out where it is ''; sections: those wanted."""

    number: str = ""
    issue: str = ""
    issued: str = ""
    digest: str = ""
    sections: tuple[str, ...] = SECTIONS
