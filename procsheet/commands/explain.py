"""The manual page of a finding."""

from procsheet.commands.common import OK, Unusable


def run(chosen) -> int:
    from procsheet.pages import first_line, pages
    from procsheet.syntax.slips import did_you_mean
    known = pages()
    if not chosen.name:
        width = max(map(len, known))
        print("\n".join(f"{name:<{width}}  {first_line(page)}" for name, page in known.items()))
        return OK
    if chosen.name not in known:
        raise Unusable(f"there is no finding called {chosen.name}. {did_you_mean(chosen.name, known, 'All names: procsheet explain')}")
    print(f"{chosen.name}\n\n{known[chosen.name].strip()}")
    return OK
