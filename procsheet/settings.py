"""What a plant and a house set in `rule` blocks: the level of a rule, beside a reason, and its limits. The plant's go before the house's."""

from procsheet.findings import LEVELS, Finding
from procsheet.model.library import Library
from procsheet.plan.plant import Plant
from procsheet.syntax import tree
from procsheet.syntax.slips import did_you_mean, slip

OFF = "off"


def blocks(plant: Plant, library: Library) -> list[tree.Entry]:
    """Every `rule` block that is not shipped, the nearest first."""
    return [*plant.rules, *library.own_rules()]


def wrong(own: list[tree.Entry], known: list[str]) -> list[Finding]:
    """Blocks of rules that do not exist, levels that do not exist, levels without a reason."""
    return [finding for block in own for finding in _wrong(block, known)]


def _wrong(block: tree.Entry, known: list[str]):
    if block.text not in known:
        yield slip(block.span, f"there is no rule called {block.text}", did_you_mean(block.text, known, "procsheet rules lists them."))
    for line in block.lines:
        if line.key == "level":
            level, reason = _level(line)
            if level not in (*LEVELS, OFF):
                yield slip(line.span, f"`{level}` is no level", 'Write STOP, WARN, NOTE or off, and why: level NOTE because "our emulsifier forgives more"')
            elif not reason:
                yield slip(line.span, "this level has no reason", f'Write why: level {level} because "our emulsifier forgives more"')


def set_levels(findings: list[Finding], own: list[tree.Entry]) -> list[Finding]:
    """The findings at the levels that were set; each tells who set it and why."""
    given: dict[str, tuple[str, str, str]] = {}
    for block in own:
        for line in block.lines:
            if line.key == "level" and _level(line)[1] and _level(line)[0] in (*LEVELS, OFF):
                given.setdefault(block.text, (*_level(line), line.span.file))
    return [_at(finding, *given[finding.name]) if finding.name in given and finding.level in ("STOP", "WARN") else finding
            for finding in findings if given.get(finding.name, ("",))[0] != OFF]


def _at(finding: Finding, level: str, reason: str, file: str) -> Finding:
    return finding._replace(level=level, source="; ".join(filter(None, (finding.source, f"level {level} set in {file}: {reason}"))))


def _level(line: tree.Entry) -> tuple[str, str]:
    words = line.words
    level = words[0].text if words else ""
    return OFF if level.lower() == OFF else level.upper(), next((word.text for word in words if isinstance(word, tree.Text)), "")


