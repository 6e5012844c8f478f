"""One change, and all of them in the order a reader asks for them."""

from typing import NamedTuple

SECTIONS = ("head", "formula", "method", "limits", "packs", "material data", "findings", "what it lives through")


class Change(NamedTuple):
    """section: one of SECTIONS; what: the material, step or limit; before, after: as written, '' where it was not there; said: the change in a sentence."""

    section: str
    what: str
    before: str
    after: str
    said: str
    line: int = 0                       # in the new method, 0 where it is gone


class Changes(NamedTuple):
    old: str                            # product, code and revision of both
    new: str
    same_revision: bool
    changes: tuple[Change, ...]

    @property
    def content(self) -> tuple[Change, ...]:
        """What was written differently: not the revision itself, and not what only follows."""
        return tuple(one for one in self.changes if one.section not in ("findings", "what it lives through") and one.what not in ("revision", "written by", "checked by"))
