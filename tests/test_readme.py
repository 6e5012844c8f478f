"""What the README shows is what the tool says."""

import re
from pathlib import Path

from procsheet.cli import main
from tests.sources import source

README = Path(__file__).parents[1] / "README.md"


@source("recorded", "the README's own method and answer")
def test_the_method_earns_what_is_shown(tmp_path, monkeypatch, capsys):
    """The README's method, checked, is answered with the README's words."""
    method, answer = re.findall(r"^```\n(.*?)^```", README.read_text(encoding="utf-8"), re.DOTALL | re.MULTILINE)
    command, _, told = answer.partition("\n")
    (tmp_path / command.split()[-1]).write_text(method, encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    assert main(command.split()[2:]) == 0
    assert capsys.readouterr().out.strip() == told.strip()


@source("by hand", "every picture and file it speaks of")
def test_what_it_names_is_there():
    """Files and folders the README names exist."""
    text = README.read_text(encoding="utf-8")
    named = re.findall(r"(?:recipes|grammar)/[\w./-]*\w", text) + re.findall(r"`([A-Z]+\.md)`", text)
    assert named and all((README.parent / name).exists() for name in named)
