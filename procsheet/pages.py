"""The manual pages: one for every finding, made from the file that makes it."""

from types import ModuleType

WRITING = """A line of the method is not understood.

Why it matters
    What cannot be read cannot be checked or printed. The line, the column, what was found and what would fit are told; every such
    slip of a file is told in one run, and all good lines are kept.

Limits
    Slips of writing and of sums cannot be signed for with `accept`.
"""


def pages() -> dict[str, str]:
    """Every finding's name and its page."""
    from procsheet.graph import checks as graph_checks
    from procsheet.model import checks as model_checks
    from procsheet.need import pages as need_pages
    from procsheet.plan import pages as plan_pages
    from procsheet import ready
    from procsheet.rules import RULES

    found = {"not-understood": WRITING}
    for module in (*model_checks.PAGES, *graph_checks.PAGES):
        found[name_of(module)] = module.__doc__ or ""
    found |= plan_pages.PAGES | need_pages.PAGES
    found[ready.NAME] = ready.__doc__ or ""
    for rule in RULES:
        found[rule.NAME] = rule.__doc__ or ""
    return found


def name_of(module: ModuleType) -> str:
    return getattr(module, "NAME", module.__name__.rpartition(".")[2].replace("_", "-"))


def first_line(page: str) -> str:
    return page.strip().splitlines()[0] if page.strip() else ""
