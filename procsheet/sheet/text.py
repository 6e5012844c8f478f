"""The sheet as plain text in reading order, for a review: a change in a method shows as a change of lines.

A box to write in is `[start, time]`, one for a second person `[[checked by]]`, a tick box `( )`, a blank `____`, a caution `!`.
"""

from collections.abc import Iterable, Iterator

from procsheet.sheet.model import (BeforeStarting, Box, Branch, Caution, Checks, Deviations, Equipment, Front, Head, Lanes, Making,
                                   Portions, Run, Sheet, Step, Weighing, Words)

BLANK = "____"
Lines = Iterator[str]


def to_text(sheet: Sheet) -> str:
    """Return every string of the sheet, a section after the other."""
    lines = [*head(sheet.head)]
    for name, content, in_lines in (("FRONT PAGE", sheet.front, front), ("BEFORE STARTING", sheet.before, before_starting),
                                    ("WEIGHING LIST", sheet.weighing, weighing), ("MAKING", sheet.making, making),
                                    ("CHECKS AND LIMITS", sheet.checks, checks), ("DEVIATIONS", sheet.deviations, deviations)):
        if content:
            lines += ["", name, "=" * len(name), *in_lines(content)]
    return "\n".join(line.rstrip() for line in lines) + "\n"


def head(each: Head) -> Lines:
    if each.draft:
        yield "draft"
    yield each.product or BLANK
    yield f"document {each.code or BLANK}  revision {each.revision or BLANK}  batch {each.batch or BLANK}  issue {each.issue or BLANK}"
    yield f"content {each.digest or BLANK}  issued {each.issued or BLANK}"
    yield each.correcting


def front(page: Front) -> Lines:
    yield page.kind
    yield from page.about
    yield f"batch size  {page.size or BLANK}"
    if page.expected:
        yield joined("expected bulk yield", page.expected, page.expected_note)
    yield from (f"{fact.caption}: {fact.text or BLANK}" for fact in page.facts)
    yield from titled("Equipment", map(vessel, page.equipment))
    yield from titled("Cautions", (*map(caution, page.cautions), page.cautions_note))
    found = [joined(f"{point.level}: {point.fact}", point.more, box(point.box)) for point in page.points]
    yield from titled(page.points_title, found or ["nothing"])
    yield from titled("Approvals", (joined(each.role, each.name or BLANK, box(Box("signature", second=each.second)), "[date]")
                                    for each in page.approvals))


def vessel(each: Equipment) -> str:
    return joined(f"{each.vessel} ({each.bar})", each.must_be, f"planned {each.planned}" if each.planned else "")


def before_starting(page: BeforeStarting) -> Lines:
    yield from (f"( ) {line}" for line in page.checks)
    yield from boxes(page.clearance)
    yield from (f"{each.vessel}: {each.bar}" for each in page.vessels)


def weighing(page: Weighing) -> Lines:
    yield page.intro
    for phase in page.phases:
        yield from ("", joined(phase.name, phase.title, phase.total))
        for row in phase.rows:
            limits = f"from {row.low or BLANK} to {row.high or BLANK}" if row.low or row.high else ""
            target = f"{row.before} {row.target or BLANK} {row.unit or page.unit}".strip()
            yield joined(f"{row.number:>3}  {row.material}", target, limits, row.balance, row.container)
            yield joined(f"     {row.second_line}", row.note, "[[check]]" if row.second else "")
    yield from ("", *boxes(page.closing))


def making(page: Making) -> Lines:
    for stage in page.stages:
        yield from ("", joined(stage.number, stage.title), "-" * len(joined(stage.number, stage.title)))
        yield from parts(stage.parts)
    yield from ("", *boxes(page.closing), *boxes(page.packs))


def parts(within: Iterable[Step | Branch | Lanes]) -> Lines:
    in_lines = {Step: step, Branch: branch, Lanes: lanes}
    for each in within:
        yield from in_lines[type(each)](each)


def step(each: Step) -> Lines:
    yield ""
    yield from map(caution, each.cautions)
    yield joined(f"{each.number:>3}  {each.vessel} ({', '.join(each.bars)})", each.inside, "two people" if each.second else "")
    yield from indented(say(each))


def say(each: Step) -> Lines:
    yield words(each.sentence)
    if each.settings:
        yield " | ".join(f"{setting.name} {setting.value or BLANK} {setting.unit}".rstrip() for setting in each.settings)
    yield from (f"{cue.head}: {words(cue.words)}" for cue in each.cues)
    yield from boxes(each.boxes)
    for added in each.additions:
        signed = box(Box("checked by", second=True)) if added.second else ""
        yield joined(f"( ) {added.code} {added.name}", f"{added.amount or BLANK} {added.unit}", signed)
    yield from portions(each.portions)


def portions(grid: Portions | None) -> Lines:
    if grid:
        yield "portions: " + " | ".join(grid.heads)
        yield from (f"{row.label}: " + " | ".join(cell or BLANK for cell in row.cells) for row in grid.rows)


def branch(each: Branch) -> Lines:
    yield from ("", f"( ) {words(each.head)}")
    yield from (f"    ( ) round {n} [time, by]" for n in range(1, each.rounds + 1))
    yield from indented(parts(each.parts))
    if each.end:
        yield f"    {words(each.end)}"


def lanes(side_by_side: Lanes) -> Lines:
    for lane in side_by_side.lanes:
        yield from ("", joined(f"{lane.vessel} ({lane.bar})", lane.what, lane.note))
        yield from indented(parts(lane.parts))
    if gate := side_by_side.gate:
        yield from ("", f"{gate.head} {words(gate.words)}", *boxes(gate.boxes))


def checks(page: Checks) -> Lines:
    yield from (joined(f"{check.name}: {check.limit or BLANK}", check.how) for check in page.checks)
    yield from titled("Yield and reconciliation", (
        *(joined(f"{mass.letter}  {mass.name}", f"expected {mass.expected} {page.unit}" if mass.expected else "", "[by] [[checked]]") for mass in page.masses),
        *(joined(f"{ratio.name} = {ratio.formula}", f"expected {ratio.expected or BLANK}", f"[{ratio.unit}] [by] [[checked]]")
          for ratio in page.ratios)))


def deviations(page: Deviations) -> Lines:
    yield page.intro
    yield from titled("Bulk", boxes(page.bulk))
    yield from boxes(page.laboratory)
    yield from titled("Release", (*(f"( ) {line}" for line in page.statements), "   ".join(f"( ) {line}" for line in page.outcomes),
                                  *boxes(page.signing)))


def titled(title: str, lines: Iterable[str]) -> Lines:
    within = [*lines]
    yield from ("", title, *within) if within else ()


def indented(lines: Iterable[str]) -> Lines:
    return (f"     {line}" if line else "" for line in lines)


def boxes(all: tuple[Box, ...]) -> Lines:
    if all:
        yield " ".join(map(box, all))


def box(each: Box) -> str:
    inside = " ".join(filter(None, (each.caption, each.limit, each.filled and f"= {each.filled}")))
    return f"[[{inside}]]" if each.second else f"[{inside}]"


def caution(each: Caution) -> str:
    return f"  !  {each.danger} {each.advice}"


def words(runs: Words) -> str:
    return "".join(blank(run) if run.kind == "blank" else run.text for run in runs)


def blank(run: Run) -> str:
    return f"{BLANK} {run.text}".rstrip() + (f" (= {run.sum})" if run.sum else "")


def joined(*pieces: str) -> str:
    return "  ".join(filter(None, pieces))
