"""What becomes true of a vessel's content: emulsified and what is outside, neutralised, activated."""

from procsheet.model.method import Row, Step
from procsheet.trace.trace import NONE, Facts, Shear

LEAST = 0.01                            # a phase under 1 % of the vessel is no phase (common practice, no source)
AQUEOUS = {"solution", "dispersion", "gel"}
TYPES = {"oil-in-water emulsion": "water", "water-in-oil emulsion": "oil", "water-in-silicone emulsion": "oil", "multiple emulsion": "water"}


def after(before: Facts, poured: list[Facts], step: Step, rows: list[tuple[Row, float]], affinities: dict[str, str], shear: Shear, kind: str, moment: int) -> Facts:
    """The facts at the end of a moment, from those at its start and those of the vessels added."""
    facts = _joined(before, poured)
    total = sum(mass for _, mass in rows)
    if total > 0 and not facts.emulsified and two_phases(rows, affinities, total, kind) and (shear.rank.high > NONE or step.verb == "emulsify"):
        facts = facts._replace(emulsified=True, outside=outside(rows, affinities, kind), met=moment)
    if not facts.neutralised and any(row.material.is_a("carbomer") for row, _ in rows) and any(
            row.material.is_a("neutraliser", "base") or step.verb == "neutralise" for row, _ in rows):
        facts = facts._replace(neutralised=True)
    if not facts.activated and any(row.material.is_a("organoclay") for row, _ in rows) and (
            step.verb == "activate" or any(row.material.is_a("polar activator") for row, _ in rows)):
        facts = facts._replace(activated=True)
    return facts


def _joined(before: Facts, poured: list[Facts]) -> Facts:
    out = before
    for facts in poured:
        out = Facts(out.emulsified or facts.emulsified, out.outside or facts.outside, out.met if out.met is not None else facts.met,
                    out.neutralised or facts.neutralised, out.activated or facts.activated, out.thick or facts.thick)
    return out


def two_phases(rows: list[tuple[Row, float]], affinities: dict[str, str], total: float, kind: str) -> bool:
    """A water phase and an oil phase, each more than a trace; perfume makes no oil phase, and what only dissolves in water makes no water phase."""
    if kind not in TYPES and not any(row.material.is_a("emulsifier") for row, _ in rows):
        return False
    water = sum(mass for row, mass in rows if affinities.get(row.code) == "water" and carries(row))
    oil = sum(mass for row, mass in rows if affinities.get(row.code) in ("oil", "silicone") and not row.material.is_a("perfume", "preservative"))
    return water / total > LEAST and oil / total > LEAST


def carries(row: Row) -> bool:
    """Water, or a liquid that goes with it: not a preservative or a powder of the water phase that stands in the oil."""
    material = row.material
    return not material.known or material.is_a("water", "polyol") or material.text("form") in AQUEOUS and not material.is_a("preservative", "emulsifier")


def outside(rows: list[tuple[Row, float]], affinities: dict[str, str], kind: str) -> str:
    """What is outside: the stronger emulsifier decides, not the order of pouring; with none known, what the product is meant to be."""
    inward = sum(mass for row, mass in rows if row.material.is_a("w/o emulsifier"))
    outward = sum(mass for row, mass in rows if row.material.is_a("o/w emulsifier") and not row.material.is_a("w/o emulsifier"))
    if inward == outward or kind in TYPES and min(inward, outward) > 0:
        return TYPES.get(kind, "water")
    return "oil" if inward > outward else "water"
