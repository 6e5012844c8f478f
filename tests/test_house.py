"""The house: imports point one way, each outside library has one door, and a check starts light."""

import ast
import subprocess
import sys
from pathlib import Path

from tests.sources import source

ROOT = Path(__file__).parents[1] / "procsheet"
FLOORS = ["source", "findings", "units", "intervals", "formulas", "syntax", "model", "graph", "plan", "trace", "rules", "journey", "sheet", "timeplan", "need", "changes", "labels", "pipeline", "commands", "cli"]
DOORS = {"lark": "syntax", "pint": "units", "networkx": "graph", "weasyprint": "sheet", "openpyxl": "need", "segno": "labels"}


def imports(file: Path) -> set[str]:
    """The modules a file imports, wherever in it."""
    found = set()
    for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            found |= {name.name for name in node.names}
        elif isinstance(node, ast.ImportFrom) and node.module and not node.level:
            found.add(node.module)
            if node.module == "procsheet" or node.module.startswith("procsheet."):
                found |= {f"{node.module}.{name.name}" for name in node.names}
    return found


def room(module: str) -> str:
    parts = module.split(".")
    return parts[1] if parts[0] == "procsheet" and len(parts) > 1 else ""


def files() -> list[Path]:
    return sorted(ROOT.rglob("*.py"))


@source("by hand", "the order of the stages as the style of the house draws it")
def test_imports_point_one_way():
    """No room imports one that stands above it."""
    wrong = []
    for file in files():
        mine = room("procsheet." + ".".join(file.relative_to(ROOT).with_suffix("").parts))
        if mine not in FLOORS:
            continue
        for module in imports(file):
            other = room(module)
            if other in FLOORS and FLOORS.index(other) > FLOORS.index(mine):
                wrong.append(f"{file.relative_to(ROOT)} imports {module}")
    assert not wrong


@source("by hand", "one door for each outside library")
def test_each_outside_library_has_one_door():
    """Each of them is imported in its own room only."""
    for library, door in DOORS.items():
        users = {room("procsheet." + ".".join(file.relative_to(ROOT).with_suffix("").parts)) for file in files() if library in {name.split(".")[0] for name in imports(file)}}
        assert users <= {door}, f"{library} is imported in {users}"


@source("by hand", "physics knows nothing of methods")
def test_formulas_import_nothing_of_ours():
    """The formulas stand on their own."""
    for file in (ROOT / "formulas").glob("*.py"):
        assert not [module for module in imports(file) if module.startswith("procsheet")]


@source("by hand", "the libraries that a check must not load")
def test_a_check_starts_light():
    """`procsheet check` imports none of the heavy libraries, such as weasyprint, networkx, pint, openpyxl and segno."""
    recipe = ROOT.parent / "recipes" / "harbour-hand-cream.method"
    code = (f"import sys; from procsheet.cli import main; code = main(['check', {str(recipe)!r}]); "
            "heavy = {'weasyprint', 'networkx', 'pint', 'openpyxl', 'segno', 'numpy', 'pandas', 'matplotlib'} & set(sys.modules); print('HEAVY', sorted(heavy)); sys.exit(code)")
    ran = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True)
    assert "HEAVY []" in ran.stdout
    assert ran.returncode == 0
