"""The rule book: every rule with its level, what it says, and where its limits come from."""

from procsheet.commands.common import OK, Unusable


def run(chosen) -> int:
    from procsheet.pages import first_line
    from procsheet.rules import RULES
    from procsheet.show import wrap
    asked = [rule for rule in RULES if chosen.topic in ("", topic(rule))]
    if not asked:
        raise Unusable(f"there is no topic called {chosen.topic}; these there are: {', '.join(dict.fromkeys(map(topic, RULES)))}")
    wide = max(len(rule.NAME) for rule in asked)
    shown = ""
    for rule in asked:
        if topic(rule) != shown:
            shown = topic(rule)
            print(f"{'' if rule is asked[0] else chr(10)}{shown}")
        lines = wrap(f"{first_line(rule.__doc__)} [{_sources(rule)}]", f"  {rule.NAME:<{wide}}  {rule.LEVEL:<8}", " " * (wide + 12))
        print("\n".join(lines))
    print(f"\n{len(asked)} rules. `procsheet explain NAME` prints the page of one; a plant or a house sets levels and limits in `rule` blocks.")
    return OK


def topic(rule) -> str:
    """The folder a rule stands in, as words."""
    return rule.__name__.split(".")[-2].replace("_", " ")


def _sources(rule) -> str:
    """What its limits rest on: of the shipped data, else what its page says."""
    from procsheet.model.library import Library, shipped
    lines = [line for block in Library(shipped()).rule(rule.NAME) for line in block.lines if line.key == "limit"]
    told = dict.fromkeys(f"{line.evidence.source}, {line.evidence.grade}" if line.evidence and line.evidence.source else "from memory" for line in lines)
    return "; ".join(told) or _page(rule)


def _page(rule) -> str:
    """What stands under Source on its page."""
    lines = (rule.__doc__ or "").partition("\nSource\n")[2].splitlines()
    return " ".join(line.strip() for line in lines if line.strip()) or "no limit of its own"
