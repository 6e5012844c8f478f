"""What is bought and what it costs, done by hand and by law."""

from decimal import Decimal
from fractions import Fraction
from math import ceil

import pytest
from hypothesis import given
from hypothesis import strategies as st

from procsheet.model.material import Material
from procsheet.need.money import Money, money, total
from procsheet.need.need import Made, reckon
from procsheet.need.packs import Pack, packs, purchase
from procsheet.source import source as text_of
from procsheet.syntax.parse import parse_data
from tests.need.made import DAY, HOUSE, THREE, item, needed, plan
from tests.sources import source

AMOUNTS = st.fractions(min_value=Fraction(1, 1000), max_value=5000, max_denominator=1000)
LOTS = ("widget salt solution,S1,6,kg,2027-01-31,32 %,released", "widget salt solution,S2,30,kg,2027-06-30,50 %,released")


def material(*lines: str) -> Material:
    read = parse_data(text_of("house.materials", "material widget\n" + "".join(f"    {line}\n" for line in lines)))
    assert not read.findings
    found: dict = {}
    for entry in read.tree.blocks[0].lines:
        found[entry.key] = (*found.get(entry.key, ()), entry)
    return Material("widget", ("widget",), lines=found, known=True)


@source("by hand", "100 kg: 8 kg pure at 40 % is 20 kg as bought, oil 10 kg, water the rest, 70 kg; packs of 5, 25 or 10 and 100 kg; 25 kg at 2 is 50 EUR, 10 kg at 4 is 40 EUR")
def test_three_rows_without_a_stock(tmp_path):
    """Need, packs, what is left over, what goes in and what is to be paid."""
    need = needed(tmp_path)
    told = {one.name: (one.needed, one.purchase.count, one.purchase.pack.size, one.left_over, one.cost.rounded(), one.purchase.cost.rounded()) for one in need.items}
    assert told == {"purified water": (70, 1, 100, 30, Decimal("7.00"), Decimal("10.00")), "widget salt solution": (20, 4, 5, 0, Decimal("120.00"), Decimal("120.00")),
                    "widget oil": (10, 1, 10, 0, Decimal("40.00"), Decimal("40.00"))}
    assert need.to_pay == (Money(Decimal(170), "EUR"),) and need.costs[0].totals == (Money(Decimal(167), "EUR"),)
    assert need.costs[0].fill.units == 1000 and need.costs[0].unit == (Money(Decimal("0.167"), "EUR"),) and not need.without


@source("by hand", "6 kg of 32 % stand for 6 x 32/40 = 4.8 kg; the other 15.2 kg are 15.2 x 40/50 = 12.16 kg of 50 %; 1.92 + 6.08 = 8 kg pure; water 70 + 20 - 18.16 = 71.84 kg; 71.84 x 0.10 + 18.16 x 6 + 10 x 4 = 156.144")
def test_three_rows_with_lots_of_another_strength(tmp_path):
    """A lot's strength corrects the amount exactly, and the closing row bears the difference."""
    need = needed(tmp_path, *LOTS)
    assert [(take.lot.lot, take.amount, take.stands_for) for take in need.takes] == [("S1", 6, Fraction(24, 5)), ("S2", Fraction(1216, 100), Fraction(152, 10))]
    assert sum(take.amount * take.lot.assay for take in need.takes) == 8
    assert item(need, "widget salt solution").needed == Fraction(1816, 100) and item(need, "purified water").needed == Fraction(7184, 100)
    assert sum(one.needed for one in need.items) == 100
    assert need.costs[0].totals == (Money(Decimal("156.144"), "EUR"),) and item(need, "widget salt solution").purchase.count == 0
    assert need.to_pay == (Money(Decimal(50), "EUR"),)


@source("by hand", "the same row written as bought, 20 %, of a material whose assay is known: 6 x 32/40 and 15.2 x 40/50 again")
def test_a_known_assay_corrects_as_pure_or_not(tmp_path):
    """A row of a material with an assay is corrected like one written as pure."""
    need = needed(tmp_path, *LOTS, rows=THREE.replace("8 % as pure", "20 %"))
    assert item(need, "widget salt solution").needed == Fraction(1816, 100) and item(need, "purified water").needed == Fraction(7184, 100)


@source("by hand", "12 kg of a lot of 40 % are there of 20 kg: 8 kg short, two packs of 5 kg, 2 kg left over")
def test_what_is_short_is_bought(tmp_path):
    """Only what no lot gives is bought."""
    salt = item(needed(tmp_path, "widget salt solution,S1,12,kg,2027-01-31,,released"), "widget salt solution")
    assert (salt.short, salt.purchase.count, salt.left_over, salt.needed) == (8, 2, 2, 20)


@source("by hand", "of 100 kg a corrector at most 0.3 % counts 0.3 kg, with a guide alone 0.1 kg; water is 100 - 10 - 0.1 = 89.9 kg, of which 2 kg are held back and some made up with")
@pytest.mark.parametrize("written, kilograms", [("as needed, about 0.1 %, at most 0.3 %", Fraction(3, 10)), ("as needed, about 0.1 %", Fraction(1, 10))])
def test_correctors_hold_back_and_make_up(written, kilograms, tmp_path):
    """A corrector counts at its cap, else at its guide; hold-back and make-up belong to the closing row."""
    rows = f"phase A: all\n    to 100 %  purified water\n        hold back 2 %\n    10 %  widget oil\nphase B: pH\n    {written}  widget salt solution"
    steps = "charge A into main|rinse side with the hold-back into main|adjust main to pH 5.0-5.5 with B|make up main with \"purified water\" to 100 %|fill main"
    need = needed(tmp_path, rows=rows, steps=steps)
    assert item(need, "widget salt solution").needed == kilograms and item(need, "purified water").needed == Fraction(899, 10)


@source("by hand", "99 kg of water at 1 % loss: 100 kg must be bought")
def test_loss_in_weighing_is_bought_on_top(tmp_path):
    """What the plant loses in weighing comes on top of every amount."""
    (tmp_path / "one.plant").write_text("plant One\nweighing loss 1 %\nvessel K1\n    main kettle\n    working 1-500 L\n", encoding="utf-8")
    need = needed(tmp_path, rows="phase A: all\n    to 100 %  purified water\n    1 %  widget oil", plant=tmp_path / "one.plant")
    assert item(need, "purified water").needed == 100 and item(need, "widget oil").needed == Fraction(100, 99)


@source("by hand", "0 to a half, and a figure with a unit")
@pytest.mark.parametrize("written", ["60 %", "-1 %", "0.5"])
def test_a_weighing_loss_that_is_none_is_told(written, tmp_path):
    """A loss of more than half, below nothing or without a unit is a finding."""
    from procsheet.plan.plant import read_plant
    from procsheet.syntax.parse import parse_plant
    read = parse_plant(text_of("one.plant", f"plant One\nweighing loss {written}\n"))
    found, wrong = read_plant(read.tree)
    assert [*read.findings, *wrong] and found.weighing_loss in (0, Fraction(1, 200))


@source("by hand", "what has no pack, no price or no figure is listed and counted")
def test_what_is_not_known_is_listed(tmp_path):
    """A material without a price, and one with an open dose, stay in the list."""
    need = needed(tmp_path, house=HOUSE.replace("    pack   25 kg at 2 EUR per kg\n    pack   10 kg at 4 EUR per kg\n", "    pack   10 kg\n"), rows=THREE + "\n    ? %  mystery gum\n    1 %  plain oil")
    assert set(need.without) == {"widget oil", "mystery gum", "plain oil"} == set(need.costs[0].without)
    assert item(need, "mystery gum").open and item(need, "plain oil").purchase is None and item(need, "widget oil").purchase.count == 1


@source("by hand", "each way a price is written, reckoned to one kg: 1000 x 0.004; 3/0.8 per kg at 0.8 kg/L; 30/5; a pack of 200 L at 0.8 kg/L is 160 kg")
@pytest.mark.parametrize("line, size, price, currency", [
    ("pack 25 kg at 4.10 EUR per kg, shelf life 24 months", 25, Fraction(41, 10), "EUR"), ("pack 500 g at 0.004 € per g", Fraction(1, 2), 4, "€"),
    ("pack 200 L at 3 USD per L", 160, Fraction(15, 4), "USD"), ("pack 5 kg at 30 EUR", 5, 6, "EUR"), ("pack 5 kg at 30 GBP a unit", 5, 6, "GBP"),
    ("pack 5 kg", 5, None, ""), ("pack 5 kg at 4-5 EUR per kg", 5, None, ""), ("pack 5 kg at ? EUR per kg", 5, None, ""), ("pack 5 kg at 30", 5, None, "")])
def test_how_a_price_is_written(line, size, price, currency):
    """Pack and price as they are written, the price for one kg; a range, an open figure or one without a currency is none."""
    assert packs(material("density 0.8 g/mL at 20 °C from memory", line)) == (Pack(Fraction(size), price if price is None else Fraction(price), currency),)


@source("by hand", "a drum by volume and a price by volume need a density")
def test_a_volume_without_a_density_is_no_pack():
    """Without a density a pack by volume is none, and a price by volume none."""
    assert packs(material("pack 200 L at 3 EUR per L")) == () and packs(material("pack 5 kg at 3 EUR per L")) == (Pack(Fraction(5)),)


@source("by hand", "1 EUR and 2 € are 3 EUR; 4 USD stay 4 USD")
def test_currencies_are_never_mixed(tmp_path):
    """One sum for each currency."""
    assert total([money(Fraction(1), "EUR"), money(Fraction(4), "USD"), money(Fraction(2), "€")]) == (Money(Decimal(3), "EUR"), Money(Decimal(4), "USD"))
    need = needed(tmp_path, house=HOUSE.replace("0.10 EUR", "0.10 USD"))
    assert [one.currency for one in need.to_pay] == ["EUR", "USD"] and [one.currency for one in need.costs[0].unit] == ["EUR", "USD"]


@source("by hand", "a law: whole packs cover the need, one fewer does not, and no other size costs less")
@given(AMOUNTS, st.lists(st.tuples(AMOUNTS, st.integers(0, 1000)), min_size=1, max_size=4))
def test_packs_cover_the_need_and_one_fewer_does_not(mass, sold):
    """Packs are whole, enough, not one too many, and the cheapest way of one size."""
    made = tuple(Pack(size, Fraction(price, 10), "EUR") for size, price in sold)
    bought = purchase(mass, made)
    assert bought.mass >= mass > bought.mass - bought.pack.size
    assert bought.mass * bought.pack.price == min(ceil(mass / pack.size) * pack.size * pack.price for pack in made)


@source("by hand", "a law: nothing is bought where nothing is needed")
@given(AMOUNTS)
def test_nothing_needed_nothing_bought(size):
    """No minimum order without a need."""
    assert purchase(Fraction(0), (Pack(size),)).count == 0


@source("by hand", "a law: n batches need n times one, and cost n times one; a product added adds its need")
@given(batches=st.integers(1, 40))
def test_need_and_cost_scale(batches, tmp_path_factory):
    """Need and cost of what goes in are in proportion to the batches, exactly; two products need the sum of both."""
    made = plan(tmp_path_factory.mktemp("made"), house=HOUSE.replace("    pack   10 kg at 4 EUR per kg\n", ""))
    one, many, two = (reckon(products, (), DAY) for products in ((Made("A", made),), (Made("A", made, batches),), (Made("A", made), Made("B", made, batches))))
    for first, more, both in zip(one.items, many.items, two.items):
        assert more.needed == batches * first.needed and both.needed == more.needed + first.needed
        assert more.cost.amount == pytest.approx(batches * first.cost.amount) and both.products == (0, 1)
    assert many.costs[0].batch == one.costs[0].totals
