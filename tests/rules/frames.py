"""The fragments of a rule's manual, set into a whole method, and methods with what is expected written on their lines."""

import re
import textwrap
from pathlib import Path
from typing import NamedTuple

from procsheet.findings import Finding
from procsheet.pipeline import compile_method
from procsheet.source import Source, source

HERE = Path(__file__).parent
FRAME = (HERE / "frame.method").read_text(encoding="utf-8")
HEADING = re.compile(r"^(Why it matters|Wrong|Right|Exceptions|Limits|Needs|Source)\n", re.MULTILINE)
EXPECTED = re.compile(r"#!\s*(STOP|WARN|NOTE|OPEN|CAUTION)\s+([\w-]+)(?::\s*(.*))?")


class Expected(NamedTuple):
    line: int
    level: str
    name: str
    words: str


def sections(page: str) -> dict[str, list[str]]:
    """The parts of a manual page by heading; a heading may stand several times."""
    parts = HEADING.split(page)
    out: dict[str, list[str]] = {}
    for heading, body in zip(parts[1::2], parts[2::2]):
        out.setdefault(heading, []).append(textwrap.dedent(body).strip("\n"))
    return out


def framed(fragment: str) -> Source:
    """A fragment set into the frame: phases, a type line, and steps behind `method`. A fragment with a product line stands alone."""
    if re.search(r"^product ", fragment, re.MULTILINE):
        return source("fragment.method", fragment + "\n")
    before, _, steps = fragment.partition("method\n")
    kind = re.search(r"^type .*\n?", before, re.MULTILINE)
    phases = before.replace(kind.group(), "") if kind else before
    text = FRAME.replace("PHASES\n", phases.rstrip() + "\n" if phases.strip() else "").replace("STEPS\n", steps.rstrip() + "\n" if steps.strip() else _default(phases))
    return source("fragment.method", text.replace("type oil-in-water emulsion\n", kind.group().rstrip() + "\n") if kind else text)


def _default(phases: str) -> str:
    """Where a fragment has no steps, its phases are simply added."""
    return "".join(f"    add {letter} to main\n" for letter in re.findall(r"^phase ([B-Z]\w?)", phases, re.MULTILINE))


def found(text: Source, name: str) -> list[Finding]:
    """What one rule says of a method, whether it stands alone or under another finding."""
    compiled = compile_method(text, HERE)
    told = [one for finding in compiled.findings for one in (finding, *finding.folded)]
    return [finding for finding in told if finding.name == name]


def expected(text: str) -> list[Expected]:
    """What a test method says it should earn: `heat main to 80 °C   #! STOP flash-limit: passes 73 °C`"""
    return [Expected(number, match[1], match[2], (match[3] or "").strip())
            for number, line in enumerate(text.splitlines(), 1) for match in EXPECTED.finditer(line)]
