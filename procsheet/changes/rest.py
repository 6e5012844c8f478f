"""Changes of the header, of limits and packs, and of the data of the materials used."""

from collections.abc import Iterator

from procsheet.changes.change import Change
from procsheet.model import quantities
from procsheet.model.material import Material, fold, shown
from procsheet.model.method import Method
from procsheet.syntax import tree

HEAD = (("product", "product"), ("type", "type"), ("code", "code"), ("revision", "revision"), ("made for", "made_for"), ("written by", "written_by"), ("checked by", "checked_by"),
        ("proven on", "proven_on"), ("bulk keeps", "keeps"))


def head(old: Method, new: Method) -> Iterator[Change]:
    for word, field in HEAD:
        was, now = getattr(old.header, field), getattr(new.header, field)
        if was != now:
            yield Change("head", word, was, now, f"{word}: {was or 'not written'} becomes {now or 'not written'}")
    was, now = (", ".join(f"{what} {written}" for what, _, _, written in method.header.yields) for method in (old, new))
    if was != now:
        yield Change("head", "yield", was, now, f"yield: {was or 'not written'} becomes {now or 'not written'}")


def limits(old: Method, new: Method) -> Iterator[Change]:
    before, after = ({_limit(one): one for one in method.limits} for method in (old, new))
    for key, one in before.items():
        if key not in after:
            yield Change("limits", key, _value(one), "", f"{key} is no longer tested ({_value(one)})")
    for key, one in after.items():
        if key not in before:
            yield Change("limits", key, "", _value(one), f"{key} is tested now: {_value(one)}", one.span.line)
        elif _value(before[key]) != _value(one):
            yield Change("limits", key, _value(before[key]), _value(one), f"{key}: {_value(before[key])} becomes {_value(one)}", one.span.line)


def packs(old: Method, new: Method) -> Iterator[Change]:
    before, after = ({getattr(pack, "name", "") or str(at): _pack(pack) for at, pack in enumerate(method.packs)} for method in (old, new))
    for name in dict.fromkeys((*before, *after)):
        was, now = before.get(name, {}), after.get(name, {})
        for key in dict.fromkeys((*was, *now)):
            if was.get(key) != now.get(key):
                yield Change("packs", name, was.get(key, ""), now.get(key, ""), f"{name}, {key}: {was.get(key) or 'not written'} becomes {now.get(key) or 'not written'}")


def data(old: Method, new: Method) -> Iterator[Change]:
    """Of materials that stand in both: a figure that the data now say differently."""
    before = {fold(row.name): row.material for row in old.rows}
    for name, material in {fold(row.name): row.material for row in new.rows}.items():
        if name in before:
            was, now = _said(before[name]), _said(material)
            for key in dict.fromkeys((*was, *now)):
                if was.get(key) != now.get(key):
                    yield Change("material data", material.name, was.get(key, ""), now.get(key, ""), f"{material.name}, {key}: {was.get(key) or 'not known'} becomes {now.get(key) or 'not known'}")


def _said(material: Material) -> dict[str, str]:
    return {key: "; ".join(_line(line) for line in lines) for key, lines in material.lines.items() if key != "also called"}


def _line(line: tree.Entry) -> str:
    value = line.text or ", ".join(" ".join(shown(word) for word in group) for group in line.groups)
    return f"{value} ({line.evidence.source or 'from memory'})" if line.evidence is not None else value


def _pack(pack) -> dict[str, str]:
    return {line.key: _line(line) for line in pack.lines}


def _limit(one: tree.Limit) -> str:
    after = " ".join(_clause(clause) for clause in one.clauses)
    return " ".join(filter(None, (one.measure.name, f"of {one.measure.of}" if one.measure.of else "", after)))


def _clause(clause: tree.Clause) -> str:
    return f"{clause.kind} {_target(clause.value)}".strip()


def _value(one: tree.Limit) -> str:
    return _target(one.measure.target)


def _target(value) -> str:
    if isinstance(value, tree.Quantity):
        return f"{value.bound} {quantities.shown(value)}".strip()
    return getattr(value, "text", "") if value is not None else ""
