"""Findings of all courses to one list: the same told once, those of one place under the gravest, in the order of the method."""

from procsheet.findings import LEVELS, Finding, order

TURNED = "order-wo"                     # the pouring that leaves one vessel full and the other empty


def merge(by_course: list[tuple[tuple[str, ...], list[Finding]]]) -> list[Finding]:
    """The same finding of several courses once; one that not every course has names those that do."""
    found: dict[tuple, Finding] = {}
    where: dict[tuple, list[tuple[str, ...]]] = {}
    for course, findings in by_course:
        for finding in findings:
            key = _key(finding)
            if key not in found or LEVELS.index(finding.level) < LEVELS.index(found[key].level):
                found[key] = finding
            where.setdefault(key, [])
            if course not in where[key]:
                where[key].append(course)
    names = [course for course, _ in by_course]
    return [_with_courses(finding, where[key], names) for key, finding in found.items()]


def _key(finding: Finding) -> tuple:
    if finding.level == "OPEN":
        return ("OPEN", finding.name, finding.material.lower(), finding.title if not finding.material else "")
    return (finding.name, finding.at.span, finding.material)


def _with_courses(finding: Finding, having: list[tuple[str, ...]], all_courses: list[tuple[str, ...]]) -> Finding:
    if len(having) == len(set(all_courses)) or () in having:
        return finding
    shortest = min(having, key=len)
    return finding._replace(courses=shortest)


def fold(findings: list[Finding]) -> list[Finding]:
    """Findings with the same place to change stand under the gravest of them, and what only follows from one under that one."""
    out: list[Finding] = []
    at: dict[tuple, int] = {}
    for finding in _under_their_cause(sorted(findings, key=order)):
        place = (finding.at.span, finding.level in ("CAUTION", "OPEN", "NOTE"))
        if place in at and finding.at.span.line and finding.level in ("STOP", "WARN"):
            head = out[at[place]]
            out[at[place]] = head._replace(folded=(*head.folded, finding))
        else:
            at.setdefault(place, len(out))
            out.append(finding)
    return out


def _under_their_cause(findings: list[Finding]) -> list[Finding]:
    """Poured the wrong way round, one vessel stays full and the other empty: both are told under the pouring."""
    cause = next((one for one in findings if one.name == TURNED), None)
    if cause is None or not any(one.name == "content-lost" and one.at.span == cause.at.span for one in findings):
        return findings
    follows = [one for one in findings if one.name == "content-lost" and one.at.span == cause.at.span
               or one.name == "empty-vessel" and one.at.span.line > cause.at.span.line]
    left = [one for one in findings if one not in follows and one is not cause]
    return sorted([*left, cause._replace(folded=tuple(follows))], key=lambda one: (*order(one)[:3], one.name != TURNED, *order(one)[3:]))
