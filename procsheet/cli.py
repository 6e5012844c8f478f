"""The command line: arguments in, exit code out.

0  nothing stops the method     1  something does (STOP)     2  the command or a file could not be used
"""

import argparse
import sys
from importlib import import_module

from procsheet.commands.common import OK, UNUSABLE, Unusable

EPILOG = "exit codes: 0 nothing stops the method, 1 something does (STOP), 2 the command or a file could not be used"


def main(arguments: list[str] | None = None) -> int:
    """Run one command. Returns the exit code."""
    sys.stdout.reconfigure(encoding="utf-8", errors="replace") if hasattr(sys.stdout, "reconfigure") else None
    sys.stderr.reconfigure(encoding="utf-8", errors="replace") if hasattr(sys.stderr, "reconfigure") else None
    chosen = parser().parse_args(arguments)
    try:
        return import_module(f"procsheet.commands.{chosen.command}").run(chosen)
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
    check = _command(commands, "check", "say what is wrong with a method, before anything is weighed")
    check.add_argument("files", nargs="+", metavar="FILE", help="a method, a folder of them, or - for standard input")
    _sized(check)
    check.add_argument("--json", action="store_true", help="for machines")
    check.add_argument("--all", action="store_true", help="also show cautions in full")
    sheet = _command(commands, "sheet", "print the work instruction and record")
    sheet.add_argument("file", metavar="FILE", help="a method, or - for standard input")
    _sized(sheet)
    _papers(sheet)
    tags = _command(commands, "labels", "print a label for each container that is weighed, with its code to scan")
    tags.add_argument("file", metavar="FILE", help="a method, or - for standard input")
    _sized(tags)
    _numbered(tags)
    tags.add_argument("-o", "--output", metavar="FILE", help="where to write it: .pdf or .html, - for HTML on standard output")
    tags.add_argument("--paper", choices=("A4", "Letter"), default="A4")
    weighed = _command(commands, "weighings", "write the weighings and the steps as tables to fill in on a screen")
    weighed.add_argument("file", metavar="FILE", help="a method, or - for standard input")
    _sized(weighed)
    _numbered(weighed)
    weighed.add_argument("-o", "--output", metavar="FILE", help="where to write it: .xlsx, both tables in one; .csv, the steps in a second file beside it")
    again = _command(commands, "verify", "make the papers anew from the method inside a PDF, and tell what differs")
    again.add_argument("file", metavar="SHEET.pdf", help="papers that procsheet printed")
    again.add_argument("--key", metavar="KEY.pdf", default="", help="of a coded copy: its key, which holds the method")
    fitting = _command(commands, "fit", "the smallest and largest batch a plant can make, and how an order is split")
    fitting.add_argument("file", metavar="FILE", help="a method, or - for standard input")
    _sized(fitting)
    other = _command(commands, "differ", "what differs between where a method was proven and another plant or size: tip speed, passes, times, heat")
    other.add_argument("file", metavar="FILE", help="a method, or - for standard input")
    _sized(other)
    other.add_argument("--json", action="store_true", help="for machines")
    times = _command(commands, "timeplan", "when each step begins and ends, with the plant's people, balances and shifts")
    times.add_argument("file", metavar="FILE", help="a method, or - for standard input")
    _sized(times)
    times.add_argument("--start", metavar="TIME", default="06:00", help="when the shift begins, such as 06:00")
    times.add_argument("--operators", metavar="N", type=int, help="people for this batch; otherwise as the plant says")
    times.add_argument("-o", "--output", metavar="FILE", help="draw it instead (SVG), - for standard output")
    walk = _command(commands, "walk", "tell what each kettle and each material lives through, step by step")
    walk.add_argument("file", metavar="FILE", help="a method, or - for standard input")
    _sized(walk)
    walk.add_argument("--material", metavar="NAME", default="", help="the way of one material, by its name or its code in the formula")
    walk.add_argument("-o", "--output", metavar="FILE", help="draw it instead (SVG), - for standard output")
    walk.add_argument("--json", action="store_true", help="for machines")
    graph = _command(commands, "graph", "draw the flow from materials to product")
    graph.add_argument("file", metavar="FILE")
    graph.add_argument("-o", "--output", metavar="FILE", help="where to write the picture (SVG), - for standard output")
    graph.add_argument("--json", action="store_true", help="the graph for machines")
    graph.add_argument("--why", action="store_true", help="why each step follows the one before it at its vessel, and which may be swapped")
    listed = _command(commands, "ingredients", "the ingredient list of a formula: INCI names, descending, those below 1 %% marked")
    listed.add_argument("file", metavar="FILE", help="a method, or - for standard input")
    _sized(listed)
    listed.add_argument("--json", action="store_true", help="for machines")
    need = _command(commands, "need", "what batches need: materials to buy, lots to take, what it costs, how it is filled")
    need.add_argument("files", nargs="+", metavar="FILE", help="methods, or folders of them; they make one list")
    _sized(need)
    need.add_argument("--stock", metavar="FILE", help="the lots that are there (CSV); exit code 1 when they do not suffice")
    need.add_argument("--on", metavar="DATE", default="", help="the day lots must not have expired on; otherwise today")
    need.add_argument("--sample", metavar="FILE", help="what each pack of a sample holds, in g or mL at 20 °C, to be judged")
    need.add_argument("-o", "--output", metavar="FILE", help="write it: .csv the materials, .xlsx all tables")
    need.add_argument("--json", action="store_true", help="for machines")
    material = _command(commands, "material", "what is known of a material, with sources; or what a method's checks still lack")
    material.add_argument("name", nargs="?", metavar="NAME", help="INCI, common or pharmacopoeia name")
    material.add_argument("--of", metavar="FILE", help="as this method sees it: its own data and its house's before the shipped ones")
    material.add_argument("--missing", nargs="+", metavar="FILE", help="methods or folders of them: what is lacking, most decisive first")
    _sized(material)
    explain = _command(commands, "explain", "the manual page of a finding")
    explain.add_argument("name", nargs="?", help="the finding's name, such as flash-limit; without it, all names")
    book = _command(commands, "rules", "the rule book, with levels and sources")
    book.add_argument("topic", nargs="?", default="", help="one chapter of it, such as emulsion")
    notice = _command(commands, "compare", "what changed from one method to another: amounts, order, set-points, limits, data, and what it does")
    notice.add_argument("old", metavar="OLD", help="the method as it was")
    notice.add_argument("new", metavar="NEW", help="the method as it is")
    _sized(notice)
    notice.add_argument("-o", "--output", metavar="FILE", help="the change notice as a page to sign (HTML)")
    notice.add_argument("--json", action="store_true", help="for machines")
    form = _command(commands, "format", "write a method in the usual layout")
    form.add_argument("files", nargs="+", metavar="FILE", help="a method, materials or plant file, or - for standard input to standard output")
    form.add_argument("--check", action="store_true", help="change nothing; exit with 1 if a file would change")
    new = _command(commands, "new", "begin a method that passes, or a material's block to fill in")
    new.add_argument("name", nargs="+", help='the product\'s name, such as "Harbour Hand Cream"; or: material NAME')
    new.add_argument("--kind", metavar="KIND", default="", help="of a material, such as \"fatty alcohol\"; what its kind needs is asked for first")
    new.add_argument("-o", "--output", metavar="FILE", help="where to write it; otherwise the name, in small letters. A materials file is added to")
    return top


def _command(commands, name: str, words: str) -> argparse.ArgumentParser:
    return commands.add_parser(name, help=words, description=words[0].upper() + words[1:] + ".", epilog=EPILOG)


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
    _numbered(command)
    command.add_argument("--issue", metavar="N", default="", help="issue of these papers; otherwise a ruled blank")
    command.add_argument("--coded", action="store_true", help="codes in place of material names, and the key in a file of its own")
    command.add_argument("--clauses", action="store_true", help="list where each element that standards of good practice ask for stands; with -o also write the papers, and tell the page")
    command.add_argument("--issued", metavar="WHEN", default="", help="when they were issued; otherwise a ruled blank")


def _numbered(command: argparse.ArgumentParser) -> None:
    command.add_argument("--number", metavar="BATCH", default="", help="batch number; otherwise a ruled blank")


def _version() -> str:
    from procsheet import __version__
    return f"procsheet {__version__}"


if __name__ == "__main__":
    raise SystemExit(main())
