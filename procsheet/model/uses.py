"""What a product is used as: left on or rinsed off, on which part of the body. Its header says so, else its name and its type, where they are clear."""

import re

from procsheet.model.method import Header
from procsheet.syntax.properties import USES

ROW = {use: row for row in USES.values() for use in row}
NO_COSMETIC = USES["no cosmetic"]

# words of a product's name, and what they say of its use (common practice, no source); the first row that fits says the way it is used
WAYS = (
    ("oral care", r"tooth\w*|teeth|mouthwash|dentifrice|oral"),
    ("", r"micellar|mask|remover|peel|oxidative|colou?r\w*|dye|depilat\w*|foam|mousse|base|stock"),     # may be either
    ("rinse-off", r"shampoo|conditioner|\w*wash|cleans\w+|soap|scrub|bath|shower|rinse"),
    ("leave-on", r"cream|lotion|balm|stick|serum|butter|sun\w*|deo\w*|antiperspirant|roll-on|foundation|lipstick|gloss|mascara|primer|toner|ointment|night|day|handrub|saniti[sz]er|hand gel"),
)
PARTS = (("face", r"face|facial|foundation"), ("hands", r"hands?"), ("body", r"body"), ("hair", r"hair|shampoo|conditioner|scalp"), ("lips", r"lips?|lipstick"),
         ("eyes", r"eyes?|eyebrow|mascara"), ("nails", r"nails?|cuticle"), ("spray", r"spray|aerosol"), ("deodorant", r"deo\w*|antiperspirant"), ("baby care", r"baby"))
TYPES = {"soap": "rinse-off", "water-in-oil emulsion": "leave-on", "water-in-silicone emulsion": "leave-on", "multiple emulsion": "leave-on"}


def uses(header: Header) -> frozenset[str]:
    """What is known of the use; empty where nothing is."""
    if header.used_as:
        return frozenset(header.used_as)
    name = header.product.lower()
    way = next((use for use, words in WAYS if _named(words, name)), "") or TYPES.get(header.type, "")
    return frozenset(filter(None, (way, *(use for use, words in PARTS if _named(words, name)))))


def _named(words: str, name: str) -> bool:
    return re.search(rf"(?<!\w)(?:{words})(?!\w)", name) is not None


def fits(wanted: frozenset[str], known: frozenset[str]) -> bool | None:
    """Whether a product is all of this; None where it is not known."""
    found = [True if use in known else False if _excluded(use, known) else None for use in wanted]
    return False if False in found else None if None in found else True


def _excluded(use: str, known: frozenset[str]) -> bool:
    """Another way or part of the body rules a use out; a form is ruled out where the way is known and the form is not named."""
    return any(other in known for other in (USES["way"] if use in USES["form"] else ROW.get(use, ())))
