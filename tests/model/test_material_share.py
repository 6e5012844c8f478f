"""How much of a material is what the checks count."""

from tests.made import compiled, method
from tests.sources import source


def share(name: str, group: str) -> float:
    made = compiled(method(f"phase A: all\n    to 100 %  water\n    2 %  {name}\n", "    charge A into main\n    fill main\n"))
    return made.method.rows[1].material.share(group)


@source("by hand", "60 % of a 60 % solution, all of crystals, none of glycerin")
def test_of_a_solution_only_what_is_dissolved_counts():
    """Of a solution its strength counts; the assay of crystals is their hydrate or purity, so they count whole."""
    assert share("sodium lactate 60 % solution", "electrolyte") == 0.6
    assert share("magnesium sulfate heptahydrate", "electrolyte") == 1.0
    assert share("glycerin", "electrolyte") == 0.0
    assert share("carbomer 3 % dispersion", "carbomer") == 0.03
