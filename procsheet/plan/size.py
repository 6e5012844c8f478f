"""How large the batch is: by weight, by volume, or by the number of packs."""

from fractions import Fraction

from procsheet import units
from procsheet.findings import Finding
from procsheet.model import quantities
from procsheet.model.method import Method
from procsheet.model.resolve import product_density
from procsheet.plan.plan import Order
from procsheet.syntax import tree
from procsheet.syntax.tokens import NUMBER


def read_size(text: str) -> Order | None:
    """`120 kg` or `50 L` as an order; None where it is neither."""
    match = NUMBER.fullmatch(text.strip())
    if not match or not match["low"] or not match["unit"]:
        return None
    unit = " ".join(match["unit"].split())
    kind, amount = units.dimension(unit), units.to_si(match["low"], unit)
    if amount <= 0 or kind not in ("mass", "volume"):
        return None
    return Order(mass=amount) if kind == "mass" else Order(volume=amount)


def factor(method: Method, order: Order) -> tuple[Fraction, list[Finding]]:
    """How many basis batches an order is."""
    density = _density(method)
    if order.units is not None:
        return _for_units(method, order.units, density)
    if order.mass is not None:
        return order.mass / method.mass, []
    if order.volume is not None:
        if method.by_volume:
            return order.volume / method.basis, []
        return order.volume * (density or Fraction(1000)) / method.mass, [] if density else [_no_density("a batch by volume")]
    return Fraction(1), []


def fits(method: Method, factor: Fraction, loss: Fraction = Fraction(0)) -> Fraction | None:
    """How many packs a batch fills at its lowest yield, when `loss` kg stay in hoppers and lines; None where a figure is missing."""
    figure, density = declared(method), _density(method)
    content = quantities.middle(figure) if figure is not None else None
    if not content or units.dimension(figure.unit) == "volume" and not density and not method.by_volume:
        return None
    if method.by_volume and units.dimension(figure.unit) == "volume":
        return factor * method.basis * _lowest(method) / content
    mass = content if units.dimension(figure.unit) == "mass" else content * (density or Fraction(1000))
    return max(factor * method.mass * _lowest(method) - loss, Fraction(0)) / mass


def declared(method: Method) -> tree.Quantity | None:
    """What one pack holds, as its label says."""
    entry = next((entry for pack in method.packs for entry in pack.lines if entry.key == "declared"), None)
    return next((word for word in entry.words if isinstance(word, tree.Quantity)), None) if entry else None


def _lowest(method: Method) -> Fraction:
    return min((low for _, low, _, _ in method.header.yields), default=Fraction(1))


def _for_units(method: Method, count: int, density: Fraction | None) -> tuple[Fraction, list[Finding]]:
    """units x fill x density / lowest yield."""
    figure = declared(method)
    content = quantities.middle(figure) if figure is not None else None
    if content is None:
        return Fraction(1), [Finding("STOP", "pack-content", "nothing says how much one pack holds",
                                     fix="Write it below `pack`: declared 75 mL", cannot_be_accepted=True)]
    lowest = _lowest(method)
    kind = units.dimension(figure.unit)
    if method.by_volume and kind == "volume":
        return count * content / lowest / method.basis, []
    mass = content if kind == "mass" else content * (density or Fraction(1000))
    return count * mass / lowest / method.mass, [] if kind == "mass" or density else [_no_density("filling by volume")]


def _density(method: Method) -> Fraction | None:
    return product_density(method)


def _no_density(what: str) -> Finding:
    return Finding("OPEN", "product-density", f"{what} needs the product's density; 1 g/mL is taken",
                   why="The batch may come out too small or too large by as much as its density differs from 1.",
                   fix="Write it below `limits`: density 0.96-1.00 g/mL at 25 °C")
