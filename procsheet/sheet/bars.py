"""The bar of a vessel: solid, hatched, hollow, dotted, cross-hatched, so that one look tells the kettle, in one ink."""

from base64 import b64encode

WIDTH = 5       # mm, of the bar; two vessels share it
HEAD = 89       # mm, a lane
TALL = 300      # mm, taller than any page: a short repeated tile shows seams


def bar_class(bars: tuple[str, ...]) -> str:
    return "bar-" + "-".join(bars)


def bar_rule(bars: tuple[str, ...]) -> str:
    """The CSS rule that paints the bar down the left edge of a step."""
    return f".{bar_class(bars)} {{ background-image: url({data(bar_svg(bars))}) }}"


def head_rule(bar: str) -> str:
    """The rule that fills the head of a lane, which leaves its frame to be seen."""
    return f".head-{bar} {{ background-image: url({data(bar_svg((bar,), width=HEAD, height=20))}) }}"


def bar_svg(bars: tuple[str, ...], *, width: float = WIDTH, height: float = TALL) -> str:
    """Draw the bars of one step or vessel side by side. Widths and heights in mm."""
    gap = 0.4 if len(bars) > 1 else 0
    each = (width - gap * (len(bars) - 1)) / max(len(bars), 1)
    drawn = "".join(PATTERNS[bar](round(n * (each + gap), 2), round(each, 2), height) for n, bar in enumerate(bars))
    return (f'<svg xmlns="http://www.w3.org/2000/svg" width="{width}mm" height="{height}mm" viewBox="0 0 {width} {height}">'
            f'{drawn}</svg>')


def data(svg: str) -> str:
    return "data:image/svg+xml;base64," + b64encode(svg.encode()).decode()


def solid(x, width, height):
    return f'<rect x="{x}" width="{width}" height="{height}"/>'


def hollow(x, width, height):
    return "".join(f'<rect x="{at}" width=".35" height="{height}"/>' for at in (x, round(x + width - 0.35, 2)))


def hatched(x, width, height):
    return slanted(x, width, height, -45, "0.7 1") + hollow(x, width, height)


def crossed(x, width, height):
    return slanted(x, width, height, -45, ".35 1.65") + slanted(x, width, height, 45, ".35 1.65") + hollow(x, width, height)


def dotted(x, width, height):
    """Columns of dots, every other one half a step lower."""
    count = max(round(width / 1.7), 1)
    columns = (down(x + width * (n + 0.5) / count, height, "0 2",
                    f'stroke-width="1" stroke-linecap="round" stroke-dashoffset="{n % 2}"') for n in range(count))
    return "".join(columns) + hollow(x, width, height)


def slanted(x, width, height, angle, dashes):
    """A broad dashed line, sheared: its dashes become the hatching, and its sides stay upright."""
    return down(x + width / 2, height, dashes, f'stroke-width="{width}" transform="skewY({angle})"')


def down(x, height, dashes, more):
    return f'<path d="M{x:.2f} -300V{height + 300}" stroke="#000" stroke-dasharray="{dashes}" {more}/>'


PATTERNS = {"solid": solid, "hatched": hatched, "hollow": hollow, "dotted": dotted, "crossed": crossed}
