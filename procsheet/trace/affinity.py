"""Which phase a row belongs to: its material's, or, where that is unknown, its neighbours' in the formula."""

from procsheet.model.method import Method, Row

GROUPS = (("oil phase", "oil"), ("silicone phase", "silicone"), ("alcohol", "alcohol"), ("water phase", "water"), ("powder", "powder"))
WORDS = (("water", "water"), ("aqueous", "water"), ("oil", "oil"), ("wax", "oil"), ("fat", "oil"), ("silicone", "silicone"), ("alcohol", "alcohol"))


NO_PHASE = ("perfume", "preservative", "gum", "electrolyte")       # what goes into any phase says nothing of its neighbours


def affinities(method: Method) -> dict[str, str]:
    """Row code -> 'water', 'oil', 'silicone', 'alcohol', 'powder', or '' where nothing says."""
    found = {row.code: of_row(row) for row in method.rows}
    for phase in method.phases:
        common = _common(found[row.code] for row in phase.rows if not row.material.is_a(*NO_PHASE)) or next((kind for word, kind in WORDS if word in phase.title.lower()), "")
        for row in phase.rows:
            if not found[row.code] and not row.material.known:
                found[row.code] = common
    return found


def of_row(row: Row) -> str:
    said = row.material.text("affinity")
    return said or next((kind for group, kind in GROUPS if row.material.is_a(group)), "")


def _common(kinds) -> str:
    """The one liquid phase that all known rows share."""
    known = {kind for kind in kinds if kind and kind != "powder"}
    return known.pop() if len(known) == 1 else ""
