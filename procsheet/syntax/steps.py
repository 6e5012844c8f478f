"""The lines below `method`: stages, steps and the blocks around them."""

import re

from procsheet.findings import Finding
from procsheet.syntax import forms, slips, tokens, tree
from procsheet.syntax.build import Piece, UnexpectedInput, build
from procsheet.syntax.lines import Line, Logical, join
from procsheet.syntax.verbs import BY_WORD

STAGE = re.compile(r"\s*stage\b\s*(.*)", re.IGNORECASE)
BLOCK_HEADS = re.compile(r'\s*(?:choose\s+one\s*$|option\b|otherwise\s*$|else\s*$|end\s*$|where\s+the\s+plant\s+has\b|if\s+"[^"]*"\s*$|repeat\b)', re.IGNORECASE)
CLOSES = {"option": ("choose", "option"), "otherwise": ("where", "if")}


def is_head(line: Line) -> bool:
    """Whether a line is a stage or block line, under which steps may stand deeper without going on with it."""
    return bool(STAGE.match(line.text) or BLOCK_HEADS.match(line.text))


def group(lines: list[Line]) -> tuple[list[list[Line]], list[Finding]]:
    """Written lines to logical ones: a line deeper than a step goes on with it."""
    groups: list[list[Line]] = []
    findings = []
    step: Line | None = None
    for line in lines:
        if is_head(line):
            groups.append([line])
            step = None
        elif step is not None and line.indent > step.indent:
            if (slid := _slid(line, step)) is None:
                groups[-1].append(line)
            else:
                findings.append(slid)
                groups.append([line])
        else:
            groups.append([line])
            step = line
    return groups, findings


def _slid(line: Line, step: Line) -> Finding | None:
    """A new step that stands too deep would be read as the end of the one before: say so, and read it as a step."""
    match = tokens.VERB.match(line.text, line.indent if line.text[: line.indent].isspace() else len(line.text) - len(line.text.lstrip()))
    words = line.text.split()
    if not match or tokens.plain(match.group()) in ("open", "pass", "press", "cut") or len(words) < 2 or tokens.PHRASES.match(line.text.strip()):
        return None
    span = join([line]).span(match.start(), match.end())._replace(line=line.number)
    return slips.slip(join([line]).span(0, len(match.group())), f"this step stands deeper than the step above it, in line {step.number}",
                      "Start every step in the same column; only a line that goes on with a step stands deeper.", "reads as the end of the step above",
                      ) if span else None


class _Open:
    """A block that has not met its `end` yet."""

    def __init__(self, kind: str, head: str, line: Logical, times=None, until=None):
        self.kind, self.head, self.line, self.times, self.until = kind, head, line, times, until
        self.branches: list[tree.Branch] = []
        self.items: list = []
        self.name = ""
        self.span = line.whole

    def next(self, name: str, line: Logical) -> None:
        if self.items or self.name or self.kind != "choose":
            self.branches.append(tree.Branch(self.name, tuple(self.items), self.span))
        self.items, self.name, self.span = [], name, line.whole

    def close(self) -> tree.Block:
        self.branches.append(tree.Branch(self.name, tuple(self.items), self.span))
        return tree.Block(self.kind, self.head, tuple(self.branches), self.line.whole, self.times, self.until)


def read_steps(lines: list[Line]) -> tuple[tuple, list[Finding]]:
    """Stages, steps and blocks in the order they are written, and every slip among them."""
    groups, findings = group(lines)
    top: list = []
    opened: list[_Open] = []

    def put(item) -> None:
        (opened[-1].items if opened else top).append(item)

    for written in groups:
        line = join(written)
        if stage := STAGE.match(line.text):
            put(tree.Stage(line.raw[stage.start(1):].strip().strip('"'), line.whole))
        elif BLOCK_HEADS.match(line.text):
            findings += _block(line, opened, put)
        else:
            step, wrong = read_step(line)
            findings += wrong
            if step is not None:
                put(step)
    for left in reversed(opened):
        findings.append(slips.slip(left.span, f"`{_shown(left.kind)}` is not closed", "Put `end` on a line of its own below its steps."))
        block = left.close()
        opened.pop()
        put(block)
    return tuple(top), findings


def _shown(kind: str) -> str:
    return {"choose": "choose one", "where": "where the plant has", "if": "if", "repeat": "repeat"}[kind]


def _block(line: Logical, opened: list[_Open], put) -> list[Finding]:
    try:
        kind, head, pieces = build(tokens.tokens(line, "block"), line, "block")
    except tokens.DecimalComma as comma:
        return [slips.decimal_comma(comma)]
    except UnexpectedInput as error:
        return [slips.unexpected(error, line)]
    if kind in ("choose", "where", "if"):
        opened.append(_Open(kind, head, line))
        return []
    if kind == "repeat":
        block, findings = _repeat(line, pieces)
        opened.append(block)
        return findings
    if not opened or (kind in CLOSES and opened[-1].kind not in CLOSES[kind]):
        wanted = {"end": "no block is open here", "option": "`option` belongs under `choose one`",
                  "otherwise": "`otherwise` belongs under `if` or `where the plant has`"}[kind]
        return [slips.slip(line.whole, wanted, "Leave this line out, or put the line that opens the block above it.")]
    if kind == "end":
        block = opened.pop().close()
        put(block)
        return _empty(block)
    opened[-1].next(head if kind == "option" else "otherwise", line)
    return []


def _empty(block: tree.Block) -> list[Finding]:
    if block.kind == "choose" and len(block.branches) < 2:
        return [slips.slip(block.span, "`choose one` needs two options", "Write `option NAME` above the steps of each.")]
    return []


def _repeat(line: Logical, pieces: tuple[Piece, ...]) -> tuple[_Open, list[Finding]]:
    pieces = tuple(forms.with_targets(_until_of_vessel(list(pieces))))
    times = next((piece.value for piece in pieces if forms.dimension(piece.value) in ("times", "open", "cycles", "passes")), None)
    until = next((clause for piece in pieces if piece.opener == "until" for clause in [forms.clause_of(piece)[0]] if clause), None)
    findings = []
    if times is None and until is None:
        findings = [slips.slip(line.whole, "this repeat says neither how often nor until when", "Write it as: repeat at most 4 times until main clear")]
    elif times is None:
        findings = [slips.slip(line.whole, "this repeat has no most", "Write it as: repeat at most 4 times until main clear, or `at most ? times`.")]
    return _Open("repeat", "", line, times, until.value if until else None), findings


def _until_of_vessel(pieces: list[Piece]) -> list[Piece]:
    """`until main clear`: the vessel behind until, then the end point."""
    for index, piece in enumerate(pieces[:-1]):
        following = pieces[index + 1]
        if piece.opener == "until" and forms._is_name(piece.value) and following.opener == "":
            return [*pieces[:index], following._replace(opener="until"), *pieces[index + 2:]]
    return pieces


def read_step(line: Logical) -> tuple[tree.Step | None, list[Finding]]:
    """One step, or what is wrong with it."""
    try:
        words = tokens.tokens(line, "step")
    except tokens.DecimalComma as comma:
        return None, [slips.decimal_comma(comma)]
    first = next((word for word in words if word.type != "OPEN_STEP"), None)
    if first is None or first.type != "VERB":
        return None, [_no_verb(line, first)]
    try:
        raw = build(words, line, "step")
    except UnexpectedInput as error:
        finding = slips.unexpected(error, line)
        return None, [finding._replace(fix=f"{finding.fix} Example: {BY_WORD[str(first)].example}")]
    return forms.fit(raw, line)


def _no_verb(line: Logical, first) -> Finding:
    at = len(line.text) - len(line.text.lstrip())
    word = line.text[at:].split(" ")[0] if first is None else line.raw[at:first.end_pos]
    if word.endswith(":"):
        return slips.slip(line.span(at, at + len(word)), f"`{word}` before a step is not read",
                          f"Name a step behind it: ... called {word.rstrip(':').lower()}")
    return slips.unknown_verb(line.span(at, at + len(word)), word)
