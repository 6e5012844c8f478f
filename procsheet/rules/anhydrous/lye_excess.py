"""A soap is given more lye than its fats take up, or far less.

Why it matters
    Lye that no fat takes up stays in the bar and burns the skin. Two figures that changed places, or soda figures with potash, are enough for it, and
    the soap looks like any other.

Wrong
    product Bar Soap
    type soap
    basis the sum
    phase A: fats
        700 g  olive oil
        300 g  coconut oil
    phase B: lye
        300 g  purified water
        183 g  sodium hydroxide
    vessel pot
    vessel jug
    method
        charge "purified water" into jug
        dissolve "sodium hydroxide" in jug slowly
        cool jug to 40 °C
        charge A into pot
        heat pot to 40 °C
        add jug to pot slowly with stick blender
        fill pot

Right
    product Bar Soap
    type soap
    basis the sum
    phase A: fats
        700 g  olive oil
        300 g  coconut oil
    phase B: lye
        300 g  purified water
        140 g  sodium hydroxide
    vessel pot
    vessel jug
    method
        charge "purified water" into jug
        dissolve "sodium hydroxide" in jug slowly
        cool jug to 40 °C
        charge A into pot
        heat pot to 40 °C
        add jug to pot slowly with stick blender
        fill pot

Limits
    The most that all fats of the formula can take up, by the usual range of each; where a fat has no line, by that of its kind. Soda and potash
    count as the pure alkali in them. One per cent above is a warning, five a stop. Soda for less than three quarters of the fat is a warning: the bar stays soft.

Exceptions
    Alkali that a later step measures in (`as needed`). This is no recipe: the saponification values of the lots decide, and the soap is tested.

Needs
    assay

Source
    from memory: ranges of food standards; molar masses
"""

from procsheet.findings import Finding, Label
from procsheet.model.material import read_figure
from procsheet.rules.words import share, weight

NAME = "lye-excess"
LEVEL = "STOP"
UNSURE = SOFT = "WARN"                   # the lots may differ a little from the usual ranges
SODA_IN_POTASH = 39.997 / 56.106        # kg of soda that do the work of a kg of potash: molar masses
WHY = "Lye that no fat takes up stays in the soap and burns the skin; fat that finds no lye leaves it soft and rancid. Both look like any other soap."


def check(batch):
    alkalis = [row for row in batch.method.rows if row.material.is_a("base") and row.material.has("corrosive") and row.kind == "figure" and row.mass]
    fats = [row for row in batch.method.rows if row.material.is_a("saponifiable") and row.mass]
    if batch.type != "soap" or not alkalis or not fats:
        return
    soda = sum(float(row.mass) * row.material.share("base") * _pure(row) for row in alkalis)
    least, most = (sum(float(row.mass) * takes for row, takes in zip(fats, ends)) for ends in zip(*(_takes(batch, row) for row in fats)))
    largest = max(alkalis, key=lambda row: row.mass)
    over = soda / most - 1
    if over > batch.limit(NAME, "a warning"):
        yield _finding(batch, LEVEL if over > batch.limit(NAME, "a stop") else UNSURE, largest, fats, f"{weight(soda)} of soda, reckoned pure, is {share(over)} more than the fats can take up", "free lye", most)
    elif soda < batch.limit(NAME, "of what") * least and not any(row.material.is_a("potassium salt") for row in alkalis):
        yield _finding(batch, SOFT, largest, fats, f"{weight(soda)} of soda, reckoned pure, turns {share(soda / least)} of the fats into soap at most", "too little", least)


def _pure(row) -> float:
    """kg of soda that a kg of pure alkali stands for; of a solid, also how strong it is."""
    strength = float(row.material.assay) if row.material.assay is not None and row.material.share("base") == 1.0 else 1.0
    return strength * (SODA_IN_POTASH if row.material.is_a("potassium salt") else 1.0)


def _takes(batch, row) -> tuple[float, float]:
    """kg of soda that a kg of a fat takes up, from the least to the most."""
    names = (row.material.name, f"any {row.material.kind}", "any fat")
    lines = next(filter(None, (batch.thresholds(NAME, f"for {name}") for name in names)))
    figure = next(figure for line in lines if (figure := read_figure(line)) is not None)
    return figure.value.low, figure.value.high


def _finding(batch, level, row, fats, title, label, wanted) -> Finding:
    return Finding(level, NAME, title, Label(row.span, label), tuple(Label(fat.span, "takes up lye") for fat in sorted(fats, key=lambda one: -one.mass)[:3]), WHY,
                   f"Reckon it again from the saponification values of the lots: all fats together take up about {weight(wanted)} of pure soda "
                   f"({weight(wanted / SODA_IN_POTASH)} of potash), less what is to stay fat.", "ranges of food standards, from memory", material=row.name)
