"""What rules ask a material for exists: a group that no kind and no material has would never be true."""

import ast
from pathlib import Path

from procsheet.model.library import Library, material, shipped
from procsheet.syntax.properties import MATERIAL
from tests.sources import source

ROOT = Path(__file__).parents[2] / "procsheet"
ASKS = {"is_a": 0, "share": 0, "holds": 1, "of_batch": 1}               # function -> the first argument that is a group
PHASES = {"water", "oil", "silicone", "alcohol", "powder", ""}          # trace.share asks for these


def asked():
    """Every group that is asked for by a word in quotes, with where."""
    for file in sorted(ROOT.rglob("*.py")):
        for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute) and node.func.attr in ASKS:
                for word in node.args[ASKS[node.func.attr]:]:
                    if isinstance(word, ast.Constant) and isinstance(word.value, str):
                        yield word.value, f"{file.name}:{node.lineno}"


def groups() -> set[str]:
    library = Library(shipped())
    made = [material(block.text, [block], library) for block in library.all()]
    return {group for one in made for group in (*one.groups, one.kind)} | PHASES


@source("by hand", "the words of kinds.materials and of the materials' own `counts as` lines")
def test_every_group_that_is_asked_for_exists():
    """No rule waits for a group that nothing belongs to, by a slip of the pen or another spelling."""
    known = groups()
    assert [(word, where) for word, where in asked() if word not in known] == []


@source("by hand", "the table of properties")
def test_every_property_that_is_asked_for_exists():
    """`material.figure("...")` names a property of the language."""
    names = {row.name for row in MATERIAL}
    wrong = []
    for file in sorted(ROOT.rglob("*.py")):
        for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute) and node.func.attr in ("figure", "figures") and node.args and isinstance(node.args[0], ast.Constant):
                wrong += [] if node.args[0].value in names else [(node.args[0].value, f"{file.name}:{node.lineno}")]
    assert wrong == []
