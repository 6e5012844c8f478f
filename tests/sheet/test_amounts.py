"""Amounts in a column stand with their decimal points under each other."""

import pytest

from procsheet.sheet.amounts import breadth, paddings
from tests.sources import source


@source("by hand", "advance widths of the condensed face: a digit 540, a point 270 (regular 248, semibold 274) of 1000")
def test_points_meet():
    """A padding makes up for the digits that are missing behind the point, and for the point itself."""
    assert paddings(("86.40", "0.2400", "1.800", "12"), room=9) == pytest.approx((1.08, 0, 0.54, 2.43))


@source("by hand", "1250.00 is six digits and a point: 3.51 em, which leaves 0.39 of 3.9 em")
def test_a_padding_never_pushes_an_amount_out_of_its_column():
    """What is too wide to be aligned is moved only as far as there is room."""
    assert breadth("1250.00") == pytest.approx(3.51)
    assert paddings(("1250.00", "0.00500"), room=3.9) == pytest.approx((0.39, 0))


@source("by hand", "an amount of no letters")
def test_a_blank_is_not_moved():
    """An amount that was not given has no padding."""
    assert paddings(("", "1.50"), room=9) == (0, 0)
