"""Polymers that swell in water: which wait for a base, where they meet the water, how they are wetted, where they swell."""

from procsheet.model.material import Material
from procsheet.syntax import tree
from procsheet.trace.trace import HIGH

WETTING = ("sprinkled", "into the vortex", "fast stirring", "vigorous stirring")
VERBS = ("disperse", "dissolve")
UNTIL = {"dispersed", "dissolved", "wetted", "lump-free"}
TAKES_TIME = ("heat", "cool", "hold", "hydrate", "mix", "stir", "homogenise", "mill", "rest", "set aside", "wait")


def wants_base(material: Material) -> bool:
    """Whether it is a carbomer that stays thin until a base has set it free."""
    return material.is_a("carbomer") and any("neutraliser" in words for words in material.words("needs"))


def is_alkali_swellable(material: Material) -> bool:
    """Whether it is a copolymer sold as an acid milk, that a base turns into a thickener."""
    return material.kind == "associative thickener" and wants_base(material)


def meets_water(batch, one):
    """The first moment that holds a polymer and more water than that; None where it never does."""
    return next((moment for moment in batch.trace.path(one.moment) if batch.watery(moment.contents) > moment.contents.get(one.row.code, 0.0)), None)


def swells(batch, one):
    """The moment from which a base has swollen a carbomer; None where none does."""
    return next((moment for moment in batch.trace.path(one.moment) if moment.facts.neutralised), None)


def part(batch, held: dict[str, float], *groups: str) -> float:
    """The share [1] of what a vessel holds that is active matter of these groups."""
    total = sum(held.values())
    return sum(mass * batch.graph.rows[code].material.share(*groups) for code, mass in held.items() if code in batch.graph.rows) / total if total else 0.0


def is_wetting(moment) -> bool:
    """Whether a step by itself keeps a powder from clotting."""
    step, rank = moment.step, moment.shear.rank
    return step.has(*WETTING) or step.verb in VERBS or bool(looks(step) & UNTIL) or rank.low >= HIGH or rank.high >= HIGH and step.has("speed")


def looks(step) -> set[str]:
    """The looks that end a step."""
    ends = [step.value(kind) for kind in ("until", "each until")]
    return {name for end in ends if isinstance(end, tree.States) for name in end.names}


def wetted(batch, moment, row, *groups: str) -> float:
    """How many parts of other liquids and powders, not water, a polymer is in before it meets the water; groups: the polymers it counts with."""
    premix = next((batch.trace.moments[parent].contents for parent in moment.parents if row.code in batch.trace.moments[parent].contents), None)
    held = premix or (moment.added if not moment.parents else {})
    own = sum(mass for code, mass in held.items() if code in batch.graph.rows and batch.graph.rows[code].material.is_a(*groups))
    return (sum(held.values()) - own - batch.watery(held)) / own if own else 0.0


def lets_air_out(moment) -> bool:
    """Whether what was stirred in can leave in this step."""
    return moment.step.verb in ("deaerate", "evacuate") or moment.cover == "vacuum" or "free of air" in looks(moment.step)


def first_name(material: Material) -> str:
    """What it is made of, as the limits name it: `sodium hydroxide` for any of its solutions."""
    return material.text("INCI").split(",")[0].strip().lower()


def swelling(batch, one, met, ends):
    """The step that ends the swelling of what met its water, and the seconds till then at most; None where nothing ends it, or nobody knows when.

    ends: whether a moment, given what its vessel held before, brings what ends it.
    """
    time, held = 0.0, met.contents
    for moment in batch.trace.path(met):
        if moment.index != met.index and ends(moment, held):
            return moment, time
        if "hydrated" in looks(moment.step) or moment.duration is None and (moment.step.has("until") or moment.step.verb in TAKES_TIME):
            return None
        time += moment.duration.high if moment.duration is not None else 0.0
        held = moment.contents
    return None
