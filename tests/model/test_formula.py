"""Rows to exact amounts."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.made import HAND_CREAM, compiled, grams, method, told
from tests.sources import source

WATER = "phase A: water\n    to 100 %  purified water\n"


@source("by hand", "0.10 % as pure of a 38 % solution is 0.10 / 0.38 = 2.6316 g; 40 + 2 + 2.6316 + 50 + 60 + 30 + 9 + 3 = 196.63 g; 1000 - 196.63 = 803.37 g")
def test_the_hand_cream_to_the_gram():
    """The rows with a figure make 196.63 g of 1 kg, and the closing row is what they leave, exactly."""
    rows = compiled(HAND_CREAM).method.rows
    figures = sum((row.mass for row in rows if row.kind == "figure"), Fraction(0))
    closing = next(row for row in rows if row.kind == "closing")
    assert figures == Fraction(194) / 1000 + Fraction(1, 1000) / Fraction(38, 100)
    assert round(grams(figures), 2) == 196.63
    assert round(grams(closing.mass), 2) == 803.37
    assert figures + closing.mass == 1


@source("by hand", "the cap of 0.3 % of 1 kg is 3.00 g, the guide of 0.1 % is 1.00 g, the hold-back of 1.5 % is 15.00 g")
def test_guides_caps_and_hold_backs():
    """A corrector carries its guide and cap, the closing row what is held back."""
    rows = {row.code: row for row in compiled(HAND_CREAM).method.rows}
    assert (rows["D1"].guide, rows["D1"].cap) == (Fraction(1, 1000), Fraction(3, 1000))
    assert rows["A1"].hold_back == Fraction(15, 1000)


@source("by hand", "a law: what closes makes the whole")
@given(st.lists(st.integers(1, 900), min_size=1, max_size=6))
def test_the_closing_row_closes_exactly(hundredths):
    """Whatever the figures, the rows of a closed formula make one basis batch, exactly."""
    rows = "".join(f"    {one / 100:.2f} %  glycerin\n" for one in hundredths)
    text = method(WATER + "phase B: rest\n" + rows, "    charge A into main\n    add B to main\n    fill main")
    made = compiled(text).method
    assert sum(row.mass for row in made.rows) == 1


@source("by hand", "170 g of 1 kg at 100 g basis is 1.7 times the batch; a batch over 100 % stops")
@pytest.mark.parametrize("rows, level", [("    99.5 %  glycerin", "STOP"), ("    101.1 %  glycerin", "STOP"), ("    99.95 %  glycerin", "WARN"), ("    100 %  glycerin", None)])
def test_a_formula_without_closing_row_must_add_up(rows, level):
    """A total over a tenth of a per cent off stops, a smaller difference warns, none is silent."""
    made = compiled(method(f"phase A: all\n{rows}", "    charge A into main\n    fill main"))
    assert [finding.level for finding in made.findings if finding.name == "formula-total"] == ([level] if level else [])


@source("by hand", "45-55 % at the middle is 50 %: 500 g of 1 kg")
def test_a_range_is_made_at_its_middle_and_said():
    """A row with a range and no figure is made at the middle, and a note says so."""
    made = compiled(method(WATER + "phase B: b\n    45-55 %  glycerin", "    charge A into main\n    add B to main\n    fill main"))
    assert made.method.rows[1].mass == Fraction(1, 2)
    assert "amount-range" in told(made, "NOTE")


@source("by hand", "1 g + 2 g + 3 g = 6 g; as shares 1/6, 1/3, 1/2")
def test_the_sum_is_the_basis():
    """With `basis the sum` the rows are the batch."""
    text = method("phase A: a\n    1 g  glycerin\n    2 g  propylene glycol\n    3 g  purified water", "    charge A into main\n    fill main", basis="the sum")
    made = compiled(text)
    assert made.method.mass == Fraction(6, 1000)
    assert "formula-total" not in told(made)


@source("by hand", "q.s. in an adjust step, of water, and of anything else")
def test_plain_qs_is_read_by_its_use():
    """Plain q.s. is a corrector in an adjust step, closes the formula for water, and is an open dose else."""
    text = method("phase A: a\n    q.s.  purified water\n    q.s.  citric acid\n    q.s.  fragrance",
                  '    charge "purified water" into main\n    add "fragrance" to main\n    adjust main to pH 5 with "citric acid"\n    fill main')
    made = compiled(text)
    assert [row.kind for row in made.method.rows] == ["closing", "corrector", "open"]
    assert told(made).count("qs-reading") == 3


@source("by hand", "0.30 x 0.30 x 0.90 = 8.1 % and 0.30 x 0.30 x 0.10 = 0.9 % (product label pages print 8.1 and 0.9)")
def test_a_material_made_by_another_method_expands(tmp_path):
    """A material made from another method carries that method's materials as mass shares."""
    wax = method("phase A: a\n    90 g  cetostearyl alcohol\n    10 g  sodium lauryl sulfate", "    charge A into main\n    fill main", basis="the sum")
    ointment = method("phase A: a\n    300 g  emulsifying wax x\n    500 g  white petrolatum\n    200 g  liquid paraffin", "    charge A into main\n    fill main", basis="the sum")
    (tmp_path / "wax.method").write_text(wax)
    (tmp_path / "ointment.method").write_text(ointment)
    (tmp_path / "own.materials").write_text('material emulsifying wax x\n    made from "wax.method"\nmaterial emulsifying ointment x\n    made from "ointment.method"\n')
    cream = 'product C\ntype oil-in-water emulsion\nbasis 1 kg\nmaterials "own.materials"\n\nphase A: a\n    30 %  emulsifying ointment x\n    to 100 %  purified water\n\n' \
            "vessel main\n\nmethod\n    charge A into main\n    fill main\n"
    made = compiled(cream, folder=tmp_path).method
    parts = {part.name: share * made.rows[0].mass for part, share in made.rows[0].material.parts}
    assert parts["cetearyl alcohol"] == Fraction(81, 1000)
    assert [share for name, share in parts.items() if "lauryl sulfate" in name] == [Fraction(9, 1000)]


@source("by hand", "a circle of two methods")
def test_methods_that_make_each_other_are_found(tmp_path):
    """A material made from itself by way of another method is a finding, not an endless search."""
    one = method("phase A: a\n    100 %  mix two", "    charge A into main\n    fill main")
    two = method("phase A: a\n    100 %  mix one", "    charge A into main\n    fill main")
    (tmp_path / "one.method").write_text(one)
    (tmp_path / "two.method").write_text(two)
    (tmp_path / "own.materials").write_text('material mix one\n    made from "one.method"\nmaterial mix two\n    made from "two.method"\n')
    made = compiled(one.replace("basis 1 kg\n", 'basis 1 kg\nmaterials "own.materials"\n'), folder=tmp_path)
    assert "made-in-a-circle" in told(made, "STOP")


@source("by hand", "a name outside the folder")
@pytest.mark.parametrize("path", ["/etc/passwd", "../other.materials", "a/../../b.materials"])
def test_nothing_outside_the_folder_is_read(path):
    """A file named outside the method's folder is a finding and is not opened."""
    made = compiled(method(WATER, "    charge A into main\n    fill main").replace("basis 1 kg\n", f'basis 1 kg\nmaterials "{path}"\n'))
    assert any("outside the folder" in finding.title for finding in made.findings)


@source("by hand", "lye and soap oils are weighed")
def test_alkali_by_volume_stops():
    """An alkali measured by volume stops."""
    made = compiled(method(WATER + "phase B: b\n    20 mL  sodium hydroxide", "    charge A into main\n    add B to main\n    fill main"))
    assert "weigh-not-measure" in told(made, "STOP")
