"""The content digest on every page: a page of another issue betrays itself."""

from collections.abc import Iterator
from fractions import Fraction
from hashlib import sha256

from procsheet import __version__
from procsheet.source import Span

SHOWN = 16      # hex digits, in fours


def digest(compiled) -> str:
    """`8653 c91f 0c4e cd53`: the start of a SHA-256 over method text, material data used, plant, options, size, kettles and version.

    It hangs on what is said, not on where: the same words in another file give the same digest.
    """
    plan = compiled.batch.plan
    inputs = (__version__, compiled.source.text, [row.material for row in plan.method.rows], plan.plant._replace(file=""), plan.mass,
              {vessel: kettle.tag for vessel, kettle in plan.kettles.items() if kettle}, sorted(map(str, plan.graph.course.taken.items())))
    name = sha256("\x1f".join(said(inputs)).encode()).hexdigest()[:SHOWN]
    return " ".join(name[n:n + 4] for n in range(0, SHOWN, 4))


def said(value) -> Iterator[str]:
    """Every word and figure in a value, without the places they stand at."""
    if isinstance(value, Span):
        return
    if isinstance(value, dict):
        value = sorted(value.items())
    if isinstance(value, (frozenset, set)):
        value = sorted(value)
    if isinstance(value, (tuple, list)):
        yield type(value).__name__
        for each in value:
            yield from said(each)
        yield ")"
    else:
        yield str(value) if not isinstance(value, (float, Fraction)) else repr(value)
