"""What is still missing before papers are issued.

Why it matters
    A numbered issue is what the crew signs. It cannot carry an open `?`, and it cannot be told apart from others without a code.
    The rest (revision, who wrote and checked it, expected yield, limits, how long the bulk keeps, the pack) prints as a ruled blank.
"""

from procsheet.findings import Finding, Label
from procsheet.source import Span

NAME = "papers-missing"
WANTED = (("code", lambda method: method.header.code), ("revision", lambda method: method.header.revision),
          ("written by", lambda method: method.header.written_by), ("checked by", lambda method: method.header.checked_by),
          ("yield", lambda method: method.header.yields), ("how long the bulk keeps", lambda method: method.header.keeps),
          ("limits", lambda method: method.limits), ("pack", lambda method: method.packs))


def missing(method, issue: str) -> list[Finding]:
    """What the papers lack. issue: the number of the issue asked for, '' for none: then nothing stops."""
    top = Label(Span(method.file, 1, 1, 2))
    lacking = [name for name, value in WANTED if not value(method)]
    found = []
    if issue and method.draft:
        found.append(Finding("STOP", NAME, "a method with an open `?` cannot be issued under a number", top, why="The crew would sign for a figure nobody has given.",
                             fix="Fill every `?` in, or print a draft without --issue.", cannot_be_accepted=True))
    if issue and "code" in lacking:
        found.append(Finding("STOP", NAME, "papers without a code cannot be issued", top, why="They cannot be told from those of another product.",
                             fix="Write a line `code ABC-001` below the product.", cannot_be_accepted=True))
    if lacking:
        found.append(Finding("NOTE", NAME, f"the method does not say, and the papers have a blank to write in for: {', '.join(lacking)}", top, fix="Write them into the method: see the guide."))
    return found
