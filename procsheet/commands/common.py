"""What every command needs: files read and written, the method compiled as asked for."""

import sys
from pathlib import Path

OK, STOPPED, UNUSABLE = 0, 1, 2


class Unusable(Exception):
    """The command cannot be carried out as it was given; the text says why."""


def read(name: str):
    """The source of a file, and the folder it stands in."""
    from procsheet.model.files import read_source
    from procsheet.source import source
    if name == "-":
        return source("(standard input)", sys.stdin.buffer.read().decode("utf-8-sig", errors="replace")), Path.cwd()
    path = Path(name)
    try:
        return read_source(path, name), path.parent
    except FileNotFoundError:
        raise Unusable(f"{name} is not there") from None
    except IsADirectoryError:
        raise Unusable(f"{name} is a folder") from None
    except UnicodeDecodeError:
        raise Unusable(f"{name} is no plain text (UTF-8)") from None
    except ValueError as problem:
        raise Unusable(f"{name} {problem}") from None
    except OSError as problem:
        raise Unusable(f"{name} cannot be read: {problem.strerror}") from None


def methods(names: list[str]) -> list[str]:
    """The methods that are named: files, and those in folders."""
    out = []
    for name in names:
        path = Path(name)
        if name != "-" and path.is_dir():
            found = sorted(str(one) for one in path.rglob("*.method"))
            if not found:
                raise Unusable(f"there is no .method file in {name}")
            out += found
        else:
            out.append(name)
    return out


def request(chosen):
    """What was asked for, as the pipeline takes it."""
    from procsheet.model.material import fold
    from procsheet.model.resolve import Options
    from procsheet.pipeline import Request
    plant = Path(chosen.plant) if chosen.plant else None
    if plant is not None and not plant.is_file():
        raise Unusable(f"the plant file {chosen.plant} is not there")
    options = Options(frozenset(map(fold, chosen.choose)), frozenset(map(fold, chosen.without)))
    return Request(_order(chosen), plant, options)


def _order(chosen):
    from procsheet.plan.plan import Order
    from procsheet.plan.size import read_size
    order = Order()
    if chosen.batch:
        order = read_size(chosen.batch)
        if order is None:
            raise Unusable(f'{chosen.batch} is no size of a batch; write it like "120 kg" or "50 L"')
    if chosen.units is not None:
        if chosen.units < 1:
            raise Unusable("--units takes a number of packs, 1 or more")
        order = order._replace(units=chosen.units)
    vessels = []
    for pair in chosen.vessel:
        name, _, tag = pair.partition("=")
        if not name or not tag:
            raise Unusable(f"{pair} names no vessel; write it like main=K60")
        vessels.append((name, tag))
    return order._replace(vessels=tuple(vessels))


def compiled(name: str, chosen):
    """One method, compiled as asked for."""
    from procsheet.pipeline import compile_method
    text, folder = read(name)
    try:
        made = compile_method(text, folder, request(chosen))
    except UnicodeDecodeError:
        raise Unusable(f"the plant file {chosen.plant} is no plain text (UTF-8)") from None
    _known(chosen.choose, _to_choose(made), "there is nothing to choose called", "to choose")
    _known(chosen.without, [row.name for phase in made.tree.phases for row in phase.rows if row.optional], "no optional material is called", "optional")
    return made


def _to_choose(made) -> list[str]:
    from procsheet.graph.courses import choices
    names = [label for fork in choices(made.method) if fork.by == "papers" and fork.key[0] == "block" for label in fork.labels]
    return names + [one.name for phase in made.tree.phases for row in phase.rows if row.alternatives for one in (row, *row.alternatives)]


def _known(asked: list[str], known: list[str], complaint: str, what: str) -> None:
    from procsheet.model.material import fold
    from procsheet.syntax.slips import did_you_mean, either
    folded = {fold(name) for name in known}
    for name in asked:
        if fold(name) not in folded:
            raise Unusable(f"{complaint} {name}. {did_you_mean(name, known, f'This is {what}: {either(known)}.' if known else f'Nothing here is {what}.')}")


def sources(made) -> dict:
    """The texts that findings point into."""
    labels = [label for finding in made.findings for one in (finding, *finding.folded) for label in (one.at, *one.also)]
    names = {label.span.file for label in labels} - {"", made.source.name}
    library = made.method.library if made.method else None
    found = {name: library.source(name) for name in names} if library else {}
    return {made.source.name: made.source} | {name: text for name, text in found.items() if text is not None}


def write(path: Path, content: "str | bytes") -> None:
    """A file that appears whole or not at all."""
    import os
    import tempfile
    data = content.encode("utf-8") if isinstance(content, str) else content
    try:
        handle, name = tempfile.mkstemp(dir=path.parent or ".", prefix=f".{path.name}.")
        try:
            with os.fdopen(handle, "wb") as file:
                file.write(data)
            os.chmod(name, 0o666 & ~_umask())
            os.replace(name, path)
        except BaseException:
            os.unlink(name)
            raise
    except OSError as problem:
        raise Unusable(f"{path} cannot be written: {problem.strerror}") from None


def _umask() -> int:
    import os
    mask = os.umask(0)
    os.umask(mask)
    return mask


def coloured(stream) -> bool:
    import os
    return stream.isatty() and "NO_COLOR" not in os.environ and os.environ.get("TERM") != "dumb"


def stem(name: str) -> str:
    """What files made of a method are called."""
    return "sheet" if name == "-" else Path(name).stem
