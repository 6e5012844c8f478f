"""What the shipped files say of single substances. What is left out is left out by what it is, with the reason."""

from collections import defaultdict
from typing import NamedTuple

from procsheet.model.library import Library, material, shipped
from procsheet.model.material import Figure, Material

LIBRARY = Library(shipped())
MATERIALS = [material(block.text, [block], LIBRARY) for block in LIBRARY.all()]

MIXED_FORMS = {"solution", "dispersion", "gel", "paste"}        # of something in something else
MIXED_KINDS = {                                                 # mixtures of many, whose registry number names the sort and not a substance
    "wax", "butter", "plant oil", "essential oil", "extract", "fragrance", "silicone", "silicone elastomer", "starch", "protein", "encapsulate",
    "bead", "dispersant", "emulsifier ow", "emulsifier wo", "emulsifier wsi", "solubilizer", "associative thickener", "surfactant anionic", "surfactant amphoteric",
    "surfactant nonionic", "cationic surfactant", "amidoamine", "oil soluble film former", "film former", "gum", "cellulose ether", "clay", "organoclay"}


class Substance(NamedTuple):
    """A material that is one substance, and its registry number."""

    material: Material
    cas: str


def registered(one: Material) -> list[str]:
    return [entry.text for entry in one.entries("CAS")]


def is_one_substance(one: Material) -> bool:
    """Whether a data set of pure substances says anything of it."""
    return (len(registered(one)) == 1 and not one.has("composed of") and one.text("form") not in MIXED_FORMS and one.kind not in MIXED_KINDS
            and (one.assay is None or one.assay >= 0.98 or is_hydrate(one)))


def compared(one: Material, name: str) -> tuple[Figure, ...]:
    """Its own figures of a property; those of its kind are common practice and no claim of the material's."""
    return one.figures(name) if name in one.lines else ()


def is_hydrate(one: Material) -> bool:
    """Whether its assay is the share of dry salt in its crystals, and not its purity."""
    return one.text("form") in ("crystals", "powder") and one.name.endswith("hydrate")


def substances() -> list[Substance]:
    """Every material that is one substance. A number on three or more INCI names stands for a class (PEG-8, PEG-32, PEG-90)."""
    single = [Substance(one, registered(one)[0]) for one in MATERIALS if is_one_substance(one)]
    bearing = defaultdict(set)
    for one, cas in single:
        bearing[cas].add(one.text("INCI"))
    return [each for each in single if len(bearing[each.cas]) < 3]
