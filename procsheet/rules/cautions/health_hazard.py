"""An active that may harm the unborn child, fertility or genes, or is suspected of it, is weighed in.

Why it matters
    The dose in the product is small; whoever weighs the neat active meets a thousand of them, day after day.

Wrong
    phase B: active
        0.3 %  retinyl palmitate
    method
        add B to main

Right
    phase B: active
        0.3 %  allantoin
    method
        add B to main

Limits
    Materials whose data carry H340, H341, H350, H351, H360 or H361 (with their letters), and retinoids. Once a vessel and material,
    with its weight.

Needs
    hazard

Source
    the materials' data; the safety data sheets and the plant's own procedures decide
"""

from procsheet.rules.caution import caution, entering, hazards, told

NAME = "health-hazard"
LEVEL = "CAUTION"
ADVICE = "No skin contact, no dust, no vapour; who is or may be pregnant leaves it to others, as the data sheet says. Wash before a break."
SAYS = {"h340": "may cause genetic defects", "h341": "suspected of genetic defects", "h350": "may cause cancer", "h351": "suspected of causing cancer",
        "h360": "may harm fertility or the unborn child", "h361": "suspected of harming fertility or the unborn child"}
SURE = ("h350", "h340", "h360", "h351", "h341", "h361")


def check(batch):
    seen: set = set()
    for moment in batch.trace.moments:
        for row in entering(moment, lambda material: bool(_class(material)), seen):
            yield caution(NAME, moment, f"{told(moment, [row])}: {SAYS[_class(row.material)]}", ADVICE)


def _class(material) -> str:
    """The gravest of its statements, '' for none."""
    found = {hazard[:4] for hazard in hazards(material)}
    return next((code for code in SURE if code in found), "h361" if material.kind == "retinoid" else "")
