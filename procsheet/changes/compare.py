"""Two compiled methods to one list of changes."""

from procsheet.changes import effects, formula, rest, steps
from procsheet.changes.change import SECTIONS, Changes
from procsheet.findings import Finding, Label
from procsheet.model.method import Method
from procsheet.source import NOWHERE

NAME = "revision-unchanged"


def compare(old, new) -> Changes:
    """What changed from one compiled method (pipeline.Compiled) to the other."""
    one, other = old.method, new.method
    found = [*rest.head(one, other), *formula.changed(one, other), *steps.changed(steps.said(one, old.source), steps.said(other, new.source)), *rest.limits(one, other),
             *rest.packs(one, other), *rest.data(one, other), *effects.findings(old.findings, new.findings)]
    if old.batch is not None and new.batch is not None:
        found += effects.lives(old.batch, new.batch)
    found.sort(key=lambda change: SECTIONS.index(change.section))
    return Changes(_called(one), _called(other), one.header.revision == other.header.revision, tuple(found))


def unchanged_revision(changes: Changes, new) -> Finding | None:
    """Content that changed under the same revision number."""
    if not changes.same_revision or not changes.content:
        return None
    entry = next((entry for entry in new.tree.header if entry.key == "revision"), None)
    return Finding("STOP", NAME, f"the content changed, and the revision is {new.method.header.revision or 'not written'} in both", Label(entry.span if entry else NOWHERE),
                   why="Two different papers would carry one number, and nobody could tell which was followed.",
                   fix='Count the revision up, and write why: revision 4 because "more glycerin" on 2026-03-02', cannot_be_accepted=True)


def _called(method: Method) -> str:
    header = method.header
    return " ".join(filter(None, (header.product or method.file, header.code, f"revision {header.revision}" if header.revision else "")))
