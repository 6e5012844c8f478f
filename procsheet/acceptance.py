"""Signed-for exceptions: `accept` moves exactly one finding out of the way; one that matches none, or several, is told."""

from typing import NamedTuple

from procsheet.findings import Finding, Label
from procsheet.syntax import tree


class Signed(NamedTuple):
    """A finding that was accepted: the reason, and who signs."""

    finding: Finding
    reason: str
    by: str


def settle(findings: list[Finding], accepts: tuple[tree.Accept, ...], step_names: dict[int, str]) -> tuple[list[Finding], list[Signed]]:
    """The findings that stay, and those that are signed for."""
    left, signed = list(findings), []
    for accept in accepts:
        matching = [finding for finding in left if _matches(accept, finding, step_names)]
        if len(matching) == 1 and not matching[0].cannot_be_accepted:
            left.remove(matching[0])
            signed.append(Signed(matching[0], accept.reason, accept.by))
        else:
            left.append(_unsettled(accept, matching, findings, step_names))
    return left, signed


def _matches(accept: tree.Accept, finding: Finding, step_names: dict[int, str]) -> bool:
    return (finding.name == accept.name and finding.level in ("STOP", "WARN") and (not accept.material or _same(accept.material, finding.material))
            and (not accept.step or step_names.get(finding.step) == accept.step))


def _same(one: str, other: str) -> bool:
    return " ".join(one.lower().split()) == " ".join(other.lower().split())


def _unsettled(accept: tree.Accept, matching: list[Finding], all_of_them: list[Finding], step_names: dict[int, str]) -> Finding:
    at = Label(accept.span)
    if len(matching) > 1:
        places = ", ".join(f"line {finding.at.span.line}" for finding in matching)
        return Finding("STOP", "accept", f"this accept fits {len(matching)} findings: {places}", at, fix='Say which: for "material", or in STEP.',
                       cannot_be_accepted=True)
    if matching:
        return Finding("STOP", "accept", f"{accept.name} is a slip of writing or sums and cannot be signed for", at, fix="Correct it.", cannot_be_accepted=True)
    known = sorted({finding.name for finding in all_of_them if finding.level in ("STOP", "WARN")})
    return Finding("STOP", "accept", f"this accept fits nothing that was found: {accept.name}", at,
                   fix=f"Take it out{', or name one of: ' + ', '.join(known) if known else ''}.", cannot_be_accepted=True)
