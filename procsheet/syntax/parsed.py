"""What reading a file gives."""

from typing import NamedTuple

from procsheet.findings import Finding
from procsheet.syntax import tree


class Parsed(NamedTuple):
    """A tree and everything that was wrong with the text."""

    tree: "tree.MethodTree | tree.DataTree"
    findings: tuple[Finding, ...]
