"""Plants every kind of mistake wherever it fits, checks each, and counts: caught, on another line, wrong cause, missed, harmless."""

from collections import Counter
from pathlib import Path
from typing import Iterator, NamedTuple

from procsheet.findings import Finding
from procsheet.pipeline import compile_method
from procsheet.source import source
from tests.planted.kinds import KINDS, Kind
from tests.planted.written import Written

TESTS = Path(__file__).parents[1]
METHODS = tuple(path for folder in (TESTS.parent / "recipes", TESTS / "corpus", TESTS / "published") for path in sorted(folder.glob("*.method")) if path.stem != "five-mistakes")
VERDICTS = ("caught", "other line", "wrong cause", "missed", "harmless", "unreadable")


class Result(NamedTuple):
    kind: Kind
    file: str
    verdict: str
    told: str           # what was said, or the argument why it does no harm
    text: str


def findings(path: Path, text: str) -> list[Finding]:
    compiled = compile_method(source(path.name, text), path.parent)
    return [one for finding in compiled.findings for one in (finding, *finding.folded)]


def run(kinds=KINDS, methods=METHODS) -> Iterator[Result]:
    for path in methods:
        good = Written(path)
        before = None
        for kind in kinds:
            for draft, lines, harmless in kind.plant(good):
                before = before if before is not None else Counter((one.name, one.level, one.title) for one in findings(path, good.text))
                yield judged(kind, path, draft, lines, harmless, before)


def judged(kind: Kind, path: Path, draft, lines, harmless: str, before: Counter) -> Result:
    """Whether what is new in a planted method is this mistake, on a right line."""
    places = {draft.now(line) if isinstance(line, int) else draft.number(line) for line in lines}
    new = [one for one in findings(path, draft.text) if one.level in ("STOP", "WARN", "OPEN", "NOTE") and (one.name, one.level, one.title) not in before]
    loud = [one for one in new if one.level in ("STOP", "WARN")]
    told = "; ".join(f"{one.level} {one.name} {one.at.span.line}" for one in new)
    if any(one.name == "not-understood" for one in new):
        return Result(kind, path.name, "unreadable", told, draft.text)
    right = [one for one in loud if one.name in kind.rules]
    if any(one.at.span.line in places for one in right):
        return Result(kind, path.name, "caught", told, draft.text)
    if not harmless and not loud and any(name in kind.rules for name, level, _ in before if level in ("STOP", "WARN")):
        harmless = "the method as it stands earns this finding already"
    if harmless:
        return Result(kind, path.name, "harmless", harmless, draft.text)
    verdict = "other line" if right else "wrong cause" if loud else "missed"
    return Result(kind, path.name, verdict, f"{told} (right: {sorted(places)[:6]})", draft.text)


def table(results: list[Result]) -> str:
    """Counts of each kind, each rule, and in all."""
    rows = [(kind.name, Counter(one.verdict for one in results if one.kind is kind)) for kind in KINDS]
    said = Counter(name for one in results if one.verdict == "caught" for name in one.kind.rules if f" {name} " in f"{one.told} ")
    head = f"{'kind of mistake':<42}" + "".join(f"{verdict:>12}" for verdict in VERDICTS)
    lines = [head, *(f"{name:<42}" + "".join(f"{count[verdict] or '':>12}" for verdict in VERDICTS) for name, count in rows)]
    lines += ["", f"{'rule that caught it':<42}{'times':>12}", *(f"{name:<42}{count:>12}" for name, count in said.most_common())]
    whole = Counter(one.verdict for one in results)
    judged_ = sum(whole[verdict] for verdict in VERDICTS[:4])
    stops = [one for one in results if one.kind.level == "STOP" and one.verdict in VERDICTS[:4]]
    caught = sum(one.verdict == "caught" for one in stops)
    lines += ["", f"{judged_} mistakes planted in {len(METHODS)} methods; caught with the right rule on a right line {whole['caught']} ({100 * whole['caught'] / max(judged_, 1):.1f} %)",
              f"of those that lose or endanger a batch {caught} of {len(stops)} ({100 * caught / max(len(stops), 1):.1f} %)",
              f"left out {whole['harmless']} that do no harm, each for its stated reason, and {whole['unreadable']} that no longer read"]
    return "\n".join(lines)
