"""The lines below `method`: stages, steps and the blocks around them."""

import re

from procsheet.findings import Finding
from procsheet.source import Span
from procsheet.syntax import answers, heads, slips, tokens, tree
from procsheet.syntax.build import Piece, UnexpectedInput, build
from procsheet.syntax.figures import Badly
from procsheet.syntax.lines import Line, Logical, join, unquoted
from procsheet.syntax.slips import slip
from procsheet.syntax.steps import read_step
from procsheet.syntax.values import dimension, figured, is_name
from procsheet.syntax.words import NOTHING, Known, plain

SHOWN = {"choose": "choose one", "where": "where the plant has", "if": "if", "repeat": "repeat"}
BELONGS = {"option": ("choose",), "otherwise": ("where", "if"), "end": tuple(SHOWN)}
NO_BLOCK = {
    "end": ("there is no open block for this `end`",
            "Take this line out; or the line that opens the block is missing above: choose one, where the plant has ..., if \"...\", repeat ..."),
    "option": ("`option` belongs below `choose one`", "Put `choose one` above the first option."),
    "otherwise": ("`otherwise` belongs to `if` or `where the plant has`",
                  "Under `choose one` write another `option NAME`; else put the line that opens the block above."),
}
BAD_HEAD = {
    "option": ("the name of an option is one word in small letters", "Write one word in small letters behind it: option by-hand"),
    "where": ("this line does not say what the plant has", "Write it like: where the plant has vacuum"),
    "repeat": ("this `repeat` line is not understood", "Write it like: repeat at most 4 times until main clear"),
}
REPEAT = "Write it like: repeat at most 4 times until main clear"


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
    """Builds the tree below `method` statement by statement."""

    def __init__(self, known: Known):
        self.known = known
        self.top: list = []
        self.opened: list[_Open] = []
        self.findings: list[Finding] = []
        self.broken: list[Span] = []

    def put(self, item) -> None:
        (self.opened[-1].items if self.opened else self.top).append(item)

    def tell(self, span: Span, title: str, fix: str) -> None:
        self.findings.append(slip(span, title, fix))

    def read(self, line: Logical) -> None:
        if stage := heads.STAGE.match(line.text):
            self._stage(line, stage)
        elif heads.BLOCK.match(line.text):
            self._block(_without_colon(line))
        elif meant := heads.nearly(line.text):
            self._meant(line, *meant)
        else:
            self._step(line)

    def _step(self, line: Logical) -> None:
        step, wrong = read_step(line, self.known)
        self.findings += wrong
        if step is not None:
            self.put(step)
        else:
            self.broken.append(line.whole)

    def _stage(self, line: Logical, match: re.Match) -> None:
        title = unquoted(line.raw[match.start(1):])
        if not title:
            self.tell(line.whole, "this stage has no name", "Write it like: stage Heat both phases")
        self.put(tree.Stage(title, line.whole))

    # ---- block lines

    def _meant(self, line: Logical, kind: str, fix: str) -> None:
        """A line that was meant to be a block line: told once, and read as one, so that the lines below it are in place."""
        word = line.text.strip()
        self.tell(line.whole, f"`{word}` is not understood", fix)
        if kind in SHOWN:
            self.opened.append(_Open(kind, unquoted(" ".join(word.split()[1:]).strip(":")), line))
        elif self.opened and kind == "end":
            self.put(self.opened.pop().close())
        elif self.opened:
            self.opened[-1].next(kind, line)

    def _block(self, line: Logical) -> None:
        try:
            found, wrong = tokens.block(line, self.known)
            kind, head, pieces = build(found, line, "block")
        except Badly as error:
            self.findings.append(slips.badly(error))
            return
        except UnexpectedInput as error:
            self._bad_block(line, error)
            return
        self.findings += wrong[:1]
        if kind == "repeat":
            self._repeat(line, pieces)
        elif kind in SHOWN:
            self.opened.append(_Open(kind, head, line))
        elif not self.opened or self.opened[-1].kind not in BELONGS[kind]:
            self._no_block(kind, line)
        elif kind == "end":
            self._end()
        else:
            self._branch(kind, head, line)

    def _no_block(self, kind: str, line: Logical) -> None:
        self.tell(line.whole, *NO_BLOCK[kind])
        if self.opened and kind == "otherwise":
            self.opened[-1].next(kind, line)                # read as one more way, so that what follows is in place

    def _bad_block(self, line: Logical, error) -> None:
        word = plain(line.text).split()[0]
        self.tell(line.whole, *BAD_HEAD.get(word, (f"this `{word}` line is not understood", slips.fitting(error.accepts))))
        if word in SHOWN:
            self.opened.append(_Open(word, "", line))
        elif word == "option" and self.opened:
            self.opened[-1].next("-".join(re.findall(r"[a-z0-9]+", line.text.lower())[1:]) or "option", line)

    def _end(self) -> None:
        block = self.opened.pop().close()
        self.put(block)
        if block.kind == "choose" and len(block.branches) < 2:
            self.tell(block.span, "`choose one` needs two options", "Write `option NAME` above the steps of each.")
        elif block.kind == "choose" and not block.branches[0].name:
            self.tell(block.span, "these steps stand below `choose one` and above its first option",
                      "Write `option NAME` above them, or put them before the block.")

    def _branch(self, kind: str, head: str, line: Logical) -> None:
        block = self.opened[-1]
        if kind == "option" and head in (block.name, *(branch.name for branch in block.branches)):
            self.tell(line.whole, f"two options are called `{head}`", "Give each a name of its own.")
        if kind == "otherwise" and block.name == "otherwise":
            self.tell(line.whole, "a second `otherwise` in the same block", "Take it out, or make a block of its own.")
        block.next(head if kind == "option" else "otherwise", line)

    def _repeat(self, line: Logical, pieces: tuple[Piece, ...]) -> None:
        pieces = tuple(answers.with_targets(_until_of_vessel(list(pieces))))
        counts = [figured(piece.value) for piece in pieces if dimension(piece.value) in ("times", "open", "cycles", "passes")]
        times = counts[0] if counts else _twice(pieces)
        until = next((clause for piece in pieces if piece.opener == "until" for clause in [answers.clause_of(piece)[0]] if clause), None)
        if times is None and until is None:
            self.tell(line.whole, "this repeat says neither how often nor until when", REPEAT)
        elif times is None:
            self.tell(line.whole, "this repeat does not say how often at most", f"{REPEAT}; or `at most ? times` while it is not known")
        self.opened.append(_Open("repeat", "", line, times, until.value if until else None))

    def close(self) -> None:
        """What is still open at the end of the method."""
        while self.opened:
            left = self.opened.pop()
            self.tell(left.line.whole, f"`{SHOWN[left.kind]}` is not closed", "Put `end` on a line of its own below its last step.")
            self.put(left.close())


def _twice(pieces: tuple[Piece, ...]) -> tree.Quantity | None:
    return next((tree.Quantity("2", "2", "times", "", False, piece.span) for piece in pieces if piece.value == "twice"), None)


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
    groups, findings = heads.group(lines)
    steps = Steps(known)
    steps.findings += findings
    for written in groups:
        steps.read(join(written))
    steps.close()
    return steps
