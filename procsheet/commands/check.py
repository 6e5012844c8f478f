"""Say what is wrong with methods."""

import sys
from procsheet.commands.common import OK, STOPPED, coloured, compiled, methods, sources


def run(chosen) -> int:
    made = [compiled(name, chosen) for name in methods(chosen.files)]
    if chosen.json:
        import json
        print(json.dumps([_as_data(one) for one in made], ensure_ascii=False, indent=1))
    else:
        for one in made:
            print(report(one, chosen.all))
    return STOPPED if any(one.stops for one in made) else OK


def report(made, everything: bool) -> str:
    from procsheet.show import show, wrap
    known, colour = sources(made), coloured(sys.stdout)
    shown = [show(finding, known, colour=colour) for finding in made.findings if finding.level in ("STOP", "WARN") or everything]
    short = [] if everything else _short([finding for finding in made.findings if finding.level in ("NOTE", "OPEN")])
    signed = [line for one in made.signed for line in wrap(f"{one.finding.name}: {one.finding.title}. Signed for by {one.by}: {one.reason}", "  signed    ", "            ")]
    return "\n\n".join([*shown, *(["\n".join(short)] if short else []), *(["\n".join(signed)] if signed else []), summary(made)]) + "\n"


def _short(findings) -> list[str]:
    from procsheet.show import wrap
    return [line for finding in findings for line in wrap(f"{finding.title} ({finding.name}, line {finding.at.span.line})", f"  {finding.level.lower():<10}", " " * 12)]


def summary(made) -> str:
    """One line: what was found, in words."""
    count = {level: sum(finding.level == level for finding in made.findings) for level in ("STOP", "WARN", "NOTE", "OPEN", "CAUTION")}
    words = [_counted(count["STOP"], "stop"), _counted(count["WARN"], "warning"), _counted(count["NOTE"], "note"), _counted(count["OPEN"], "open point"),
             _counted(count["CAUTION"], "caution"), _counted(len(made.signed), "signed exception")]
    told = ", ".join(word for word in words if word) or "no findings"
    verdict = "no papers until it is changed" if made.stops else "a draft: some figures are open" if made.method.draft else "nothing stops it"
    return f"{made.source.name}: {told}; {verdict}"


def _counted(count: int, word: str) -> str:
    return f"{count} {word}{'s' if count != 1 else ''}" if count else ""


def _as_data(made) -> dict:
    from procsheet.show import as_data
    return {"file": made.source.name, "product": made.method.header.product, "type": made.method.header.type, "stops": made.stops, "draft": made.method.draft,
            "findings": [as_data(finding) for finding in made.findings],
            "signed": [{"finding": as_data(one.finding), "reason": one.reason, "by": one.by} for one in made.signed]}
