"""A method of three rows and a stock, small enough to be done by hand."""

from datetime import date
from fractions import Fraction
from pathlib import Path

from procsheet.need.lots import COLUMNS, Lot, read_stock
from procsheet.need.need import Made, Need, reckon
from procsheet.pipeline import Request
from procsheet.plan.plan import Order
from procsheet.source import source as text_of
from tests.made import compiled, method

DAY = date(2026, 3, 2)
HOUSE = """\
material widget salt solution
    form   solution
    assay  40 %  from memory
    pack   5 kg at 6 EUR per kg
material widget oil
    form   liquid
    pack   25 kg at 2 EUR per kg
    pack   10 kg at 4 EUR per kg
material purified water
    pack   100 kg at 0.10 EUR per kg
"""
THREE = "phase A: all\n    to 100 %       purified water\n    8 % as pure  widget salt solution\n    10 %         widget oil"


def plan(folder: Path, *, house: str = HOUSE, rows: str = THREE, kilograms: int = 100, pack: str = "declared 100 g", plant: Path | None = None,
         steps: str = "charge A into main|stir main for 10 min|fill main"):
    """The plan of the three rows."""
    (folder / "house.materials").write_text(house, encoding="utf-8")
    text = method(rows, "\n".join(f"    {step}" for step in steps.split("|")), more=f'\npack "jar"\n    {pack}\n')
    made = compiled(text.replace("basis", 'materials "house.materials"\nbasis', 1), Request(Order(mass=Fraction(kilograms)), plant), folder)
    return made.batch.plan


def stock(*rows: str) -> tuple[Lot, ...]:
    """The lots of a clear table."""
    lots, wrong = read_stock(text_of("stock.csv", "\n".join([",".join(COLUMNS), *rows, ""])))
    assert not wrong
    return lots


def needed(folder: Path, *rows: str, batches: int = 1, **more) -> Need:
    return reckon((Made("Test", plan(folder, **more), batches),), stock(*rows), DAY)


def item(need: Need, name: str):
    return next(one for one in need.items if one.name == name)
