"""The command line: arguments in, exit code out.

0  nothing stops the method     1  something does (STOP)     2  the command or a file could not be used
"""

import argparse
import sys
from pathlib import Path

OK, STOPPED, UNUSABLE = 0, 1, 2
EPILOG = "exit codes: 0 nothing stops the method, 1 something does (STOP), 2 the command or a file could not be used"


class Unusable(Exception):
    """The command cannot be carried out as it was given; the text says why."""


def main(arguments: list[str] | None = None) -> int:
    """Run one command. Returns the exit code."""
    sys.stdout.reconfigure(encoding="utf-8", errors="replace") if hasattr(sys.stdout, "reconfigure") else None
    sys.stderr.reconfigure(encoding="utf-8", errors="replace") if hasattr(sys.stderr, "reconfigure") else None
    chosen = parser().parse_args(arguments)
    try:
        return chosen.run(chosen)
    except Unusable as problem:
        print(f"procsheet: {problem}", file=sys.stderr)
        return UNUSABLE
    except BrokenPipeError:                                 # `| head` has seen enough
        sys.stderr.close()
        return OK
    except KeyboardInterrupt:
        return UNUSABLE


def parser() -> argparse.ArgumentParser:
    top = argparse.ArgumentParser(prog="procsheet", description="Compile a manufacturing method: check it, scale it, print it.", epilog=EPILOG)
    top.add_argument("--version", action="version", version=_version())
    commands = top.add_subparsers(dest="command", required=True, metavar="COMMAND")
    check = _command(commands, "check", "say what is wrong with a method, before anything is weighed", run_check)
    check.add_argument("files", nargs="+", metavar="FILE", help="a method, a folder of them, or - for standard input")
    _sized(check)
    check.add_argument("--json", action="store_true", help="for machines")
    check.add_argument("--all", action="store_true", help="also show cautions in full")
    sheet = _command(commands, "sheet", "print the work instruction and record", run_sheet)
    sheet.add_argument("file", metavar="FILE", help="a method, or - for standard input")
    _sized(sheet)
    _papers(sheet)
    graph = _command(commands, "graph", "draw the flow from materials to product", run_graph)
    graph.add_argument("file", metavar="FILE")
    graph.add_argument("-o", "--output", metavar="FILE", help="where to write the picture (SVG), - for standard output")
    graph.add_argument("--json", action="store_true", help="the graph for machines")
    explain = _command(commands, "explain", "the manual page of a finding", run_explain)
    explain.add_argument("name", nargs="?", help="the finding's name, such as flash-limit; without it, all names")
    form = _command(commands, "format", "write a method in the usual layout", run_format)
    form.add_argument("files", nargs="+", metavar="FILE", help="a method, materials or plant file, or - for standard input to standard output")
    form.add_argument("--check", action="store_true", help="change nothing; exit with 1 if a file would change")
    new = _command(commands, "new", "begin a method that passes", run_new)
    new.add_argument("name", help='the product\'s name, such as "Harbour Hand Cream"')
    new.add_argument("-o", "--output", metavar="FILE", help="where to write it; otherwise the name, in small letters")
    return top


def _command(commands, name: str, words: str, run) -> argparse.ArgumentParser:
    made = commands.add_parser(name, help=words, description=words[0].upper() + words[1:] + ".", epilog=EPILOG)
    made.set_defaults(run=run)
    return made


def _sized(command: argparse.ArgumentParser) -> None:
    size = command.add_mutually_exclusive_group()
    size.add_argument("--batch", metavar="SIZE", help='such as "120 kg" or "50 L"; otherwise the basis')
    size.add_argument("--units", metavar="N", type=int, help="as many packs as this")
    command.add_argument("--plant", metavar="FILE", help="the plant it is made in; otherwise the one it was proven on")
    command.add_argument("--choose", metavar="NAME", action="append", default=[], help="an option or an alternative material")
    command.add_argument("--without", metavar="MATERIAL", action="append", default=[], help="leave an optional material out")
    command.add_argument("--vessel", metavar="NAME=TAG", action="append", default=[], help="such as main=K60")


def _papers(command: argparse.ArgumentParser) -> None:
    command.add_argument("-o", "--output", metavar="FILE", help="where to write it: .pdf or .html, - for HTML on standard output")
    command.add_argument("--html", action="store_true", help="HTML instead of PDF")
    command.add_argument("--paper", choices=("A4", "Letter"), default="A4")
    command.add_argument("--number", metavar="BATCH", default="", help="batch number; otherwise a ruled blank")
    command.add_argument("--issue", metavar="N", default="", help="issue of these papers; otherwise a ruled blank")
    command.add_argument("--issued", metavar="WHEN", default="", help="when they were issued; otherwise a ruled blank")


def _version() -> str:
    from procsheet import __version__
    return f"procsheet {__version__}"


# ---- what every command needs


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
    """The texts that findings may point into."""
    from procsheet.model.library import shipped
    return {made.source.name: made.source} | {one.file.name: one.file for one in (*getattr(made.method.library, "indexes", ()), *shipped())}


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


# ---- check


def run_check(chosen) -> int:
    made = [compiled(name, chosen) for name in _methods(chosen.files)]
    if chosen.json:
        import json
        print(json.dumps([_as_data(one) for one in made], ensure_ascii=False, indent=1))
    else:
        for one in made:
            print(_report(one, chosen.all))
    return STOPPED if any(one.stops for one in made) else OK


def _methods(names: list[str]) -> list[str]:
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


def _report(made, everything: bool) -> str:
    from procsheet.show import show, wrap
    known, colour = sources(made), coloured(sys.stdout)
    shown = [show(finding, known, colour=colour) for finding in made.findings if finding.level in ("STOP", "WARN") or everything]
    short = [] if everything else _short([finding for finding in made.findings if finding.level in ("NOTE", "OPEN")])
    signed = [line for one in made.signed for line in wrap(f"{one.finding.name}: {one.finding.title}. Signed for by {one.by}: {one.reason}", "  signed    ", "            ")]
    return "\n\n".join([*shown, *(["\n".join(short)] if short else []), *(["\n".join(signed)] if signed else []), summary(made)]) + "\n"


def _short(findings) -> list[str]:
    from procsheet.show import wrap
    return [line for finding in findings for line in wrap(f"{finding.title} ({finding.name}, line {finding.at.span.line})", f"  {finding.level.lower():<10}", " " * 12)]


def summary(made) -> str:
    """One line: what was found, in words."""
    count = {level: sum(finding.level == level for finding in made.findings) for level in ("STOP", "WARN", "NOTE", "OPEN", "CAUTION")}
    words = [_counted(count["STOP"], "stop"), _counted(count["WARN"], "warning"), _counted(count["NOTE"], "note"), _counted(count["OPEN"], "open point"),
             _counted(count["CAUTION"], "caution"), _counted(len(made.signed), "signed exception")]
    told = ", ".join(word for word in words if word) or "no findings"
    verdict = "no papers until it is changed" if made.stops else "a draft: some figures are open" if made.method.draft else "nothing stops it"
    return f"{made.source.name}: {told}; {verdict}"


def _counted(count: int, word: str) -> str:
    return f"{count} {word}{'s' if count != 1 else ''}" if count else ""


def _as_data(made) -> dict:
    from procsheet.show import as_data
    return {"file": made.source.name, "product": made.method.header.product, "type": made.method.header.type, "stops": made.stops, "draft": made.method.draft,
            "findings": [as_data(finding) for finding in made.findings],
            "signed": [{"finding": as_data(one.finding), "reason": one.reason, "by": one.by} for one in made.signed]}


# ---- sheet


def run_sheet(chosen) -> int:
    from procsheet.ready import missing
    made = compiled(chosen.file, chosen)
    made = made._replace(findings=(*missing(made.method, chosen.issue), *made.findings))
    undecided = _undecided(made)
    if made.stops or undecided:
        print(_report(made, False), file=sys.stderr)
        if undecided and not made.stops:
            print(f"procsheet: say which with --choose: {undecided}", file=sys.stderr)
        return STOPPED
    html = _html(made, chosen)
    if chosen.output == "-":
        sys.stdout.write(html)
        return OK
    target = Path(chosen.output) if chosen.output else Path(_stem(chosen.file) + (".html" if chosen.html else ".pdf"))
    if target.suffix.lower() in (".html", ".htm"):
        write(target, html)
        return _written(made, target)
    return _pdf(made, html, target)


def _undecided(made) -> str:
    """Options that whoever makes the papers has not chosen yet."""
    from procsheet.graph.courses import choices
    from procsheet.model.material import fold
    open_ones = [fork for fork in choices(made.method) if fork.by == "papers" and fork.key[0] == "block" and len({batch.graph.course.taken.get(fork.key) for batch in made.batches}) > 1]
    return "; ".join(" or ".join(fold(label) for label in fork.labels) for fork in open_ones)


def _html(made, chosen) -> str:
    from procsheet.sheet.html import to_html
    from procsheet.sheet.lay_out import lay_out
    from procsheet.sheet.papers import Papers
    papers = Papers(number=chosen.number, issue=chosen.issue, issued=chosen.issued)
    return to_html(lay_out(made, papers), paper=chosen.paper)


def _stem(name: str) -> str:
    return "sheet" if name == "-" else Path(name).stem


def _pdf(made, html: str, target: Path) -> int:
    from procsheet.sheet.pdf import PdfNotPossible, to_pdf
    if sys.stderr.isatty():
        print("setting the pages ...", file=sys.stderr)
    try:
        write(target, to_pdf(html))
        return _written(made, target)
    except PdfNotPossible as problem:
        instead = target.with_suffix(".html")
        write(instead, html)
        print(f"procsheet: {problem}; wrote {instead} instead", file=sys.stderr)
        return OK


def _written(made, target: Path) -> int:
    plan = made.batch.plan
    size = f"{float(plan.mass):.4g} kg" if plan.mass >= 1 else f"{float(plan.mass) * 1000:.4g} g"
    print(f"{target}: {made.method.header.product}, {size}{', draft' if made.method.draft else ''}")
    print(summary(made), file=sys.stderr)
    return OK


# ---- graph, explain, format, new


def run_graph(chosen) -> int:
    chosen.batch = chosen.units = chosen.plant = None
    chosen.choose = chosen.without = chosen.vessel = []
    made = compiled(chosen.file, chosen)
    if made.batch is None:
        print(_report(made, False), file=sys.stderr)
        return STOPPED
    if chosen.json:
        import json
        from procsheet.graph.picture import as_data
        print(json.dumps(as_data(made.batch.graph), ensure_ascii=False, indent=1))
        return OK
    from procsheet.graph.picture import draw
    picture = draw(made.batch.graph)
    if chosen.output == "-":
        sys.stdout.write(picture)
        return OK
    target = Path(chosen.output or f"{_stem(chosen.file)}.svg")
    write(target, picture)
    print(target)
    return OK


def run_explain(chosen) -> int:
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


def run_format(chosen) -> int:
    from procsheet.show import show
    from procsheet.syntax.format import formatted
    changed = broken = False
    for name in chosen.files:
        text, _ = read(name)
        result, findings = formatted(text)
        if findings:
            broken = True
            print("\n\n".join(show(finding, {text.name: text}, colour=coloured(sys.stderr)) for finding in findings), file=sys.stderr)
        elif name == "-":
            sys.stdout.write(result)
        elif result != text.text:
            changed = True
            print(name)
            if not chosen.check:
                write(Path(name), result)
    return STOPPED if broken or (changed and chosen.check) else OK


def run_new(chosen) -> int:
    import re
    name = " ".join(chosen.name.split())
    stem = re.sub(r"[^a-z0-9]+", "-", name.lower()).strip("-") or "new"
    target = Path(chosen.output or f"{stem}.method")
    if target.exists():
        raise Unusable(f"{target} is there already; nothing was changed")
    starter = (Path(__file__).parent / "starter.method").read_text(encoding="utf-8")
    write(target, starter.replace("PRODUCT", name))
    print(f"{target}: change what is yours, then: procsheet check {target}")
    return OK
