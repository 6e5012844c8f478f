"""Below `method`: which written lines begin a stage, a block or a step, and which go on with the step above."""

import re
from difflib import get_close_matches

from procsheet.findings import Finding
from procsheet.syntax.lines import Line, join
from procsheet.syntax.slips import slip
from procsheet.syntax.words import PHRASES_ONLY, VERB, plain

STAGE = re.compile(r"\s*stage\b\s*:?\s*(.*)", re.IGNORECASE)
BLOCK = re.compile(
    r"\s*(?:choose\s+one\s*:?\s*$|option\b|otherwise\s*:?\s*$|else\s*:?\s*$|end\s*\.?\s*$|where\s+the\s+plant\s+has\b|repeat\b|"
    r'if\s+"[^"]*"\s*:?\s*$)', re.IGNORECASE)
CAN_GO_ON = ("open", "pass", "press", "cut")            # verbs that a line which goes on with a step may begin with

# lines that are nearly a block line: what they look like, the kind they are read as, and how they are written
NEARLY = (
    (r"choose\b|chose\s+one|either\s*:?\s*$", "choose",
     "Write `choose one` on a line of its own, and `option NAME` above the steps of each."),
    (r"if\s+the\s+plant\b|where\b", "where", "Write it like: where the plant has vacuum"),
    (r"if\s+[^\"]", "if", 'What is seen stands in double quotes: if "the bulk is grainy"'),
    (r"otherwise\b|else\b", "otherwise", "Write `otherwise` alone on its line; the steps follow below it."),
    (r"end\b|end(?:if|choose|repeat|option)\s*$", "end", "Write `end` alone on its line."),
)
PATTERNS = tuple((re.compile(rf"\s*(?:{pattern})", re.IGNORECASE), kind, fix) for pattern, kind, fix in NEARLY)
MISSPELT = ("choose", "option", "otherwise", "repeat")


def nearly(text: str) -> tuple[str, str] | None:
    """The kind of block line a line was meant to be, and how that is written; None for a step."""
    words = text.split()
    if not words or VERB.match(text.lstrip()) or words[0].lower().startswith("optional"):
        return None
    for pattern, kind, fix in PATTERNS:
        if pattern.match(text):
            return None if kind in ("if", "where") and _has_verb(text) else (kind, fix)
    found = get_close_matches(words[0].lower().rstrip(":"), MISSPELT, n=1, cutoff=0.8) if len(words[0]) > 4 else []
    return (found[0], f"Did you mean `{found[0]}`?") if found else None


def _has_verb(text: str) -> bool:
    return any(VERB.match(text, match.start()) for match in re.finditer(r"(?<=\s)[a-z]", text))


def is_head(line: Line) -> bool:
    """Whether a line was meant to open, part or close a block."""
    return bool(BLOCK.match(line.text)) or nearly(line.text) is not None


def group(lines: list[Line]) -> tuple[list[list[Line]], list[Finding]]:
    """Written lines to statements: a line deeper than a step goes on with it."""
    groups: list[list[Line]] = []
    findings = []
    step: Line | None = None
    for line, following in zip(lines, [*lines[1:], None]):
        if _opens(line, step, following):
            groups.append([line])
            step = None
        elif step is None or line.indent <= step.indent:
            groups.append([line])
            step = line
        elif (slid := None if _quote_is_open(groups[-1]) else _slid(line, step)) is None:
            groups[-1].append(line)
        else:
            findings.append(slid)
            groups.append([line])
    return groups, findings


def _opens(line: Line, step: Line | None, following: Line | None) -> bool:
    """Whether it is a stage or block line. A deeper `if "..."` goes on with the step above, unless steps stand deeper still."""
    if STAGE.match(line.text):
        return True
    if step is None or line.indent <= step.indent:
        return is_head(line)
    if not BLOCK.match(line.text):
        return False
    return line.text.lstrip()[:2].lower() != "if" or following is not None and following.indent > line.indent


def _quote_is_open(lines: list[Line]) -> bool:
    return sum(line.text.count('"') for line in lines) % 2 == 1


def _slid(line: Line, step: Line) -> Finding | None:
    """A new step that stands too deep would be read as the end of the one before: say so, and read it as a step."""
    text = line.text.lstrip()
    match = VERB.match(text)
    if not match or plain(match.group()) in CAN_GO_ON or len(text.split()) < 2 or PHRASES_ONLY.match(text):
        return None
    return slip(join([line]).span(0, match.end()), f"this step stands deeper than the step above it, in line {step.number}",
                "Begin every step in the same column; only a line that goes on with a step stands deeper.",
                "reads as the end of the step above")
