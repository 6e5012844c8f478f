"""The header of a method: its lines, and what every method needs."""

from procsheet.findings import Finding
from procsheet.source import Source, Span
from procsheet.syntax import entries, properties, slips, tree
from procsheet.syntax.lines import PLAIN, Line
from procsheet.syntax.slips import slip

SEVERAL = ("materials", "yield", "bulk keeps")
# what other papers call a line of the header
MEANT = {
    **dict.fromkeys(("name", "title", "product name"), "The name of the product is written: product Harbour Hand Cream"),
    **dict.fromkeys(("client", "customer", "for"), 'Write: made for "Harbour Soap Company"'),
    **dict.fromkeys(("author", "prepared by", "by", "issued by"), 'Write: written by "R.T."'),
    **dict.fromkeys(("approved by", "reviewed by", "verified by", "approved"), 'Write: checked by "M.O."'),
    **dict.fromkeys(("version", "rev", "rev.", "issue", "edition"), "Write: revision 3"),
    **dict.fromkeys(("batch", "batch size", "size", "quantity"),
                    "The batch the formula is written for is: basis 1 kg; the batch to make is chosen when the papers are made."),
    **dict.fromkeys(("product type", "kind", "category"), "Write: type oil-in-water emulsion"),
    **dict.fromkeys(("product class", "use", "used for"), "Write: used as leave-on"),
    **dict.fromkeys(("product code", "number", "reference", "ref", "ref."), "Write: code HHC-014"),
    **dict.fromkeys(("plant", "tested on", "made on"), 'Write: proven on "bench.plant"'),
    "date": 'The date stands behind the revision: revision 3 because "more glycerin" on 2026-03-02',
    **dict.fromkeys(("shade", "shades", "variant", "colour", "color"),
                    "One file holds one shade. Write a file for each shade, and the common part as a method of its own "
                    "that they use as a material."),
    "density": "The density of the product is a release limit: density 0.98-1.02 g/mL at 20 °C",
}
TYPES_MEANT = {
    **dict.fromkeys(("o/w", "o/w emulsion", "oil in water", "oil in water emulsion", "ow"), ("oil-in-water emulsion",)),
    **dict.fromkeys(("w/o", "w/o emulsion", "water in oil", "water in oil emulsion", "wo"), ("water-in-oil emulsion",)),
    **dict.fromkeys(("w/s", "w/si", "w/si emulsion", "water in silicone", "water in silicone emulsion"), ("water-in-silicone emulsion",)),
    **dict.fromkeys(("w/o/w", "w/o/w emulsion", "o/w/o"), ("multiple emulsion",)),
    **dict.fromkeys(("emulsion", "cream", "lotion", "sunscreen", "milk", "gel-cream"), properties.TYPES[:3]),
    **dict.fromkeys(("shampoo", "wash", "body wash", "shower gel", "foam bath", "mousse", "conditioner base"), ("surfactant solution",)),
    **dict.fromkeys(("balm", "stick", "ointment", "lipstick", "salve", "oil", "body oil", "lip balm"), ("anhydrous",)),
    **dict.fromkeys(("toothpaste", "mask", "clay mask"), ("paste",)),
    **dict.fromkeys(("sanitiser", "sanitizer", "handrub", "alcohol gel", "perfume", "toner", "cologne"), ("hydroalcoholic",)),
    **dict.fromkeys(("conditioner",), ("oil-in-water emulsion",)),
    **dict.fromkeys(("hydrogel", "serum"), ("gel", "solution")), **dict.fromkeys(("pressed powder", "talc"), ("powder",)),
    **dict.fromkeys(("bar soap", "liquid soap"), ("soap",)),
    "aerosol": ("surfactant solution", "hydroalcoholic"), "antiperspirant": ("anhydrous", "water-in-silicone emulsion", "gel"),
}


def read_header(lines: list[Line]) -> tuple[list[tree.Entry], list[Finding], set[str]]:
    """The lines of the header, what is wrong with them, and the keys that were written, well or not."""
    read: list[tree.Entry] = []
    tried: set[str] = set()
    groups, findings = entries.kept_apart(lines, entries.keys(properties.HEADER))
    for line in groups:
        entry, wrong = entries.read_entry(line, properties.HEADER, "the header", MEANT)
        tried |= _tried(line)
        if entry is not None and entry.key == "type":
            entry = entry._replace(text=" ".join(entry.text.translate(PLAIN).lower().split()))
        wrong = wrong or (_twice(entry, read) or _type(entry) or _use(entry) if entry else [])
        findings += wrong[:1]
        if entry is not None:
            read.append(entry)
    return read, findings, tried


def _tried(line) -> set[str]:
    found = entries.row_of(line, properties.HEADER)
    if found:
        return {found[0].name}
    word = line.text.replace(":", " ").split()
    said = MEANT.get(word[0].lower(), MEANT.get(" ".join(word[:2]).lower(), "")) if word else ""
    return {*slips.near(word[0] if word else "", [row.name for row in properties.HEADER], 1),
            *(key for key in ("product", "type", "basis") if f": {key} " in said)}


def _twice(entry: tree.Entry, read: list[tree.Entry]) -> list[Finding]:
    if entry.key in SEVERAL or all(known.key != entry.key for known in read):
        return []
    first = next(known for known in read if known.key == entry.key)
    return [slip(entry.key_span, f"`{entry.key}` stands twice in the header, first in line {first.span.line}", "Keep one of the two.")]


def _type(entry: tree.Entry) -> list[Finding]:
    if entry.key != "type":
        return []
    said = entry.text
    if said in properties.TYPES:
        return []
    span = entry.span._replace(column=entry.key_span.end + 1)
    meant = TYPES_MEANT.get(said) or slips.near(said, properties.TYPES, 2)
    fix = f"Did you mean {slips.either(meant)}?" if meant else f"One of: {', '.join(properties.TYPES)}."
    return [slip(span, f"`{entry.text}` is not a type of the list", f"{fix} The type says what is outside when the product is done.")]


def _use(entry: tree.Entry) -> list[Finding]:
    if entry.key != "used as":
        return []
    known = [use for row in properties.USES.values() for use in row]
    for group in entry.groups:
        said = " ".join(getattr(word, "text", "?") for word in group).lower()
        if said not in known:
            return [slip(group[0].span, f"`{said}` is not a use of the list", slips.did_you_mean(said, known, f"One or several of: {', '.join(known)}."))]
    return []


# ---- what every method needs

NEEDED = {
    "product": ("this method does not say what the product is called",
                "Write above everything else, for example: product Harbour Hand Cream"),
    "type": ("this method does not say what type of product it is", "Write below the product, for example: type oil-in-water emulsion"),
    "basis": ("this method does not say for what batch the formula is written",
              "Write below the type: basis 1 kg, basis 10 L, or basis the sum"),
    "rows": ("this method has no formula",
             "Write its rows below the header, for example: phase A: water, and below it: to 100 %  purified water"),
    "vessel": ("this method names no vessel", "Write below the formula, for example: vessel main"),
    "method": ("this method has no steps",
               "Write a line `method` below the vessels, and the steps below it, for example: charge A into main"),
}


def missing(source: Source, written: set[str]) -> list[Finding]:
    """One finding for each thing that no method can do without; at the top of the file."""
    top = Span(source.name, 1, 1, max(len(source.lines[0]) + 1, 2))
    return [slip(top, title, fix) for key, (title, fix) in NEEDED.items() if key not in written]
