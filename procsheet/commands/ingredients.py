"""The ingredient list of a method, from its formula."""

from procsheet.commands.common import OK, Unusable, compiled

SAYS = ("A draft from the formula as written: salts that form on the way, water lost to the air and the allergens of a perfume are not in it. "
        "Names and rules of the market decide; this is no legal advice.")


def run(chosen) -> int:
    from procsheet.model.ingredients import ingredients
    made = compiled(chosen.file, chosen)
    if made.method is None or not made.method.rows:
        raise Unusable(f"{chosen.file} has no formula; procsheet check {chosen.file} says why")
    found = ingredients(made.method)
    if chosen.json:
        import json
        print(json.dumps([one._asdict() | {"share": float(one.share), "any_order": one.any_order} for one in found], ensure_ascii=False, indent=1))
    else:
        print("\n".join(told(found)))
    return OK


def told(found) -> list[str]:
    """The list as a label runs, then each name with its share and the rows it comes from."""
    from procsheet.model.ingredients import label
    from procsheet.show import wrap
    out = [*wrap(label(found), ""), ""]
    width = max(len(one.name) for one in found)
    below = False
    for one in found:
        if one.any_order and not below:
            below = True
            out.append("  below 1 %: these may stand in any order")
        out.append(f"  {one.name:<{width}}  {float(one.share) * 100:>8.4g} %  {', '.join(one.rows)}{_doubt(one)}")
    return [*out, "", *wrap(SAYS, "")]


def _doubt(one) -> str:
    if not one.named:
        return "  no INCI name is known"
    return "  from a blend whose shares are not told: its place is a guess" if one.split else ""
