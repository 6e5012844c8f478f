"""The lines below `method`: stages, steps and the blocks around them."""

import re
from difflib import get_close_matches

from procsheet.findings import Finding
from procsheet.source import Span
from procsheet.syntax import answers, slips, tokens, tree
from procsheet.syntax.build import Piece, UnexpectedInput, build
from procsheet.syntax.figures import Badly
from procsheet.syntax.lines import Line, Logical, join, unquoted
from procsheet.syntax.slips import slip
from procsheet.syntax.steps import read_step
from procsheet.syntax.values import dimension, is_name
from procsheet.syntax.words import NOTHING, PHRASES_ONLY, VERB, Known, plain

STAGE = re.compile(r"\s*stage\b\s*:?\s*(.*)", re.IGNORECASE)
BLOCK_HEADS = re.compile(r'\s*(?:choose\s+one\s*:?\s*$|option\b|otherwise\s*:?\s*$|else\s*:?\s*$|end\s*\.?\s*$|where\s+the\s+plant\s+has\b|if\s+"[^"]*"\s*:?\s*$|repeat\b)', re.IGNORECASE)
BELONGS = {"option": ("choose",), "otherwise": ("where", "if")}
SHOWN = {"choose": "choose one", "where": "where the plant has", "if": "if", "repeat": "repeat"}
CAN_GO_ON = ("open", "pass", "press", "cut")            # verbs that a line which goes on with a step may begin with

# lines that are nearly a block line: what they look like, the kind they are read as, and how they are written
NEARLY = (
    (re.compile(r"\s*(?:choose\b|chose\s+one|either\s*:?\s*$)", re.IGNORECASE), "choose", "Write `choose one` on a line of its own, and `option NAME` above the steps of each."),
    (re.compile(r"\s*(?:if\s+the\s+plant|where)\b", re.IGNORECASE), "where", "Write it like: where the plant has vacuum"),
    (re.compile(r"\s*if\s+[^\"]", re.IGNORECASE), "if", 'What is seen stands in double quotes: if "the bulk is grainy"'),
    (re.compile(r"\s*(?:otherwise|else)\b", re.IGNORECASE), "otherwise", "Write `otherwise` alone on its line; the steps follow below it."),
    (re.compile(r"\s*end\b|\s*end(?:if|choose|repeat|option)\s*$", re.IGNORECASE), "end", "Write `end` alone on its line."),
)
WORDS = {"choose": "choose", "option": "option", "otherwise": "otherwise", "repeat": "repeat"}


def head_kind(line: Line) -> str:
    """'block' for a line that opens, parts or closes a block, 'nearly' for one that was meant to, '' for another."""
    if BLOCK_HEADS.match(line.text):
        return "block"
    return "nearly" if _nearly(line.text) else ""


def _nearly(text: str) -> tuple[str, str] | None:
    if VERB.match(text.lstrip()) or text.lstrip()[:8].lower() == "optional":
        return None
    for pattern, kind, fix in NEARLY:
        if pattern.match(text):
            return None if kind in ("if", "where") and _has_verb(text) else (kind, fix)
    words = text.split()
    found = get_close_matches(words[0].lower().rstrip(":"), WORDS, n=1, cutoff=0.8) if words else []
    return (WORDS[found[0]], f"Did you mean `{found[0]}`?") if found and len(words[0]) > 4 else None


def _has_verb(text: str) -> bool:
    return any(VERB.match(text, match.start()) for match in re.finditer(r"(?<=\s)[a-z]", text))


# ---- written lines to logical ones


def group(lines: list[Line]) -> tuple[list[list[Line]], list[Finding]]:
    """A line deeper than a step goes on with it."""
    groups: list[list[Line]] = []
    findings = []
    step: Line | None = None
    for index, line in enumerate(lines):
        if _opens(line, step, lines[index + 1] if index + 1 < len(lines) else None):
            groups.append([line])
            step = None
        elif step is not None and line.indent > step.indent:
            slid = None if _quote_open(groups[-1]) else _slid(line, step)
            if slid is None:
                groups[-1].append(line)
            else:
                findings.append(slid)
                groups.append([line])
        else:
            groups.append([line])
            step = line
    return groups, findings


def _opens(line: Line, step: Line | None, following: Line | None) -> bool:
    """Whether it is a stage or block line. A deeper `if "..."` goes on with the step above, unless steps stand deeper still."""
    if STAGE.match(line.text):
        return True
    if step is None or line.indent <= step.indent:
        return bool(head_kind(line))
    kind = "block" if BLOCK_HEADS.match(line.text) else ""
    if kind and line.text.lstrip()[:2].lower() == "if":
        return following is not None and following.indent > line.indent
    return bool(kind)


def _quote_open(lines: list[Line]) -> bool:
    return sum(line.text.count('"') for line in lines) % 2 == 1


def _slid(line: Line, step: Line) -> Finding | None:
    """A new step that stands too deep would be read as the end of the one before: say so, and read it as a step."""
    text = line.text.lstrip()
    match = VERB.match(text)
    if not match or plain(match.group()) in CAN_GO_ON or len(text.split()) < 2 or PHRASES_ONLY.match(text):
        return None
    return slip(join([line]).span(0, match.end()), f"this step stands deeper than the step above it, in line {step.number}",
                "Begin every step in the same column; only a line that goes on with a step stands deeper.", "reads as the end of the step above")


# ---- logical lines to a tree


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


class Steps:
    """Builds the tree below `method` line by line."""

    def __init__(self, known: Known):
        self.known = known
        self.top: list = []
        self.opened: list[_Open] = []
        self.findings: list[Finding] = []
        self.broken: list[Span] = []

    def put(self, item) -> None:
        (self.opened[-1].items if self.opened else self.top).append(item)

    def read(self, line: Logical) -> None:
        if stage := STAGE.match(line.text):
            self._stage(line, stage)
        elif BLOCK_HEADS.match(line.text):
            self._block(line)
        elif nearly := _nearly(line.text):
            self._nearly(line, *nearly)
        else:
            step, wrong = read_step(line, self.known)
            self.findings += wrong
            if step is not None:
                self.put(step)
            else:
                self.broken.append(line.whole)

    def _stage(self, line: Logical, match: re.Match) -> None:
        title = unquoted(line.raw[match.start(1):])
        if not title:
            self.findings.append(slip(line.whole, "this stage has no name", "Write it like: stage Heat both phases"))
        self.put(tree.Stage(title, line.whole))

    def _nearly(self, line: Logical, kind: str, fix: str) -> None:
        """A line that was meant to be a block line: told once, and read as one, so that the lines below it are in place."""
        word = line.text.strip()
        self.findings.append(slip(line.whole, f"`{word}` is not understood", fix))
        if kind in ("choose", "where", "if", "repeat"):
            self.opened.append(_Open(kind, unquoted(" ".join(word.split()[1:]).strip(":")), line))
        elif kind == "end" and self.opened:
            self.put(self.opened.pop().close())
        elif kind in ("option", "otherwise") and self.opened:
            self.opened[-1].next(kind, line)

    def _block(self, line: Logical) -> None:
        line = _without_colon(line)
        try:
            found, wrong = tokens.block(line, self.known)
            kind, head, pieces = build(found, line, "block")
        except Badly as error:
            self.findings.append(slips.badly(error))
            return
        except UnexpectedInput as error:
            return self._bad_block(line, error)
        self.findings += wrong[:1]
        if kind in ("choose", "where", "if"):
            self.opened.append(_Open(kind, head, line))
        elif kind == "repeat":
            self._repeat(line, pieces)
        elif not self._fits(kind):
            self.findings.append(self._no_block(kind, line))
            if self.opened and kind == "otherwise":
                self.opened[-1].next("otherwise", line)     # read as one more way, so that what follows is in place
        elif kind == "end":
            self._end()
        else:
            self._branch(kind, head, line)

    def _bad_block(self, line: Logical, error) -> None:
        word = plain(line.text).split()[0]
        fixes = {"option": "Write one word in small letters behind it: option by-hand", "where": "Write it like: where the plant has vacuum",
                 "repeat": "Write it like: repeat at most 4 times until main clear"}
        title = {"option": "the name of an option is one word in small letters", "where": "this line does not say what the plant has"}.get(word, f"this `{word}` line is not understood")
        self.findings.append(slip(line.whole, title, fixes.get(word, slips.fitting(error.accepts))))
        if word in ("where", "if", "repeat", "choose"):
            self.opened.append(_Open(word, "", line))
        elif word == "option" and self.opened:
            self.opened[-1].next("-".join(re.findall(r"[a-z0-9]+", line.text.lower())[1:]) or "option", line)

    def _fits(self, kind: str) -> bool:
        return bool(self.opened) and (kind == "end" or self.opened[-1].kind in BELONGS[kind])

    def _no_block(self, kind: str, line: Logical) -> Finding:
        title = {"end": "there is no open block for this `end`", "option": "`option` belongs below `choose one`",
                 "otherwise": "`otherwise` belongs to `if` or `where the plant has`"}[kind]
        fix = {"end": "Take this line out; or the line that opens the block is missing above: choose one, where the plant has ..., if \"...\", repeat ...",
               "option": "Put `choose one` above the first option.", "otherwise": "Under `choose one` write another `option NAME`; else put the line that opens the block above."}[kind]
        return slip(line.whole, title, fix)

    def _end(self) -> None:
        block = self.opened.pop().close()
        self.put(block)
        if block.kind == "choose" and len(block.branches) < 2:
            self.findings.append(slip(block.span, "`choose one` needs two options", "Write `option NAME` above the steps of each."))
        elif block.kind == "choose" and not block.branches[0].name:
            self.findings.append(slip(block.span, "these steps stand below `choose one` and above its first option", "Write `option NAME` above them, or put them before the block."))

    def _branch(self, kind: str, head: str, line: Logical) -> None:
        block = self.opened[-1]
        if kind == "option" and (head == block.name or any(head == branch.name for branch in block.branches)):
            self.findings.append(slip(line.whole, f"two options are called `{head}`", "Give each a name of its own."))
        if kind == "otherwise" and block.name == "otherwise":
            self.findings.append(slip(line.whole, "a second `otherwise` in the same block", "Take it out, or make a block of its own."))
        block.next(head if kind == "option" else "otherwise", line)

    def _repeat(self, line: Logical, pieces: tuple[Piece, ...]) -> None:
        pieces = tuple(answers.with_targets(_until_of_vessel(list(pieces))))
        times = next((piece.value for piece in pieces if dimension(piece.value) in ("times", "open", "cycles", "passes")), None) or _twice(pieces)
        until = next((clause for piece in pieces if piece.opener == "until" for clause in [answers.clause_of(piece)[0]] if clause), None)
        example = "Write it like: repeat at most 4 times until main clear"
        if times is None and until is None:
            self.findings.append(slip(line.whole, "this repeat says neither how often nor until when", example))
        elif times is None:
            self.findings.append(slip(line.whole, "this repeat does not say how often at most", f"{example}; or `at most ? times` while it is not known"))
        self.opened.append(_Open("repeat", "", line, times, until.value if until else None))

    def close(self) -> None:
        """What is still open at the end of the method."""
        while self.opened:
            left = self.opened.pop()
            self.findings.append(slip(left.line.whole, f"`{SHOWN[left.kind]}` is not closed", "Put `end` on a line of its own below its last step."))
            self.put(left.close())


def _twice(pieces) -> tree.Quantity | None:
    return next((tree.Quantity("2", "2", "times", "", False, piece.span) for piece in pieces if piece.opener == "phrase" and piece.value == "twice"), None)


def _without_colon(line: Logical) -> Logical:
    text = line.text.rstrip(" .:")
    return line._replace(text=text, raw=line.raw[:len(text)])


def _until_of_vessel(pieces: list[Piece]) -> list[Piece]:
    """`until main clear`: the vessel behind until, then the end point."""
    for index, piece in enumerate(pieces[:-1]):
        following = pieces[index + 1]
        if piece.opener == "until" and is_name(piece.value) and following.opener == "":
            return [*pieces[:index], following._replace(opener="until"), *pieces[index + 2:]]
    return pieces


def read_steps(lines: list[Line], known: Known = NOTHING) -> Steps:
    """Stages, steps and blocks in the order they are written, every slip among them, and the places of steps that were not read."""
    groups, findings = group(lines)
    steps = Steps(known)
    steps.findings += findings
    for written in groups:
        steps.read(join(written))
    steps.close()
    return steps
