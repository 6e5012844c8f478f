"""What is known of a material, with sources; or what a method's checks still lack."""

from procsheet.commands.common import OK, Unusable, compiled, methods


def run(chosen) -> int:
    if chosen.missing and chosen.name:
        raise Unusable("give a material's name, or --missing and methods, not both")
    if chosen.missing:
        return _missing(chosen)
    if not chosen.name:
        raise Unusable("which material? procsheet material NAME, or procsheet material --missing FILE")
    library, overrides = _library(chosen)
    print("\n".join(told(chosen.name, library, overrides)))
    return OK


def _library(chosen):
    """Where data are looked for: the shipped ones, and before them what the method of --of names and says itself."""
    from procsheet.model.library import Library, shipped
    if not chosen.of:
        return Library(shipped()), ()
    from procsheet.commands.common import read
    from procsheet.model.files import Files
    from procsheet.syntax.parse import parse_method
    text, folder = read(chosen.of)
    parsed = parse_method(text).tree
    return Files(folder).library(parsed)[0], parsed.overrides


# ---- one material


def told(name: str, library, overrides=()) -> list[str]:
    """Its lines, each with its source and where it is written; a line that replaces another says which."""
    from procsheet.model.kin import kin
    from procsheet.model.library import material
    from procsheet.model.material import fold
    from procsheet.syntax.slips import did_you_mean
    blocks, either, _ = library.find(name)
    taken_for = ""
    if either:
        raise Unusable(f"{name} may be: {', '.join(either)}. Ask for one of these.")
    if not blocks:
        block, taken_for = kin(name, library)
        if block is None:
            raise Unusable(f"no data are known for {name}. {did_you_mean(name, library.names(), 'procsheet new material NAME begins a block for it.')}")
        blocks = [block]
    own = tuple(one.entry for one in overrides if fold(one.material) in {fold(name), fold(blocks[0].text)})
    known = material(name, blocks, library, own)
    return [known.name + (f" (no data of its own: taken as {taken_for})" if taken_for else ""), *_lines(blocks, own, known), *_of_kind(known, library),
            *_unknown(known)]


def _lines(blocks, own, known) -> list[str]:
    from procsheet.show import wrap
    layers = [own, *(block.lines for block in blocks)]          # the nearest first
    out = []
    for key in dict.fromkeys(line.key for layer in reversed(layers) for line in layer):
        found = [[line for line in layer if line.key == key] for layer in layers]
        nearest, *beaten = [lines for lines in found if lines]
        if key == "also called":
            out += wrap(", ".join(line.text for line in nearest), f"  {key:<16}", " " * 18)
            continue
        out += [_line(line) for line in nearest]
        out += [f"  {'':<16}in place of: {_value(line)}, {_place(line)}" for lines in beaten for line in lines]
    return out


def _line(line) -> str:
    value, place = _value(line), _place(line)
    return f"  {line.key:<16}{value:<60}  {place}".rstrip()


def _value(line) -> str:
    from procsheet.model.material import shown
    value = line.text or ", ".join(" ".join(shown(word) for word in group) for group in line.groups)
    if line.evidence is None:
        return value
    return f"{value}  from memory" if not line.evidence.source else f"{value}  from {line.evidence.source} ({line.evidence.grade})"


def _place(line) -> str:
    return f"{line.span.file}:{line.span.line}" if line.span.file else ""


def _of_kind(known, library) -> list[str]:
    kept = [line for key, lines in known.defaults.items() if key not in known.lines and key not in ("counts as", "decisive") for line in lines]
    groups = sorted(known.groups)
    return ([f"  usual for its kind, {known.kind}:"] if kept or groups else []) + ([f"  {'counts as':<16}{', '.join(groups)}"] if groups else []) + [_line(line) for line in kept]


def _unknown(known) -> list[str]:
    from procsheet.model.needs import lacking
    found = [f"{one.what} ({one.why})" for one in lacking(known)]
    return [f"  not known:      {'; '.join(found)}"] if found else []


# ---- what checks lack


def _missing(chosen) -> int:
    opens, lines, files = 0, [], methods(chosen.missing)
    for name in files:
        made = compiled(name, chosen)
        found = wanted(made)
        opens += sum(finding.level == "OPEN" for finding in made.findings)
        lines += [made.source.name, *_aligned(found), ""] if found else []
    print("\n".join(lines), end="\n" if lines else "")
    print(f"{_counted(len(files), 'method')}: {_counted(opens, 'open point')}")
    return OK


def wanted(made) -> list[tuple[str, str, str]]:
    """Material, property and reason, the most decisive first: no data at all; a check that was not made; decisive, but no check asked; only remembered."""
    from procsheet.model.needs import lacking, remembered
    rows = made.method.rows if made.method else ()
    opens = [finding for finding in made.findings if finding.level == "OPEN"]
    blank = [(finding.material, "all data", finding.title) for finding in opens if finding.name in ("unknown-material", "which-material")]
    checks = [(finding.material or "the method", finding.name, finding.title) for finding in opens if finding.name not in ("unknown-material", "which-material")]
    materials = {row.material.name: row.material for row in rows}.values()
    silent = [tuple(need) for material in materials for need in lacking(material)]
    memory = [tuple(need) for material in materials for need in remembered(material)]
    return list(dict.fromkeys([*blank, *sorted(checks, key=lambda one: one[0] == "the method"), *silent, *memory]))


def _aligned(found) -> list[str]:
    one, two = (max(len(row[at]) for row in found) for at in (0, 1))
    return [f"  {name:<{one}}  {what:<{two}}  {why}" for name, what, why in found]


def _counted(count: int, word: str) -> str:
    return f"{count} {word}{'' if count == 1 else 's'}"
