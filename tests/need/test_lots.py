"""Which lots are taken: laws of the allocation, and rows that are not clear."""

from collections import Counter
from datetime import date, timedelta
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from procsheet.model.material import Material
from procsheet.need.allocate import allocate
from procsheet.need.demands import Demand
from procsheet.need.lots import COLUMNS, Lot, read_stock
from procsheet.source import Span
from procsheet.source import source as text_of
from tests.need.made import DAY, needed, stock
from tests.sources import source

AMOUNTS = st.fractions(min_value=Fraction(1, 100), max_value=100, max_denominator=100)
STRENGTHS = st.fractions(min_value=Fraction(3, 10), max_value=Fraction(9, 20), max_denominator=100)
GOOD = "glycerin,G1,25,kg,2027-01-31,99.5 %,released"


@st.composite
def asked(draw) -> tuple[Demand, ...]:
    """A dose with a strength, one without, and a closing row for each of up to three products."""
    out = []
    for product in range(draw(st.integers(1, 3))):
        for name, assay, closing in (("acid", Fraction(2, 5), False), ("oil", None, False), ("water", None, True)):
            out.append(Demand(product, Material(name), frozenset([name]), draw(AMOUNTS) + 1000 * closing, assay, closing))
    return tuple(out)


@st.composite
def stocks(draw) -> tuple[Lot, ...]:
    lots = []
    for line in range(draw(st.integers(0, 10))):
        expires = draw(st.none() | st.integers(-3, 3).map(lambda days: DAY + timedelta(days=days)))
        lots.append(Lot(draw(st.sampled_from(["acid", "oil", "water", "salt"])), f"L{line}", draw(AMOUNTS), False, expires, draw(st.none() | STRENGTHS), "share",
                        draw(st.sampled_from(["released", "released", "released", "blocked", "quarantine"])), Span("stock.csv", line + 2, 1, 2)))
    return tuple(lots)


@source("by hand", "laws: no lot gives more than it has; none that has expired, is not released or is another material gives anything")
@given(asked(), stocks())
def test_no_lot_gives_what_it_must_not(demands, lots):
    """Lots give what they have, and only good ones of the material give."""
    given_ = allocate(demands, lots, DAY)
    for lot in lots:
        out = sum(take.amount for take in given_.takes if take.lot == lot)
        assert 0 <= out <= lot.amount
        if lot.status != "released" or lot.expires is not None and lot.expires < DAY:
            assert out == 0
    assert all(take.lot.material == take.demand.material.name and take.amount > 0 for take in given_.takes)


@source("by hand", "a law: a lot is only touched when every good one that expires before it is empty")
@given(asked(), stocks())
def test_what_expires_first_goes_first(demands, lots):
    """First expired, first out; what does not expire goes last."""
    given_ = allocate(demands, lots, DAY)
    out = Counter()
    for take in given_.takes:
        out[take.lot] += take.amount
    for later in out:
        assert all(out[lot] == lot.amount for lot in lots if lot.material == later.material and lot.is_good(DAY) and (lot.expires or date.max) < (later.expires or date.max))


@source("by hand", "a law: what is taken, in the strength reckoned with, and what is short make up each need; nothing is short while a good lot is left")
@given(asked(), stocks())
def test_parts_make_the_need_or_the_shortage_is_told(demands, lots):
    """The parts sum to the need, the strength is kept, and the closing row keeps each product's weight, exactly."""
    given_ = allocate(demands, lots, DAY)
    for was, now, short in zip(demands, given_.demands, given_.short):
        mine = [take for take in given_.takes if (take.demand.product, take.demand.key) == (was.product, was.key)]
        assert sum(take.amount for take in mine) + short == now.amount
        assert was.closing or sum(take.stands_for for take in mine) + short == was.amount
        assert all(take.stands_for == take.amount * ((take.lot.assay or was.assay) / was.assay if was.assay else 1) for take in mine)
        if short:
            assert all(sum(take.amount for take in given_.takes if take.lot == lot) == lot.amount for lot in lots if lot.material == was.key and lot.is_good(DAY))
    for product in {demand.product for demand in demands}:
        assert sum(now.amount - was.amount for was, now in zip(demands, given_.demands) if was.product == product) == 0


@source("by hand", "a lot is good to and with its last day; 2 March 2026")
@pytest.mark.parametrize("expires, taken", [("2026-03-01", 0), ("2026-03-02", 10), ("2026-03-03", 10), ("", 10)])
def test_the_last_day(expires, taken, tmp_path):
    """Expired is what has its last day behind it, and that is told."""
    need = needed(tmp_path, f"widget oil,O1,20,kg,{expires},,released")
    assert sum(take.amount for take in need.takes) == taken and [one.name for one in need.findings] == ["lot-expired"] * (not taken)


@source("by hand", "each state a lot may be in")
@pytest.mark.parametrize("row, name", [
    ("widget oil,O1,20,kg,,,quarantine", "lot-not-released"), ("widget oil,O1,20,kg,,,Blocked", "lot-not-released"), ("widget oil,O1,20,L,,,released", "stock-row"),
    ("widget salt solution,S1,20,kg,,0.4 %,released", "lot-assay"), ("widget salt solution,S1,20,kg,,40 % v/v,released", "lot-assay"), ("widget salt solution,S1,20,kg,,81 %,released", "lot-assay")])
def test_lots_that_are_kept_out(row, name, tmp_path):
    """What is not released, cannot be weighed, or has a strength that cannot be meant gives nothing, and is told with its line."""
    need = needed(tmp_path, row)
    assert not need.takes and [(one.name, one.at.span.line) for one in need.findings] == [(name, 2)] and need.findings[0].fix


@source("by hand", "twice the strength is the last that is believed: 20 kg of 40 % are 10 kg of 80 %")
def test_the_far_end_of_a_strength(tmp_path):
    """At the limit the lot is taken."""
    assert [take.amount for take in needed(tmp_path, "widget salt solution,S1,20,kg,,80 %,released").takes] == [10]


@source("by hand", "without a closing row nobody bears the 10 kg; where the closing row is 2 kg, weaker lots use it up")
def test_a_strength_nobody_bears_is_told(tmp_path):
    """The batch would not weigh what its formula says, and that is told."""
    weak = "widget salt solution,S1,90,kg,,25 %,released"
    short = needed(tmp_path, weak, rows="phase A: all\n    to 100 %  purified water\n    8 % as pure  widget salt solution\n    78 %  widget oil")
    assert [(one.name, one.level) for one in short.findings] == [("lot-strength", "STOP")]
    bare = needed(tmp_path, weak, rows="phase A: all\n    20 %  widget salt solution\n    80 %  widget oil")
    assert [(one.name, one.level) for one in bare.findings] == [("lot-strength", "WARN")] and "+1.2e+04 g" in bare.findings[0].title


@source("by hand", "every way a row can be unclear; the good row beside it is kept")
@pytest.mark.parametrize("row, says", [
    (",G2,1,kg,,,released", "no material"), ("glycerin,,1,kg,,,released", "no lot"), ("glycerin,G2,,kg,,,released", "no amount"), ('glycerin,G2,"1,5",kg,,,released', "no amount"),
    ("glycerin,G2,-1,kg,,,released", "no amount"), ("glycerin,G2,nan,kg,,,released", "no amount"), ("glycerin,G2,1e3,kg,,,released", "no amount"), ("glycerin,G2,1,,,,released", "no unit"),
    ("glycerin,G2,1,barrel,,,released", "no unit"), ("glycerin,G2,1,°C,,,released", "no unit"), ("glycerin,G2,1,kg,31.01.2027,,released", "no day"),
    ("glycerin,G2,1,kg,2027-02-30,,released", "no day"), ("glycerin,G2,1,kg,,38,released", "no strength"), ("glycerin,G2,1,kg,,0 %,released", "no strength"),
    ("glycerin,G2,1,kg,,strong,released", "no strength"), ("glycerin,G2,1,kg,,,", "no status"), ("glycerin,G2,1,kg,,,fine", "no status"), ("1,2-hexanediol,G2,1,kg,,,released", "8 cells"),
    ("glycerin,G2,1,kg", "4 cells")])
def test_a_row_that_is_not_clear_gives_nothing(row, says):
    """It is told with file, line, cause and fix, and the lots beside it stay."""
    lots, wrong = read_stock(text_of("stock.csv", "\n".join([",".join(COLUMNS), GOOD, row])))
    assert [lot.lot for lot in lots] == ["G1"]
    assert [(one.name, one.at.span.file, one.at.span.line) for one in wrong] == [("stock-row", "stock.csv", 3)]
    assert says in wrong[0].title and wrong[0].why and wrong[0].fix


@source("by hand", "the same lot in two rows: nobody knows how much there is, or whether it is blocked")
def test_a_lot_in_two_rows_gives_nothing():
    """Neither row is taken from."""
    lots, wrong = read_stock(text_of("stock.csv", "\n".join([",".join(COLUMNS), GOOD, "Glycerin,g1,5,kg,,,blocked"])))
    assert not lots and [one.at.span.line for one in wrong] == [2, 3]


@source("by hand", "a table without its columns, with broken quotes, or empty")
@pytest.mark.parametrize("text", ["", "material,lot\nglycerin,G1\n", ",".join(COLUMNS) + ",lot\n" + GOOD + ",G2\n", ",".join(COLUMNS) + '\n"glycerin,G1\n', GOOD])
def test_a_file_that_is_no_stock(text):
    """It gives no lots and says what its first line should be, or which line is broken."""
    lots, wrong = read_stock(text_of("stock.csv", text))
    assert not lots and len(wrong) == 1 and wrong[0].fix


@source("by hand", "semicolons, quotes, columns in another order, one more, a name over two lines before the bad row of line 4")
def test_tables_as_spreadsheets_write_them():
    """What spreadsheets write is read, and lines are counted as they stand in the file."""
    text = 'lot;material;shelf;unit;amount;status;assay;expires\nG1;"1,2-hexanediol";A3;kg;2.5;Released;99 %;2027-01-31\nG2;"two\nlines";;kg;1;released;;\nG3;x;;kg;?;released;;\n'
    lots, wrong = read_stock(text_of("stock.csv", text.replace("\n", "\r\n")))
    assert [(lot.lot, lot.material, lot.amount, lot.assay) for lot in lots] == [("G1", "1,2-hexanediol", Fraction(5, 2), Fraction(99, 100)), ("G2", "two\nlines", 1, None)]
    assert [one.at.span.line for one in wrong] == [5]


@source("by hand", "any text")
@given(st.text() | st.lists(st.text(alphabet='ag1.,;"%\n -'), max_size=8).map(lambda rows: "\n".join([",".join(COLUMNS), *rows])))
def test_any_text_is_read_or_told(text):
    """No table ends in an exception, and every lot read has a name, a number and an amount."""
    lots, wrong = read_stock(text_of("stock.csv", text))
    assert all(lot.material and lot.lot and lot.amount >= 0 for lot in lots) and all(one.title and one.fix for one in wrong)


@source("by hand", "20 kg of solution by its other name, a drum of 5 L at 1.2 kg/L is 6 kg")
def test_other_names_and_volumes(tmp_path):
    """A stock may call a material by its other name, and keep it by volume where its density is known."""
    house = "material widget oil\n    also called  drum oil\n    density  1.2 g/mL at 20 °C  from memory\n    pack  5 kg\n"
    need = needed(tmp_path, "Drum Oil,O1,5,L,,,released", house=house)
    assert [take.amount for take in need.takes] == [6]
    assert len(stock(GOOD)) == 1
