"""What is still lacking of a material: the figures its kind cannot do without, and those that are only remembered."""

from typing import NamedTuple

from procsheet.model.material import Material


class Need(NamedTuple):
    """A figure that is wanted. what: the property, as it is written in a block; why: what makes it wanted."""

    material: str
    what: str
    why: str


def lacking(material: Material) -> list[Need]:
    """Decisive properties that are not said, or are written `?`."""
    return [Need(material.name, word, f"decisive for {material.kind}") for word in material.decisive if not material.has(word)]


def remembered(material: Material) -> list[Need]:
    """Decisive figures that rest on memory alone."""
    known = [(word, material.figure(word)) for word in material.decisive]
    return [Need(material.name, word, f"{figure.written} is from memory; decisive for {material.kind}") for word, figure in known if figure is not None and figure.from_memory]
