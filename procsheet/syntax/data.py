"""Material files and plant files: blocks of lines that begin with a key."""

import re

from procsheet.findings import Finding
from procsheet.source import Source
from procsheet.syntax import clauses, entries, properties, slips, tree, words
from procsheet.syntax.lines import Line, Logical, join, read_lines, unquoted
from procsheet.syntax.parsed import Parsed
from procsheet.syntax.slips import slip

BLOCK_HEAD = re.compile(r"\s*(material|kind|rule)(?![\w-])\s*:?\s*(.*)$", re.IGNORECASE)
MIXER = {"mixer": 'Name the tool: anchor 0.40 m, 10-60 rpm; or in double quotes: "central mixer" 0.20 m, 20-120 rpm, stirrer'}
TOOL_LINE = properties.Property("", "anchor 0.40 m, 10-60 rpm", "")
RULE_LIKE = "Write it like: rule equal-temps"


def parse_data(source: Source, only: "set[int] | None" = None) -> Parsed:
    """The tree of a materials file: material, kind and rule blocks. `only` limits it to blocks that begin on these lines."""
    made, findings = [], []
    for head, under in entries.blocks(read_lines(source)):
        if only is not None and head.number not in only:
            continue
        block, wrong = _data_block(join([head]), under)
        findings += wrong
        if block is not None:
            made.append(block)
    return Parsed(tree.DataTree(source.name, tuple(made)), tuple(findings))


def _data_block(line: Logical, under: list[Line]) -> tuple[tree.Entry | None, list[Finding]]:
    match = BLOCK_HEAD.match(line.text)
    if not match:
        return None, [_no_block(line)]
    kind, name = match[1].lower(), unquoted(line.raw[match.start(2):])
    table = properties.RULE if kind == "rule" else properties.MATERIAL
    lines, findings = entries.read_block(under, table, f"a {kind}")
    if not name:
        findings.insert(0, slip(line.whole, f"this {kind} has no name",
                                f"Write it like: {'rule equal-temps' if kind == 'rule' else kind + ' glycerin'}"))
    return tree.Entry(kind, (), name, None, line.whole, line.whole, tuple(lines), line.remark), findings


def _no_block(line: Logical) -> Finding:
    word = line.text.split()[0]
    if entries.row_of(line, properties.MATERIAL):
        return slip(line.whole, f"`{word}` stands at the margin, and belongs to a material",
                    "Let the lines of a material stand deeper than its name.")
    if slips.near(word, ("material", "kind", "rule"), 1):
        return slip(line.whole, f"`{word}` does not begin a block", slips.did_you_mean(word, ("material", "kind", "rule")))
    if word.lower() in ("product", "phase", "vessel", "method"):
        return slip(line.whole, "this looks like a method or a plant file, not like a file of materials",
                    "Name a method file in .method, a plant file in .plant.")
    return slip(line.whole, f"`{word}` does not begin a block", "A block begins with material, kind or rule and a name: material glycerin")


# ---- plants


def parse_plant(source: Source) -> Parsed:
    """The tree of a plant file: its lines, with vessels and rules as blocks."""
    made, findings = [], []
    for head, under in entries.blocks(read_lines(source)):
        entry, wrong = _plant_line(head, under)
        findings += wrong
        if entry is not None:
            made.append(entry)
    return Parsed(tree.DataTree(source.name, tuple(made)), tuple(findings))


def _plant_line(head: Line, under: list[Line]) -> tuple[tree.Entry | None, list[Finding]]:
    line = join([head])
    word = re.split(r"[\s:]", line.text.strip())[0].lower()
    if word not in ("vessel", "rule", "plant"):
        return entries.read_entry(join([head, *under]), properties.PLANT, "a plant")
    name, wrong = entries.named(line, word), []
    if word == "vessel":
        lines, wrong = _kettle(under)
    elif word == "rule":
        lines, wrong = entries.read_block(under, properties.RULE, "a rule")
    else:
        lines = []
    if not name:
        wrong.insert(0, slip(line.whole, f"this {word} has no name",
                             {"vessel": "Write it like: vessel K60", "rule": RULE_LIKE, "plant": "Write it like: plant Pilot bay"}[word]))
    return tree.Entry(word, (), name, None, line.whole, line.whole, tuple(lines), line.remark), wrong


def _kettle(under: list[Line]) -> tuple[list[tree.Entry], list[Finding]]:
    """A vessel's lines: known properties, or a tool and its figures."""
    made, findings = [], []
    for line in entries.logical(under):
        tool = _tool(line)
        if tool is not None:
            entry, wrong = entries.value(line, TOOL_LINE._replace(name=tool[0]), *tool[1])
        else:
            entry, wrong = entries.read_entry(line, properties.KETTLE, "a vessel", MIXER)
        findings += wrong[:1]
        if entry is not None:
            made.append(entry)
    return made, findings


def _tool(line: Logical):
    at = len(line.text) - len(line.text.lstrip())
    if match := words.STRING.match(line.text, at):
        return line.raw[match.start(1):match.end(1)], (at, match.end())
    if entries.row_of(line, properties.KETTLE) is None and (match := words.TOOL.match(line.text, at)):
        return clauses.TOOL_WORD[words.plain(match.group())], (at, match.end())
    return None
